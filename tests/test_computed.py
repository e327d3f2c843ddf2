"""What is computed of a supply, in `check` and beside a comparison: believed, held back, accepted, told once."""

import math

import pytest

from netcheck.api import compare_three
from netcheck.compare.by_itself.volts import UNDRIVEN, UNSURE
from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.electrical.network.readings import charted, figures
from netcheck.electrical.network.supplies import has_supply, translated
from netcheck.electrical.proof.peaks import AtRest
from netcheck.electrical.stress import inverse_stresses, stresses
from netcheck.model.graph import CircuitGraph
from tests.paper import checked, circuit, compared, reader

LINE = 120 * math.sqrt(2)

SUPPLY = """mains 120 V 60 Hz
cord P1
diode D1 1000 V 1 A
electrolytic C1 40 mfd 250 V
electrolytic C2 40 mfd 250 V
electrolytic C3 40 mfd 250 V
resistor R1 1k 5 W
resistor R2 22k 5 W
resistor R3 22k 5 W
net hot: P1.1, D1.anode
net B+1: D1.cathode, C1+, R1.1
net B+2: R1.2, C2+, R2.1, R3.1
net B+3: R3.2, C3+
net ground: chassis, P1.2, C1-, C2-, C3-, R2.2
"""
BACKWARDS = (
    SUPPLY.replace("R2.1, R3.1", "R3.1").replace("C2+", "C2-, R2.1").replace("P1.2, C1-, C2-,", "P1.2, C1-, C2+,")
)
CUT = 'start from "original.netck"\nlift C3+\n'


def _told(original: str, rewired: str) -> list[tuple[str, str, tuple[str, ...]]]:
    report = compared(original, rewired)
    assert report.built
    return [(d.grade.value, d.rule, d.touched.parts) for d in _of_volts(report)]


def _of_volts(report: Report) -> list[Diagnostic]:
    """All but that the line is on the chassis of these small sets: tests/rules/hot-chassis.md is about that."""
    return [d for d in report.diagnostics if d.rule != "hot-chassis"]


# Inverse volts with nothing drawn, of one 120 V winding or line: textbook closed forms.
ONE_WAY = SUPPLY
BRIDGE = """mains 120 V 60 Hz
cord P1
diode D1 1000 V
diode D2 1000 V
diode D3 1000 V
diode D4 1000 V
electrolytic C1 40 mfd 250 V
resistor R1 100k
net a: P1.1, D1.anode, D3.cathode
net b: P1.2, D2.anode, D4.cathode
net B+: D1.cathode, D2.cathode, C1+, R1.1
net ground: chassis, D3.anode, D4.anode, C1-, R1.2
"""
DOUBLER = """mains 120 V 60 Hz
cord P1
diode D1 1000 V
diode D2 1000 V
electrolytic C1 100 mfd 250 V
electrolytic C2 100 mfd 250 V
resistor R1 100k
net hot: P1.1, D1.anode, D2.cathode
net B+: D1.cathode, C1+, R1.1
net half: P1.2, C1-, C2+
net ground: chassis, D2.anode, C2-, R1.2
"""


@pytest.mark.parametrize(("text", "peaks"), [(ONE_WAY, 2), (BRIDGE, 1), (DOUBLER, 2)])
def test_inverse_volts_are_the_closed_form(text: str, peaks: int) -> None:
    found = inverse_stresses(CircuitGraph(circuit(text)))
    assert found
    for one in found:
        assert one.cold == pytest.approx(peaks * LINE, rel=2e-3)
        assert one.cold_high == pytest.approx(1.1 * peaks * LINE, rel=2e-3)


def test_what_a_damper_could_raise_has_no_bound() -> None:
    text = SUPPLY + "tube V1 6W4GT\ndiode D3 1000 V\nresistor R8 1k\nresistor R9 1k\n"
    text += "net hot: R8.1\nnet sweep: R8.2, V1.plate\n"
    text += "net high: V1.cathode, D3.cathode, R9.1\nnet B+1: D3.anode\nnet ground: R9.2\n"
    volts = AtRest(translated(CircuitGraph(circuit(text))).network).inverse()
    assert volts["D3"] == math.inf
    assert math.isfinite(volts["D1"])


