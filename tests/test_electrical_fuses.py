"""The fuse of a set: which one is told, and from which share of what the set takes one is told at all."""

import pytest

from netcheck.core.diagnostic import Diagnostic
from netcheck.electrical.drawn import LineDraw, drawn
from netcheck.electrical.fuses import fuse_for
from netcheck.model.graph import CircuitGraph
from tests.paper import checked, circuit

SET = """state {state}
mains 117 V 60 Hz
common back
cord P1
fuse F1 {fuse} A
diode D1 1N5408
resistor R1 10 ohm 20 W
electrolytic C1 47 mfd 250 V
resistor R2 {load} ohm 100 W
net in: P1.1, F1.1
net line: F1.2, R1.1
net rect: R1.2, D1.anode
net B+: D1.cathode, C1+, R2.1
net back: P1.2, C1-, R2.2
"""
# What is sold, by its next smaller; a half more than what flows is the least that is fitted.
SIZES = (0.25, 0.3, 0.5, 0.75, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0)


def text(fuse: float, load: int, state: str = "rewired") -> str:
    return SET.format(fuse=f"{fuse:.4f}", load=load, state=state)


def taken(load: int) -> LineDraw:
    found = drawn(CircuitGraph(circuit(text(1, load))))
    assert found is not None
    return found


def told(fuse: float, load: int, state: str = "rewired") -> list[tuple[str, str]]:
    return [(d.grade.value, d.rule) for d in findings(fuse, load, state)]


def findings(fuse: float, load: int, state: str = "rewired") -> list[Diagnostic]:
    return [d for d in checked(text(fuse, load, state)).diagnostics if d.rule.startswith("fuse-too")]


@pytest.mark.parametrize("size", SIZES)
def test_a_fuse_is_a_half_more_than_what_flows(size: float) -> None:
    assert fuse_for(size / 1.5 * 0.999) == size
    assert fuse_for(size / 1.5 * 1.001) > size or size == SIZES[-1]


def test_more_than_any_fuse_takes_the_largest() -> None:
    assert fuse_for(100.0) == SIZES[-1]


@pytest.mark.parametrize(("share", "grade"), [(4.95, None), (5.05, "LOOK"), (9.95, "LOOK"), (10.05, "STOP")])
def test_five_times_what_a_set_takes_is_a_lot_and_ten_times_no_protection(share: float, grade: str | None) -> None:
    most = taken(500).most
    assert most > 0.25
    assert told(share * most, 500) == ([] if grade is None else [(grade, "fuse-too-large")])


def test_in_a_drawing_it_is_looked_at_and_no_more() -> None:
    assert told(20 * taken(500).most, 500, "drawn") == [("LOOK", "fuse-too-large")]


@pytest.mark.parametrize(("amperes", "grade"), [(0.99, None), (1.01, "LOOK"), (1.99, "LOOK"), (2.01, "STOP")])
def test_a_set_that_takes_next_to_nothing_has_a_fuse_of_one_ampere(amperes: float, grade: str | None) -> None:
    assert taken(22000).most < 0.1
    assert told(amperes, 22000) == ([] if grade is None else [(grade, "fuse-too-large")])


def test_a_fuse_of_less_than_the_least_that_flows_is_too_small() -> None:
    least = taken(500).least
    assert told(1.01 * least, 500) == []
    assert told(0.99 * least, 500) == [("LOOK", "fuse-too-small")]


def test_the_fuse_that_is_told_is_that_of_what_about_flows() -> None:
    (large,), (small,) = findings(50, 500), findings(0.1, 500)
    wanted = f"fit a fuse for {fuse_for(taken(500).about):g} A, slow"
    assert (large.do, small.do) == (wanted, wanted)


def test_what_is_taken_is_what_flows_within_the_margins() -> None:
    """Nothing but the cord feeds this set: its effective current, four fifths of it, and a third more."""
    found = taken(500)
    assert found.least == pytest.approx(0.8 * found.about)
    assert found.most == pytest.approx(1.3 * found.about)
