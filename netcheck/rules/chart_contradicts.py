"""The readings or currents in the file can't all be right for this circuit.

Either a joint or a value in the file is wrong, or a reading was not taken the way the file says (to another point, with
a switch in another position, before a part failed). A reading counts as good within 20 %, a stated current within
30 %, a resistor within its tolerance. While they contradict each other no polarity is calculated from them.

Wrong:

    mains 120 V 60 Hz
    cord P1
    transformer T1
    winding T1 primary black-a black-b 120 V 10 ohm
    winding T1 high red-a red-b 120 V 20 ohm
    diode D1 1000 V 1 A
    electrolytic C1 40 mfd 250 V
    electrolytic C2 40 mfd 250 V
    resistor R1 1k 5 W
    resistor R2 22k 5 W
    net line-a: P1.1, T1.black-a
    net line-b: P1.2, T1.black-b
    net high: T1.red-a, D1.anode
    net B+1: D1.cathode, C1+, R1.1
    net B+2: R1.2, C2+, R2.1
    net ground: chassis, T1.red-b, C1-, C2-, R2.2
    volts B+1 150 V
    volts B+2 15 V

Right:

    start from "wrong.netck"
    change R1 220k 1/2 W

Source: Kirchhoff's and Ohm's laws with tolerances; 20 % for a service chart is common practice.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from netcheck.core.circuit import Chart, StatedLoad
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.headline import fitting
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph

if TYPE_CHECKING:
    from netcheck.electrical.polarities import Doubt

MOST = 4  # places that are shown


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    if not (graph.circuit.charts or graph.circuit.loads):
        return
    from netcheck.electrical.network.readings import CHART_TOLERANCE
    from netcheck.electrical.polarities import polarities

    doubt = polarities(graph).doubt
    if doubt is not None:
        yield _of_readings(graph, doubt, CHART_TOLERANCE) if doubt.readings else _of_currents(graph, doubt)


def _of_readings(graph: CircuitGraph, doubt: "Doubt", tolerance: float) -> Finding:
    said = [_words(chart) for chart in doubt.readings]
    several = len(said) > 1
    return Finding(
        fitting(
            f"the readings don't fit the circuit: {' or '.join(said)} can't be right"
            if doubt.each
            else f"the readings don't fit the circuit: {len(said)} of them can't all be right",
            "the readings don't fit the circuit: they can't all be right"
            if several
            else "the readings don't fit the circuit: one of them can't be right",
        ),
        tuple(Label(chart.place, "in doubt") for chart in doubt.readings[:MOST]),
        do="measure again; if the readings are right, a joint or a value on the way to them is wrong",
        why=f"calculated, readings taken as good within {tolerance * 100:.0f} %: no currents give these volts"
        + ("; leave out any one of these readings and the rest agree" if doubt.each and several else ""),
        touched=_touched(graph, [(chart.point, chart.to) for chart in doubt.readings]),
    )


def _of_currents(graph: CircuitGraph, doubt: "Doubt") -> Finding:
    said = ", ".join(f"`draws {one.point} {' '.join(one.value.written.split())}`" for one in doubt.currents)
    return Finding(
        fitting(
            f"the stated currents can't flow in this circuit: {said}",
            "the stated currents can't flow in this circuit",
        ),
        tuple(Label(one.place, "in doubt") for one in doubt.currents[:MOST]),
        do="check the unit; `draws` is the current that leaves at this net alone, without what flows on to the next",
        why=f"calculated with the currents stated: the supply can't deliver {'them' if _many(doubt) else 'it'}",
        touched=_touched(graph, [(one.point, one.to) for one in doubt.currents]),
    )


def _many(doubt: "Doubt") -> bool:
    return len(doubt.currents) > 1


def _words(chart: Chart | StatedLoad) -> str:
    volts = chart.volts if isinstance(chart, Chart) else chart.value
    to = f" to {chart.to}" if chart.to else ""
    return f"{' '.join(volts.written.split())} on {chart.point}{to}"


def _touched(graph: CircuitGraph, points: list[tuple[str, str]]) -> Touched:
    """The nets that the statements speak of, and the leads that they name."""
    names = [name for pair in points for name in pair if name]
    circuit = graph.circuit
    nets = [graph.net_names.get(circuit.net_of(name), name) for name in names if name in circuit.index]
    leads = [name for name in names if name in circuit.index and circuit.points[circuit.index[name]].is_lead]
    return Touched(tuple(dict.fromkeys(leads)), (), tuple(dict.fromkeys((*nets, *names))))


RULE = Rule("chart-contradicts", Grade.LOOK, _check, __doc__, About.DESIGN)
