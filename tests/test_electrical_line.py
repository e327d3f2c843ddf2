"""Which nets are the line, what stands on it, and which class of capacitor each place wants."""

import pytest

from netcheck.core.diagnostic import Grade
from netcheck.electrical.mains.line import line_of, touched_metal
from netcheck.electrical.mains.line_parts import LinePosition, is_fit
from netcheck.model.graph import CircuitGraph
from tests.paper import checked, circuit, compared

CLASSES = ("", "X1", "X2", "Y1", "Y2")
# IEC 60384-14: X across the line, Y from the line to what is touched; Y may replace X, X must not replace Y.
FIT = {
    ("X1", "across"), ("X2", "across"), ("Y1", "across"), ("Y2", "across"), ("Y1", "to metal"), ("Y2", "to metal"),
}  # fmt: skip
SET = """
state {state}
cord P1
fuse F1 1 A
resistor R1 22k
capacitor C1 4700 mmfd 275 V {mark}
net line-a: P1.1, F1.1
net line-b: F1.2, R1.1, C1.1
net line-c: P1.2, R1.2{across}
net frame: chassis{metal}
"""


def state_of(state: str, mark: str, place: str) -> str:
    ends = (", C1.2", "") if place == "across" else ("", ", C1.2")
    return SET.format(state=state, mark=mark, across=ends[0], metal=ends[1])


@pytest.mark.parametrize("state", ["drawn", "found", "planned", "rewired"])
@pytest.mark.parametrize("place", ["across", "to metal"])
@pytest.mark.parametrize("mark", CLASSES)
def test_every_class_at_every_place_in_every_state(mark: str, place: str, state: str) -> None:
    told = [d.grade for d in checked(state_of(state, mark, place)).diagnostics if d.rule == "line-capacitor-class"]
    grave = Grade.STOP if state in ("planned", "rewired") else Grade.NOTE
    assert told == ([] if (mark, place) in FIT else [grave])


def test_what_may_stand_to_metal_may_stand_across() -> None:
    """The lattice: whatever is fit for the graver place is fit for the other, and nothing without a class is."""
    for mark in CLASSES:
        marks = frozenset({mark})
        assert is_fit(marks, LinePosition.ACROSS) or not is_fit(marks, LinePosition.TO_METAL)
    assert not any(is_fit(frozenset({"film", "ceramic"}), place) for place in LinePosition)


def test_a_line_goes_through_switch_fuse_and_choke_but_not_through_a_resistor() -> None:
    text = """
        common B-
        cord P1
        switch S1
        fuse F1 1 A
        coil L1 2 mH
        resistor R1 22 ohm
        resistor R2 22k
        choke L2 10 H
        coil L3 2 mH
        net a: P1.1, S1.1
        net b: S1.2, F1.1
        net c: F1.2, L1.1
        net d: L1.2, R1.1
        net e: R1.2, L2.1
        net f: L2.2, R2.1
        net B-: P1.2, R2.2, L3.1
        net g: L3.2
    """
    graph = CircuitGraph(circuit(text))
    line = line_of(graph)
    assert line is not None
    names = [{graph.net_names[net] for net in nets} for side in line.sides for nets in (side.nets, side.before)]
    assert names == [{"a", "b", "c", "d"}, {"a", "b"}, {"B-"}, {"B-"}]
    assert [[fuse.name for fuse in side.fuses] for side in line.sides] == [["F1"], []]


@pytest.mark.parametrize(
    ("part", "touched"),
    [
        ("lug G1 insulated exposed", "G1"),
        ("pot RV1 1 meg insulated exposed", "RV1.frame"),
        ("can C1 insulated exposed", "C1.can"),
        ("switch S1 insulated exposed", "S1.frame"),
        ("transformer T1 insulated exposed\nwinding T1 primary a b", "T1.frame"),
        ("choke L1 10 H insulated exposed", "L1.frame"),
        ("plug J1 3 pins exposed 2", "J1.2"),
        ("strip SP1 4 lugs insulated exposed 4", "SP1.4"),
    ],
)
def test_what_is_exposed_is_touched(part: str, touched: str) -> None:
    assert list(touched_metal(CircuitGraph(circuit(part))).values()) == ["chassis", touched]


@pytest.mark.parametrize("said", ["exposed 1 3", "exposed 1 exposed 3", "exposed 3 exposed 1 1"])
@pytest.mark.parametrize("part", ["strip SP1 4 lugs insulated", "plug SP1 4 pins"])
def test_of_several_that_are_exposed_none_is_forgotten(part: str, said: str) -> None:
    metal = touched_metal(CircuitGraph(circuit(f"{part} {said}")))
    assert sorted(metal.values()) == ["SP1.1", "SP1.3", "chassis"]


def test_what_is_on_the_chassis_is_the_chassis() -> None:
    assert list(touched_metal(CircuitGraph(circuit("lug G1 grounded exposed"))).values()) == ["chassis"]


ORIGINAL = """
state drawn
mains 117 V 60 Hz
cord P1
switch S1
resistor R1 22k
resistor R2 22k
capacitor C1 .01 mfd 400 V {paper}
capacitor C2 .1 mfd 400 V
strip SP1 5 lugs foot 3
net line-a: P1.1, R1.1, SP1.1
net line-b: P1.2, S1.1, SP1.2
net mid: R1.2, R2.1, C2.1
net B-: S1.2, R2.2, C2.2, C1.1, SP1.4
net frame: chassis, C1.2
"""
PAPER, SAFE = ORIGINAL.format(paper="paper"), ORIGINAL.format(paper="Y2")
WORK = 'state rewired\nstart from "original.netck"\n'


