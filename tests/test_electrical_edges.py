"""At the edges of a supply: what reaches a tube without being part of it, what is said of a value that is missing."""

import pytest

from netcheck.api import check
from netcheck.core.source import Source
from netcheck.electrical.network.supplies import translated
from netcheck.electrical.proof.judgement import Surety, WayRound
from netcheck.electrical.stress import charges
from netcheck.electrical.study import judged
from netcheck.electrical.table.supply import supply
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from tests.paper import checked, compared, reader

SET = """
mains 120 V 60 Hz
cord P1
transformer T1
winding T1 primary 1 2 120 V
winding T1 high 3 4 250 V 20 ohm
diode D1 2000 V 1 A
electrolytic C1 40 mfd 450 V
resistor R1 100k 5 W
resistor R2 100k
resistor R3 2.2k
tube V1 6J5
electrolytic C2 10 mfd 25 V
capacitor C3{value} 600 V
net line-a: P1.1, T1.1
net line-b: P1.2, T1.2
net high: T1.3, D1.anode, C3.1
net B+: D1.cathode, C1+, R1.1, R2.1
net plate: V1.plate, R2.2, {c3}
net k: V1.cathode, R3.1, C2+
net ground: chassis, T1.4, C1-, R1.2, R3.2, C2-, V1.grid, V1.heater-1, V1.heater-2{rest}
"""


def _graph(text: str) -> CircuitGraph:
    circuit, problems = build(Source("set.netck", text), reader({}))
    assert circuit is not None, problems
    return CircuitGraph(circuit)


@pytest.mark.parametrize("value", [" 1 mfd", " .1 mfd", " .01 mfd", ""])
def test_a_tube_that_any_capacitor_ties_to_a_winding_may_rectify(value: str) -> None:
    """Its plate swings with the winding: by figures B+ is above the common all the same."""
    graph = _graph(SET.format(value=value, c3="C3.2", rest=""))
    assert "V1" in translated(graph).network.swinging
    first = judged(graph)["C1"]
    assert (first.surety, first.way) == (Surety.COMPUTED, WayRound.RIGHT)


def test_one_that_nothing_ties_to_it_does_not() -> None:
    graph = _graph(SET.format(value=" .1 mfd", c3="R2.2", rest=", C3.2"))
    assert not translated(graph).network.swinging
    first = judged(graph)["C1"]
    assert (first.surety, first.way) == (Surety.PROVEN, WayRound.RIGHT)


@pytest.mark.parametrize(
    ("old", "new", "say"),
    [
        (" 250 V 20 ohm", "", "T1 high: add its volts"),
        ("R1 100k 5 W", "R1", "R1: add its ohms"),
        ("mains 120 V 60 Hz\n", "", "add `mains`, for instance `mains 117 V 60 Hz`"),
    ],
)
def test_a_check_says_what_it_could_not_calculate_and_which_word_to_add(old: str, new: str, say: str) -> None:
    text = SET.format(value=" .1 mfd", c3="C3.2", rest="")
    whole, holed = (check(Source("set.netck", each), reader({})) for each in (text, text.replace(old, new)))
    line = f"NOT CALCULATED: volts, ratings, heat and discharge that rest on what is not stated; {say}"
    assert [each for each in holed.unchecked if each.startswith("NOT CALCULATED")] == [line]
    assert line in holed.closing
    assert not any(each.startswith("NOT CALCULATED") for each in (*whole.unchecked, *whole.closing))


@pytest.mark.parametrize(
    ("old", "say"),
    [(" 250 V 20 ohm", "T1 high: add its volts"), ("100k 5 W", "R1: add its ohms")],
)
def test_a_comparison_says_what_it_could_not_calculate(old: str, say: str) -> None:
    text = SET.format(value=" .1 mfd", c3="C3.2", rest="")
    line = f"NOT CALCULATED: volts, ratings, heat and discharge that rest on what is not stated; {say}"
    short = text.replace(old, "")
    holed, whole = compared(short, short), compared(text, text)
    assert line in holed.unchecked
    assert line in holed.closing
    assert not any("NOT CALCULATED" in each for each in (*whole.unchecked, *whole.closing))


STANDS = """position S1 up: 1 2
position S1 down: 1 3
resistor R4 10k 5 W
net low: S1.3, R4.2
at C1+: R4.1
at D1.cathode: S1.2
"""


