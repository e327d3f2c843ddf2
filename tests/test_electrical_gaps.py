"""What is missing or unusual in a file: gaps instead of numbers, lines below the common, two tubes in one bulb."""

import math

import pytest

from netcheck.electrical.network.elements import Load, Rectifier, VoltageSource
from netcheck.electrical.network.gaps import readings_of
from netcheck.electrical.proof.judgement import Surety, WayRound
from netcheck.electrical.proof.peaks import cold_peaks
from netcheck.electrical.study import judged
from netcheck.electrical.table.supply import supply
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit
from tests.test_electrical_translate import FULL_WAVE, HALF_WAVE, _kinds, _named, _translated


def test_a_set_without_mains_is_a_network_whose_volts_are_missing() -> None:
    """A proof needs no volts; what stands in their place is told of no one."""
    found = _translated(HALF_WAVE.replace("mains 117 V 60 Hz\n", ""))
    assert ("VoltageSource", "P1") in _kinds(found.network)
    assert [(gap.elements, gap.say) for gap in found.gaps] == [
        (frozenset({"P1"}), "add `mains`, for instance `mains 117 V 60 Hz`")
    ]
    assert not _translated(HALF_WAVE).gaps


@pytest.mark.parametrize(
    ("text", "without", "say"),
    [
        (FULL_WAVE, " 310-0-310 V", "T1 high: add its volts"),
        (FULL_WAVE, " 0-310", "T1 high: add its volts"),
        (HALF_WAVE, " 2.2k", "R1: add its ohms"),
        (HALF_WAVE, " 47 mfd", "C1: add its mfd"),
    ],
)
def test_a_value_that_is_missing_is_a_gap_and_no_number(text: str, without: str, say: str) -> None:
    whole, holed = _translated(text), _translated(text.replace(without, ""))
    assert [gap.say for gap in holed.gaps][:1] == ([say] if without != " 0-310" else [])
    assert len(whole.network.elements) == len(holed.network.elements)
    assert {type(one) for one in whole.network.elements} == {type(one) for one in holed.network.elements}


def test_four_numbers_are_the_volts_of_four_leads() -> None:
    text = FULL_WAVE.replace("3 4 5 310-0-310 V", "3 8 4 5 300-50-0-300 V") + "resistor R8 1k\nnet b: T1.8, R8.1\n"
    found = _translated(f"{text}net ground: R8.2\n")
    volts = [one.peak / math.sqrt(2) for one in found.network.elements if isinstance(one, VoltageSource)]
    assert volts[:3] == pytest.approx([250.0, 50.0, 300.0])


def test_the_primary_is_the_winding_on_the_line_whatever_it_is_called() -> None:
    found = _translated(FULL_WAVE.replace("primary 1 2 117 V 5 ohm", "mains 1 2"))
    assert isinstance(_named(found.network, "T1 high 1"), VoltageSource)
    assert "T1: its primary is made for 117 V" in found.defaults
    assert "T1: 5 % more volts with no load" in found.defaults


def test_without_a_cord_the_primary_is_the_winding_that_is_called_so() -> None:
    """A part of a set: the winding that is stated first is no more on the line than any other."""
    turned = FULL_WAVE.replace("cord P1\n", "").replace("P1.1, ", "").replace("P1.2, ", "")
    primary, high = "winding T1 primary 1 2 117 V 5 ohm\n", "winding T1 high 3 4 5 310-0-310 V 200 ohm\n"
    found = _translated(turned.replace(primary + high, high + primary))
    assert isinstance(_named(found.network, "T1 high 1"), VoltageSource)
    assert not any(one.name.startswith("T1 primary") for one in found.network.elements)


MINUS = """
mains 117 V 60 Hz
cord P1
diode D1 400 V
electrolytic C1 47 mfd 200 V
resistor R1 2.2k
electrolytic C2 47 mfd 200 V
net line: P1.1, D1.cathode
net raw: D1.anode, C1-, R1.1
net minus: R1.2, C2-
net ground: chassis, P1.2, C1+, C2+
draws minus 1 mA
"""


@pytest.mark.parametrize(
    ("text", "below"),
    [
        (MINUS, True),
        (MINUS.replace("D1.cathode", "x").replace("D1.anode", "D1.cathode").replace("x", "D1.anode"), False),
        (f"{MINUS}volts minus -150 V\n", True),
        (f"{MINUS}volts minus 150 V\n", False),
    ],
)
def test_a_line_below_the_common_draws_from_the_common(text: str, *, below: bool) -> None:
    found = _translated(text)
    load = _named(found.network, "draws minus")
    assert isinstance(load, Load)
    assert (load.minus, load.plus)[below] == 0


