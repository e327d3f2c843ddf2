"""A trace takes over the names of nets, and with them what the drawing says of these nets."""

import re
from pathlib import Path

import pytest

from netcheck.api import supply
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.model.graph import CircuitGraph
from tests.paper import built, checked, circuit, compared, reader

SKERRY = Path(__file__).parent.parent / "samples" / "skerry"

ORIGINAL = """state drawn
mains 117 V 60 Hz
common B-
apart B-, chassis "the line is on B-"
cord P1
tube V1 35Z5GT
resistor R21 600 ohm 20 W
electrolytic C1 40 mfd 200 V
electrolytic C2 20 mfd 200 V
resistor R1 1k 5 W
resistor R2 4.7k 10 W
strip SP1 5 lugs foot 3
net line: P1.1, R21.1, V1.5
net h: R21.2, V1.2
net B+1: V1.8, C1+, R1.1
net B+2: R1.2, C2+, R2.1
net B-: P1.2, C1-, C2-, R2.2, V1.7
spare V1.3
draws B+1 30 mA
supply B+2 to B- 100 V "an external one"
volts B+2 100 V
"""
TRACE = """parts from "original.netck"
state rewired
fit C1 plus SP1.1 minus SP1.5
at SP1.1: R1.1
wire SP1.1 to V1.8
wire SP1.5 to C2-
at V1.2: R21.2
at P1.1: R21.1
wire P1.1 to V1.5
at C2+: R1.2, R2.1
wire C2- to P1.2 to V1.7
at V1.7: R2.2
"""


def leads_beside(name: str, trace: str, original: str = ORIGINAL) -> set[str]:
    """The leads on the net of a name."""
    graph = CircuitGraph(circuit(trace, original=original))
    return {graph.point(at).name for at in graph.leads_on(graph.circuit.net_of(name))}


def told(report: Report) -> list[str]:
    return [f"{d.grade.value}: {d.headline}" for d in report.diagnostics if d.rule == "net-not-placed"]


def test_a_name_stays_with_its_leads() -> None:
    assert leads_beside("B+1", TRACE) == {"C1+", "R1.1", "V1.8"}
    assert leads_beside("B-", TRACE) == {"C1-", "C2-", "P1.2", "V1.7", "R2.2"}


def test_it_stays_with_most_of_them_and_joins_none() -> None:
    apart = TRACE.replace("at SP1.1: R1.1\n", "at SP1.2: R1.1\n")
    assert leads_beside("B+1", apart) == {"C1+", "V1.8"}
    state = circuit(apart, original=ORIGINAL)
    assert state.net_of("R1.1") != state.net_of("B+1")


def test_a_lead_that_is_on_nothing_has_no_say() -> None:
    """Two of the three leads of B+1 are alone; the third is on a lug."""
    alone = TRACE.replace("wire SP1.1 to V1.8\n", "").replace("at SP1.1: R1.1\n", "")
    assert leads_beside("B+1", alone) == {"C1+"}


def test_of_two_nets_with_as_many_leads_neither_has_the_name_and_that_is_said() -> None:
    even = TRACE.replace("wire SP1.1 to V1.8\n", "").replace("at SP1.1: R1.1\n", "wire R1.1 to C2+\n")
    even = even.replace("wire C2- to P1.2 to V1.7", "wire C2- to P1.2 to V1.7\nat V1.8: SP1.2")
    assert leads_beside("B+1", even) == set()
    report = checked(even, original=ORIGINAL)
    assert told(report) == ["LOOK: nothing in this trace says which net is `B+1`: this line is not looked at"]
    twice = checked(even, original=ORIGINAL + "volts B+1 100 V\n")
    assert told(twice) == told(report)
    named = even + "net B+1: V1.8\n"
    assert leads_beside("B+1", named) == {"V1.8"}
    assert told(checked(named, original=ORIGINAL)) == []


def test_what_nobody_speaks_of_is_not_missed() -> None:
    """The net `h` has one lead here and one there; no line is about it."""
    even = TRACE.replace("at V1.2: R21.2", "wire R21.2 to SP1.2\nwire V1.2 to SP1.4")
    assert told(checked(even, original=ORIGINAL)) == []