@pytest.mark.parametrize(
    ("switch", "said"),
    [
        ("switch S1 drawn up\n" + STANDS, ""),
        ("switch S1\n" + STANDS, "S1 at up"),
        ("switch S1\nat D1.cathode: S1.2\n", "S1 closed"),
        ("switch S1\nswitch S2\nat R2.1: S2.1\nat R2.2: S2.2\n" + STANDS, "S1 at up and S2 closed"),
    ],
)
def test_figures_of_a_switch_whose_position_is_not_stated_are_called_those_of_one(switch: str, said: str) -> None:
    """It opens B+, so that the volts behind it are those of its first position alone."""
    text = SET.format(value=" .1 mfd", c3="R2.2", rest=", C3.2").replace("D1.cathode, C1+", "S1.1, C1+") + switch
    line = f"with switches otherwise than {said}; write in which position each is `drawn`"
    told = [each for each in checked(text).unchecked if each.startswith("NOT CALCULATED")]
    assert told == ([f"NOT CALCULATED: volts, ratings, heat and discharge {line}"] if said else [])
    assumed = supply(_graph(text)).defaults
    assert [each for each in assumed if each.startswith(("S1", "S2"))] == (said.split(" and ") if said else [])


@pytest.mark.parametrize(("count", "tried"), [(1, True), (4, True), (5, False)])
def test_a_capacitor_is_right_in_any_position_of_a_switch_as_long_as_all_can_be_tried(
    count: int, *, tried: bool
) -> None:
    """Four switches stand in sixteen ways, five in thirty-two; each puts a bleeder across B+ or leaves it off."""
    bleeders = "".join(
        f"switch S{n}\nresistor R1{n} 100k 5 W\nat B+: S{n}.1\nnet x{n}: S{n}.2, R1{n}.1\nat ground: R1{n}.2\n"
        for n in range(count)
    )
    first = judged(_graph(SET.format(value=" .1 mfd", c3="R2.2", rest=", C3.2") + bleeders))["C1"]
    assert first.is_certain is tried
    assert (first.way is WayRound.RIGHT) is tried
    assert ("the position of S0, S1" in first.reason) is not tried


PENTODE_TOO = """
basing ZZ7: 1 heater-1, 8 heater-2, {basing}
mains 120 V 60 Hz
cord P1
tube V1 ZZ7
electrolytic C1 20 mfd 250 V
resistor R1 22k 2 W
resistor R2 500 ohm 50 W
net la: P1.1, V1.7, V1.1
net h: V1.8, R2.1
net B+: V1.6, C1-, R1.1, V1.2, V1.3
net B-: P1.2, C1+, R1.2, R2.2, V1.4, V1.5
"""


def test_a_rectifier_beside_a_pentode_feeds_what_hangs_on_it() -> None:
    named = "2 plate-a, 3 grid-2-a, 4 grid-1-a, 5 cathode-a, 6 cathode-b, 7 plate-b"
    report = checked(PENTODE_TOO.format(basing=named))
    assert "reversed-electrolytic" in [d.rule for d in report.diagnostics]
    assert not any("NOT CALCULATED" in each for each in (*report.unchecked, *report.closing))


def test_what_nothing_leads_to_that_makes_direct_current_is_said() -> None:
    """`grid-2` may be the pentode's screen, or make a second triode of what has the plate 2."""
    named = "2 plate, 3 grid-2, 4 grid-1, 5 cathode, 6 cathode-2, 7 plate-2"
    report = checked(PENTODE_TOO.format(basing=named))
    line = "NOT CALCULATED: polarity and volts of C1: nothing that makes DC leads there"
    assert line in (*report.unchecked, *report.closing)
    undriven = checked(
        PENTODE_TOO.format(basing=named).replace("mains 120 V 60 Hz\ncord P1\n", "").replace("P1.1, ", "")
    )
    assert line not in (*undriven.unchecked, *undriven.closing)


def test_a_capacitor_that_only_a_tube_charges_is_charged_to_what_it_runs_at() -> None:
    """A cathode bypass has no volts cold; 3 mA through 2.2k."""
    graph = _graph(SET.format(value=" .1 mfd", c3="R2.2", rest=", C3.2"))
    (row,) = [one for one in supply(graph).capacitors if one.name == "C2"]
    assert row.cold == pytest.approx(0.0, abs=0.1)
    assert charges(graph)["C2"] == pytest.approx(row.running, rel=0.02)
    assert row.running > 1.0


@pytest.mark.parametrize("first", ["start", "parts"])
def test_what_a_later_file_states_of_a_line_goes_before_what_its_original_did(first: str) -> None:
    """Both currents together would be those of two sets."""
    text = SET.format(value=" .1 mfd", c3="C3.2", rest="")
    joints = text[text.index("net line-a") :] if first == "parts" else ""
    later = f'{first} from "original.netck"\n{joints}draws B+ 30 mA\n'
    circuit, problems = build(Source("later.netck", later), reader({"original.netck": text + "draws B+ 20 mA\n"}))
    assert circuit is not None, problems
    assert [(load.point, load.value.written) for load in circuit.loads] == [("B+", "30 mA")]