def told(original: str, rewired: str) -> list[str]:
    return [f"{d.grade.value}: {d.rule}" for d in compared(original, WORK + rewired).diagnostics]


def test_a_new_path_by_a_declared_change_is_an_error_of_its_own() -> None:
    report = compared(SAFE, WORK + 'resistor R70 22k from R1.2 to C1.2 added "discharges C2"\n')
    (hot,) = (d for d in report.diagnostics if d.rule == "hot-chassis")
    assert hot.grade is Grade.STOP
    assert "R70 (22k)" in hot.headline
    assert hot.why.startswith("in the original it is 0.44 mA")
    assert any("isolation transformer" in line for line in report.cautions)


@pytest.mark.parametrize(
    ("rewired", "rule"),
    [
        ("wire SP1.2 to SP1.3 black\n", "extra-connection"),
        ("move C2.2 to SP1.3\n", "lead-on-wrong-net"),
        ("change C1 .1 mfd 400 V Y2\n", "value-changed"),
        ("capacitor C70 .1 mfd 400 V Y2 from SP1.1 to SP1.3\n", "part-added"),
    ],
)
def test_a_path_that_a_fault_makes_is_told_in_that_fault(rewired: str, rule: str) -> None:
    report = compared(SAFE, WORK + rewired)
    (error,) = (d for d in report.diagnostics if d.grade is not Grade.NOTE)
    assert error.rule == rule
    assert "until then, " in error.why


def test_what_the_original_lets_through_is_noted_once() -> None:
    original = SAFE.replace(".01 mfd", ".05 mfd")
    assert told(original, "") == ["NOTE: hot-chassis"]
    assert told(original, "change C1 .047 mfd 400 V Y2\n") == ["NOTE: hot-chassis"]


def test_a_path_of_a_quarter_more_than_the_original_is_new() -> None:
    original = SAFE.replace(".01 mfd", ".05 mfd")
    added = 'resistor R70 50k from SP1.1 to SP1.3 added "why"\n'
    assert told(original, added) == ["STOP: hot-chassis", "LOOK: part-added"]


def test_the_original_keeps_its_paper_but_nobody_chooses_it_anew() -> None:
    assert told(PAPER, "") == []
    assert told(PAPER, "change C1 .01 mfd 630 V film\n") == ["STOP: line-capacitor-class"]
    assert told(PAPER, "change C1 .01 mfd 250 V Y2\n") == []
    replaced = "remove C1\ncapacitor C61 .01 mfd 630 V film from SP1.4 to SP1.3 replaces C1\n"
    assert told(PAPER, replaced) == ["STOP: line-capacitor-class"]


@pytest.mark.parametrize(
    ("rewired", "rule"),
    [
        ("wire R1.2 to SP1.1 black\n", "STOP: extra-connection"),  # C2 lies across the line now
        ("wire P1.2 to C1.2 black\nchange C2 .1 mfd 630 V film\n", "STOP: extra-connection"),  # and to the chassis
    ],
)
def test_what_a_fault_brings_to_the_line_is_told_of_the_fault_alone(rewired: str, rule: str) -> None:
    assert [line for line in told(SAFE, rewired) if not line.startswith("note")] == [rule]


def test_a_wrong_choice_is_told_beside_a_fault_elsewhere() -> None:
    graver = sorted(told(PAPER, "change C1 .01 mfd 630 V film\nchange R2 2.2k\n"))
    assert graver == ["STOP: line-capacitor-class", "STOP: value-changed"]


def test_a_base_may_accept_what_the_work_has_mended() -> None:
    original = SAFE.replace(".01 mfd", ".05 mfd") + 'accept hot-chassis C1 "as made"\n'
    mended = (
        WORK
        + 'change C1 .0047 mfd 400 V Y2\nfuse F1 1 A inserted "none before"\nlift P1.1\nfit F1 from P1.1 to SP1.1\n'
    )
    assert [d.rule for d in checked(original).diagnostics] == []
    assert [d.rule for d in checked(mended, original=original).diagnostics] == []


def test_exposed_wants_a_frame_that_is_declared_and_a_pin_that_is_there() -> None:
    for text in ("pot RV1 1 meg exposed\n", "plug J1 2 pins exposed 3\n", "strip SP1 2 lugs foot 1 exposed 9\n"):
        assert not checked(text).built


@pytest.mark.parametrize(("line", "rule"), [("leakage 0.5 V", "wrong-value"), ("leakage -1 mA", "unreadable-value")])
def test_a_limit_is_a_current(line: str, rule: str) -> None:
    assert [d.rule for d in checked(f"{line}\nresistor R1 1k\n").diagnostics] == [rule]


@pytest.mark.parametrize(("line", "built"), [("20000 ohm/V", True), ("11 meg", True), ("20 V", False), ("1 mA", False)])
def test_a_meter_has_ohms_per_volt_or_ohms(line: str, *, built: bool) -> None:
    assert checked(f"meter {line}\nresistor R1 1k\n").built is built


@pytest.mark.parametrize(("now", "made_so"), [("100k", True), ("82k", True), ("68k", False)])
def test_a_value_of_today_makes_no_new_path_to_the_chassis(now: str, *, made_so: bool) -> None:
    """82k for 100k lets 1.22 times the current through, as what is sold now does; 68k lets 1.47 times."""
    text = "mains 117 V 60 Hz\ncord P1\nresistor R1 {} 1 W\nnet line: P1.1, R1.1\nnet frame: chassis, R1.2\nspare P1.2"
    told = compared(text.format("100k"), text.format(now)).diagnostics
    assert [d.grade for d in told if d.rule == "hot-chassis"] == [Grade.NOTE] * made_so
    assert any("until then, 1.7 mA" in d.why for d in told if d.rule == "value-changed") is not made_so