READINGS = [
    ("volts B+1 150 V", ["B+1 chassis 150"]),
    ("volts C1+ to C2+ 5 V", ["B+1 B+2 5"]),
    ("volts chassis to B+1 -150 V", ["chassis B+1 -150"]),
    ("volts P1.1 120 V AC", []),
    ("volts D1.cathode to B+1 1 V", []),
]


@pytest.mark.parametrize(("statement", "expected"), READINGS)
def test_a_reading_is_between_the_nodes_that_it_names(statement: str, expected: list[str]) -> None:
    graph = CircuitGraph(circuit(f"{SUPPLY}{statement}\n"))
    translation = translated(graph)
    names = translation.network.names
    found = figures(charted(graph, translation))
    assert [f"{names[plus]} {names[minus]} {volts:g}" for plus, minus, volts, _ in found] == expected
    assert {tolerance for *_, tolerance in found} <= {0.2}


def test_a_cathode_that_is_cut_off_hinders_no_engine() -> None:
    """Nothing but the tube's own current hangs on it, and that can go nowhere."""
    text = SUPPLY + "tube V1 6J5\nresistor R9 22k\nresistor R8 1 meg\nnet plate: V1.plate, R9.1\nnet B+2: R9.2\n"
    text += 'net grid: V1.grid, R8.1\nnet ground: R8.2\nspare V1.cathode, V1.heater-1, V1.heater-2 "cut off"\n'
    graph = CircuitGraph(circuit(text))
    for one in stresses(graph).capacitors:
        assert one.in_use is not None
        assert 100.0 < one.in_use < one.cold <= LINE


def test_a_file_without_rectifier_has_no_supply() -> None:
    assert not has_supply(CircuitGraph(circuit("resistor R1 1k\ntube V1 6SK7\nnet a: R1.1, V1.plate\n")))
    assert has_supply(CircuitGraph(circuit(SUPPLY)))


def test_a_wrong_joint_holds_back_what_is_computed_and_a_line_says_so() -> None:
    report = compared(SUPPLY, f"{CUT}change C2 47 mfd 350 V\n")
    assert [d.rule for d in _of_volts(report)] == ["missing-connection"]
    assert UNSURE in report.closing
    assert UNSURE not in compared(SUPPLY, 'start from "original.netck"\nchange C2 47 mfd 350 V\n').closing


def test_an_error_of_the_drawing_is_told_beside_a_wrong_joint() -> None:
    assert _told(BACKWARDS, CUT) == [
        ("STOP", "reversed-electrolytic", ("C2",)),
        ("STOP", "missing-connection", ("C3",)),
    ]


def test_a_reading_of_a_drawing_error_is_told_once_with_the_new_parts_name() -> None:
    rewired = (
        'start from "original.netck"\nremove C2\nelectrolytic C52 47 mfd 350 V plus chassis minus R2.1 replaces C2\n'
    )
    (found,) = _of_volts(compared(BACKWARDS, rewired))
    assert (found.grade, found.rule) == (Grade.STOP, "reversed-electrolytic")
    assert found.headline.startswith("in the original too: C52 is in backwards")
    assert found.why.endswith("the original is the same")
    assert found.why.startswith("proven: ")


def test_a_lead_that_turns_an_electrolytic_round_says_so_with_the_proof() -> None:
    """A cathode bypass whose minus went to B+1 is charged backwards through the line."""
    rewired = 'start from "original.netck"\nlift C3-\nwire C3- to R1.1\n'
    (found,) = _of_volts(compared(SUPPLY, rewired))
    assert found.rule == "lead-on-wrong-net"
    assert "this reverses C3; proven: B+1 is always more positive than B+3" in found.why