def test_a_rectifier_beside_a_tube_with_a_grid_is_both() -> None:
    basing = "basing X1: 1 heater-1, 2 heater-2, 3 plate-a, 4 grid-a, 5 grid-2-a, 6 cathode-a, 7 plate-b, 8 cathode-b\n"
    text = basing + HALF_WAVE.replace("diode D1 400 V", "tube V1 X1\nresistor R8 4.7k").replace("D1.anode", "V1.7")
    text = text.replace("D1.cathode", "V1.8, R8.1") + "net p: R8.2, V1.3, V1.5\nnet B-: V1.6\n"
    found = _translated(text)
    rectifier = _named(found.network, "V1")
    assert isinstance(rectifier, Rectifier)
    assert rectifier.driven
    assert ("Tube", "V1-a") in _kinds(found.network)


BUCKING = """
mains 117 V 60 Hz
cord P1 polarized
transformer T1 rise 0%
winding T1 primary 1 2 117 V
winding T1 low 3 4 12 V 0.5 ohm
diode D1 1000 V 1 A
electrolytic C1 47 mfd 250 V
resistor R1 100k
net hot: P1.hot, {first}, T1.3
net less: T1.4, D1.anode
net B+: D1.cathode, C1+, R1.1
net neutral: P1.neutral, {second}, C1-, R1.2
"""


@pytest.mark.parametrize(("first", "second", "volts"), [("T1.1", "T1.2", 105.0), ("T1.2", "T1.1", 129.0)])
def test_a_winding_in_series_with_the_line_bucks_or_adds_as_its_primary_is_connected(
    first: str, second: str, volts: float
) -> None:
    """3 is the start of the winding, on the hot side: with the primary's start there too it takes 12 V away."""
    found = _translated(BUCKING.format(first=first, second=second))
    peaks = cold_peaks(found.network)
    assert peaks["C1"] == pytest.approx(volts * math.sqrt(2) - 0.7, abs=0.5)


def test_what_a_tap_of_the_lines_winding_feeds_is_said_not_to_be_computed() -> None:
    text = BUCKING.replace("winding T1 primary 1 2 117 V", "winding T1 primary 1 9 2 117 V")
    text = (
        text.format(first="T1.1", second="T1.2") + "lamp LM1 6.3 V 150 mA\nnet tap: T1.9, LM1.1\nnet neutral: LM1.2\n"
    )
    assert "T1 primary: what its taps feed (an autotransformer)" in _translated(text).left_out


MIDDLE = """
mains 117 V 60 Hz
cord P1
transformer T1
winding T1 primary 1 2 117 V
winding T1 high 3 4 220 V 20 ohm
winding T1 low 5 6 50 V 20 ohm
diode D1 1N4007
diode D2 1N4007
electrolytic C1 20 mfd 450 V
electrolytic C2 20 mfd 450 V
electrolytic C3 10 mfd 450 V
resistor R1 47k 5 W
resistor R2{bled}
resistor R3{above}
resistor R4 100k
net line-a: P1.1, T1.1
net line-b: P1.2, T1.2
net high: T1.3, D1.anode
net low: T1.5, D2.cathode
net B+: D1.cathode, C1+, R1.1, R3.1
net minus: D2.anode, C2-, R2.1, R4.1
net middle: R3.2, R4.2, C3-
net ground: chassis, T1.4, T1.6, C1-, R1.2, C2+, R2.2, C3+
"""
STATE = "hot and cold, every value 25 and 50 % off"


def _middle(bled: str, above: str) -> tuple[Surety, WayRound, str]:
    found = judged(CircuitGraph(circuit(MIDDLE.format(bled=bled, above=above))))["C3"]
    return found.surety, found.way, found.state


def test_a_verdict_is_computed_whatever_one_missing_value_is() -> None:
    """The line below the common has 71 V at the most, half of them at the middle, and the other half of 311 V."""
    assert _middle(" 47k", " 100k") == (Surety.COMPUTED, WayRound.REVERSED, STATE)
    state = f"{STATE}, the missing value small and large"
    assert _middle("", " 100k") == (Surety.COMPUTED, WayRound.REVERSED, state)


def test_it_is_not_where_the_missing_value_decides_nor_where_two_are_missing() -> None:
    assert _middle(" 47k", "")[:2] == (Surety.UNPROVEN, WayRound.UNKNOWN)
    assert _middle("", "")[:2] == (Surety.UNPROVEN, WayRound.UNKNOWN)


SWEEP = """
mains 117 V 60 Hz
cord P1
diode D1 1000 V 1 A
electrolytic C1 47 mfd 250 V
resistor R1 1k 20 W
resistor R2 10k 2 W
resistor R3 100 ohm 1 W
tube V1 6BQ6GT
net line: P1.1, D1.anode
net B+: D1.cathode, C1+, R1.1, R2.1
net plate: R1.2, V1.plate
net screen: R2.2, V1.screen
net cathode: V1.cathode, R3.1
net ground: chassis, P1.2, C1-, R3.2, V1.grid, V1.heater-1, V1.heater-2
"""


