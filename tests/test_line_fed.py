"""Two primaries in series take the line together: each gets half, and a secondary makes what it is made for."""

import pytest

from netcheck.electrical.network.elements import VoltageSource
from netcheck.electrical.network.translate import network_of
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

SET = """
mains {mains} V 50 Hz
cord P1
transformer T1
winding T1 primary p-a p-b 117 V 5 ohm
winding T1 second q-a q-b {second}
winding T1 high red-a red-b 250 V 60 ohm
diode D1 1N4007
electrolytic C1 10 mfd 450 V
resistor R1 22k 20 W
{primaries}
net h: T1.red-a, D1.anode
net B+: D1.cathode, C1+, R1.1
net ground: chassis, T1.red-b, C1-, R1.2
"""
SERIES = "net a: P1.1, T1.p-a\nnet m: T1.p-b, T1.q-a\nnet b: P1.2, T1.q-b"
TURNED = "net a: P1.2, T1.p-a\nnet m: T1.p-b, T1.q-a\nnet b: P1.1, T1.q-b"
OPPOSED = "net a: P1.1, T1.p-a\nnet m: T1.p-b, T1.q-b\nnet b: P1.2, T1.q-a"
SELECTOR = """
switch S2 drawn {drawn}
position S2 high: 1 2
position S2 low: 1 3, 2 4
net a: P1.1, T1.p-a, S2.4
net end: T1.p-b, S2.1
net start: T1.q-a, S2.2
net b: P1.2, T1.q-b, S2.3
"""


def _high(primaries: str, mains: int = 234, second: str = "117 V 5 ohm") -> VoltageSource:
    text = SET.format(mains=mains, primaries=primaries, second=second)
    elements = network_of(CircuitGraph(circuit(text))).network.elements
    (found,) = (one for one in elements if isinstance(one, VoltageSource))
    return found


@pytest.mark.parametrize(("primaries", "second"), [(OPPOSED, "117 V 5 ohm"), (SERIES, "5 ohm"), (OPPOSED, "5 ohm")])
def test_what_windings_feed_that_cancel_or_state_no_volts_has_none(primaries: str, second: str) -> None:
    text = SET.format(mains=234, primaries=primaries, second=second)
    gaps = network_of(CircuitGraph(circuit(text))).gaps
    assert [gap.say for gap in gaps] == ["T1: the volts and the sense of primary and second, in series across the line"]


def test_a_secondary_of_two_primaries_in_series_makes_its_own_volts() -> None:
    """A transformer's volts go as its turns: 250 of 234, and the ohms of both primaries by the square of that."""
    found = _high(SERIES)
    assert found.peak == pytest.approx(250 * 2**0.5)
    assert found.ohms == pytest.approx(60 + (5 + 5) * (250 / 234) ** 2)


def test_primaries_in_series_turned_round_together_turn_the_secondary() -> None:
    assert _high(TURNED).peak == pytest.approx(-250 * 2**0.5)


def test_a_bucking_winding_in_series_with_the_primary_raises_the_others() -> None:
    """At 105 V across 117 V less 12 V of turns, a secondary makes its full volts."""
    assert _high(OPPOSED, mains=105, second="12 V 1 ohm").peak == pytest.approx(250 * 2**0.5)


def test_ohms_of_one_primary_alone_are_not_told_of_both() -> None:
    assert _high(SERIES, second="117 V").ohms == pytest.approx(60)


@pytest.mark.parametrize(("drawn", "mains"), [("high", 234), ("low", 117)])
def test_a_voltage_selector_is_taken_as_it_is_drawn(drawn: str, mains: int) -> None:
    assert _high(SELECTOR.format(drawn=drawn), mains).peak == pytest.approx(250 * 2**0.5)


def test_a_selector_for_the_lower_line_doubles_the_volts_on_the_higher() -> None:
    assert _high(SELECTOR.format(drawn="low"), 234).peak == pytest.approx(500 * 2**0.5)