def test_a_reversed_rectifier_names_the_electrolytics_behind_it() -> None:
    rewired = 'start from "original.netck"\nremove D1\ndiode D5 1000 V 1 A anode C1+ cathode P1.1 replaces D1\n'
    (found,) = _of_volts(compared(SUPPLY, rewired))
    assert found.rule == "reversed-rectifier"
    assert found.why.startswith("this reverses C1, C2 and C3; proven: ")


def test_a_scope_leaves_the_volts_to_the_whole_chassis() -> None:
    rewired = (
        'start from "original.netck"\ncovers C3\nremove C2\nelectrolytic C52 47 mfd 350 V plus chassis minus R2.1\n'
    )
    report = compared(SUPPLY, rewired)
    assert UNSURE in report.closing
    assert "reversed-electrolytic" not in [d.rule for d in _of_volts(report)]


ACCEPTED = 'accept reversed-electrolytic C2 "the old part is nonpolar inside"\n'


def test_an_acceptance_permits_what_is_computed() -> None:
    report = checked(BACKWARDS + ACCEPTED)
    assert _of_volts(report) == []
    assert [accepted.diagnostic.rule for accepted in report.accepted] == ["reversed-electrolytic"]


def test_an_acceptance_for_the_comparison_is_not_unused_in_a_check() -> None:
    assert _of_volts(checked(SUPPLY + ACCEPTED)) == []


def test_an_acceptance_for_what_is_held_back_is_not_unused() -> None:
    turned = 'start from "original.netck"\nremove C3\nlift C2+, C2-\nwire C2- to R2.1\nwire C2+ to chassis\n'
    told = _told(SUPPLY, turned + ACCEPTED)
    assert [rule for _, rule, _ in told] == ["part-missing"]


def test_of_three_states_the_last_is_computed_and_told_once() -> None:
    texts = {
        "original.netck": f"state drawn\n{BACKWARDS}",
        "found.netck": 'state found\nstart from "original.netck"\n',
        "rewired.netck": 'state rewired\nstart from "found.netck"\n',
    }
    drawn, found, rewired = (Source(name, text) for name, text in texts.items())
    report = compare_three(drawn, found, rewired, reader(texts))
    assert [(d.grade, d.rule) for d in _of_volts(report)] == [(Grade.STOP, "reversed-electrolytic")]
    assert not _of_volts(report)[0].headline.startswith(("before", "as drawn"))


def test_what_is_accepted_does_not_hold_the_volts_back() -> None:
    assert UNSURE in compared(SUPPLY, CUT).closing
    assert UNSURE not in compared(SUPPLY, f'{CUT}accept missing-connection C3+ "not needed"\n').closing


PIECE = """resistor R1 1k 1 W
electrolytic C1 20 mfd 450 V
plug PL1 2 pins
net B+: PL1.1, R1.1, C1+
net ground: chassis, PL1.2, R1.2, C1-
"""


def test_silence_about_a_piece_of_a_set_says_that_volts_were_not_looked_at() -> None:
    change = 'start from "original.netck"\nchange C1 22 mfd 500 V\n'
    silent = compared(PIECE, change)
    assert silent.diagnostics == ()
    assert UNDRIVEN in silent.closing
    assert UNDRIVEN in silent.unchecked
    assert UNDRIVEN not in compared(PIECE, change + "lift R1.1\n").closing
    assert UNDRIVEN not in compared(PIECE, change + "mains 117 V 60 Hz\n").closing
    assert UNDRIVEN not in compared(SUPPLY, 'start from "original.netck"\nchange C2 47 mfd 350 V\n').closing
    bare = "resistor R1 1k 1 W\nresistor R2 1k 1 W\nnet a: R1.1, R2.1\nnet b: R1.2, R2.2\n"
    assert UNDRIVEN not in compared(bare, 'start from "original.netck"\nchange R1 1k 2 W\n').closing