def test_a_trace_with_a_name_of_its_own_keeps_it() -> None:
    assert leads_beside("B+1", TRACE + "net B+1: C2+\n") == {"C2+", "R1.2", "R2.1"}
    other = circuit(TRACE + "net filter: C1+\n", original=ORIGINAL)
    assert CircuitGraph(other).declared_names(other.net_of("R21.2")) == ("h",)


def test_a_net_that_is_named_anew_has_no_second_name_unless_a_line_needs_it() -> None:
    state = circuit(TRACE + "net mains: P1.1\nnet first: C1+\n", original=ORIGINAL)
    graph = CircuitGraph(state)
    assert set(graph.declared_names(state.net_of("P1.1"))) == {"mains"}
    assert set(graph.declared_names(state.net_of("C1+"))) == {"first", "B+1"}


def test_what_was_on_the_chassis_is_on_the_chassis() -> None:
    grounded = ORIGINAL.replace("net B-: P1.2", "net B-: chassis, P1.2").replace(
        'apart B-, chassis "the line is on B-"\n', ""
    )
    state = circuit(TRACE, original=grounded)
    assert state.net_of("B-") == state.net_of("chassis")
    assert state.net_of("P1.2") != state.net_of("chassis")


def test_what_is_kept_apart_is_kept_apart_in_a_trace_too() -> None:
    report = checked(TRACE + "wire SP1.5 to SP1.3\n", original=ORIGINAL)
    assert [d.grade.value for d in report.diagnostics if d.rule == "not-apart"] == ["STOP"]


def test_currents_readings_and_supplies_are_on_the_same_leads_in_either_form() -> None:
    trace = circuit(TRACE, original=ORIGINAL)
    drawn = circuit(ORIGINAL)
    assert [one.point for one in trace.loads] == [one.point for one in drawn.loads] == ["B+1"]
    assert trace.net_of(trace.loads[0].point) == trace.net_of("C1+")
    assert trace.net_of(trace.charts[0].point) == trace.net_of(trace.supplies[0].point) == trace.net_of("C2+")
    assert trace.net_of(trace.supplies[0].to) == trace.net_of(trace.common) == trace.net_of("C1-")


def test_a_trace_of_what_a_work_log_leaves() -> None:
    """What the log lifts is on something there, though the trace takes over no joint."""
    log = """start from "original.netck"
state planned
remove C1
lift R1.1
electrolytic C51 47 mfd 200 V plus SP1.1 minus SP1.5 replaces C1
at SP1.1: R1.1
wire SP1.1 to V1.8
wire SP1.5 to C2-
"""
    trace = TRACE.replace('"original', '"log').replace("C1 ", "C51 ")
    state, problems = built(trace, original=ORIGINAL, log=log)
    assert state is not None, [d.headline for d in problems]
    assert state.net_of("B+1") == state.net_of("C51+")
    report = compared(ORIGINAL, trace, log=log)
    assert [d.headline for d in report.diagnostics if d.grade.value != "NOTE"] == []
    wrong = compared(ORIGINAL, trace.replace("at SP1.1: R1.1", "at SP1.2: R1.1"), log=log)
    assert [d.rule for d in wrong.diagnostics if d.grade.value == "STOP"] == ["missing-connection"]


@pytest.mark.parametrize("kept", [True, False])
def test_the_sample_has_the_same_figures_without_names_of_its_own(*, kept: bool) -> None:
    original, trace = ((SKERRY / f"{name}.netck").read_text(encoding="utf-8") for name in ("original", "traced"))
    text = trace if kept else re.sub(r"^net .*\n", "", trace, flags=re.MULTILINE)
    assert (text == trace) is kept
    report = compared(original, text)
    assert [d.headline for d in report.diagnostics if d.grade.value != "NOTE"] == []
    _, table = supply(Source("traced.netck", text), reader({"original.netck": original}))
    assert table is not None
    volts = {line.name: line.running for line in table.lines}
    assert volts["B+1"] == pytest.approx(126, abs=1)
    assert volts["B+2"] == pytest.approx(106, abs=1)