def test_what_a_sweep_tube_draws_is_not_known_and_no_small_tubes_current() -> None:
    """Its heater takes 7.6 W; its plate gives what the drive makes it give, from nothing to 200 mA."""
    found = _translated(SWEEP)
    assert [(gap.elements, gap.say) for gap in found.gaps] == [
        (
            frozenset({"V1 plate current", "V1 screen current"}),
            "V1 6BQ6GT: add its current, `draws plate ... mA` and `draws screen ... mA`",
        )
    ]
    seen = [
        {one.name: one.amperes for one in each.elements if isinstance(one, Load)}["V1 plate current"]
        for each in readings_of(found.network, found.gaps)
    ]
    assert [min(seen), max(seen)] == pytest.approx([0.001, 0.2])
    assert not [said for said in found.defaults if said.startswith("V1")]
    table = supply(CircuitGraph(circuit(SWEEP)))
    assert all(math.isnan(row.running) for row in table.lines)
    assert all(math.isnan(row.running) for row in table.capacitors)
    assert {row.name: row.verdict.way for row in table.capacitors} == {"C1": WayRound.RIGHT}


@pytest.mark.parametrize(
    "draws", ["draws B+ 70 mA", "draws plate 60 mA\ndraws screen 6 mA"], ids=["of the line", "each"]
)
def test_with_its_current_stated_nothing_is_missing(draws: str) -> None:
    assert not _translated(SWEEP + draws).gaps
    assert [gap.say for gap in _translated(f"{SWEEP}draws plate 60 mA").gaps] == [
        "V1 6BQ6GT: add its current, `draws screen ... mA`"
    ]


# Watts of the heater for each unit, by the volts and amperes of any tube manual.
@pytest.mark.parametrize(
    ("type_", "unknown"),
    [
        ("6CD6G", True), ("6BG6G", True), ("6BL7GT", True), ("6AS7G", True),
        ("6SN7GT", False), ("6AC7", False), ("6W6GT", False),
    ],
)  # fmt: skip
def test_only_a_large_tube_without_figures_is_unknown(type_: str, *, unknown: bool) -> None:
    """A 6SN7 has 1.9 W for each of its triodes, a 6AC7 2.8; a 6W6GT has 7.6 and its figures."""
    two = "-a" if type_ in ("6BL7GT", "6AS7G", "6SN7GT") else ""
    text = SWEEP.replace("6BQ6GT", type_).replace("net screen: R2.2, V1.screen", "net screen: R2.2")
    text = text.replace("V1.plate", f"V1.plate{two}").replace("V1.cathode", f"V1.cathode{two}")
    assert bool(_translated(text.replace("V1.grid", f"V1.grid{two}")).gaps) is unknown


STRING = """
mains 117 V 60 Hz
common B-
cord P1
diode D1 1000 V 1 A
electrolytic C1 47 mfd 250 V
resistor R1 10k 5 W
resistor R9 {}20 W
tube V1 50L6GT
tube V2 12SQ7
net line: P1.1, D1.anode, R9.1
net h1: R9.2, V1.2
net h2: V1.7, V2.7
net B+: D1.cathode, C1+, R1.1
net B-: P1.2, V2.8, C1-, R1.2
"""


def test_of_a_string_with_a_resistor_without_ohms_no_heater_is_told() -> None:
    """50 and 12.6 V at 150 mA leave 54 V, for 360 ohm. What stood in the place of missing ones starved every heater."""
    whole, holed = (supply(CircuitGraph(circuit(STRING.format(ohms)))) for ohms in ("360 ohm ", ""))
    assert [round(row.volts, 1) for row in whole.heaters[0].heaters] == [50.1, 12.6]
    assert holed.heaters == ()
    assert "the heater string on P1: R9: add its ohms" in holed.left_out


def test_a_proof_needs_no_trial_of_the_missing_value() -> None:
    """What joins the two ends does so at any ohms; only what is calculated is said to be tried small and large."""
    (proven,) = judged(CircuitGraph(circuit(HALF_WAVE.replace(" 2.2k", "")))).values()
    assert (proven.surety, proven.way) == (Surety.PROVEN, WayRound.RIGHT)
    assert "small and large" not in proven.state + proven.reason


def test_a_set_without_a_supply_is_a_network_of_the_common_alone() -> None:
    found = _translated("resistor R1 1k\nresistor R2 1k\nnet a: R1.1, R2.1\nnet ground: chassis, R1.2, R2.2\n").network
    assert (found.count, found.elements, len(found.names)) == (1, (), 1)
