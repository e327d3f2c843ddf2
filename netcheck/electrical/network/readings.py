"""What the file says of running voltages and currents, as the engines take it."""

from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.circuit import Chart
from netcheck.core.quantity import Current
from netcheck.electrical.network.draft import Translation
from netcheck.electrical.network.elements import Load, Network
from netcheck.model.graph import CircuitGraph

__all__ = ["CHART_TOLERANCE", "Charted", "as_stated", "charted", "figures"]

CHART_TOLERANCE = 0.2
"""By how much a reading may be off unless it says better: part of the volts (common practice of service charts)."""

Figures = tuple[int, int, float, float]


class Charted(Struct, frozen=True):
    """A `volts` statement and its two nodes, the meter's plus first."""

    chart: Chart
    plus: int
    minus: int

    @property
    def volts(self) -> float:
        """The volts as stated."""
        return float(self.chart.volts.amount)


def charted(graph: CircuitGraph, translation: Translation) -> tuple[Charted, ...]:
    """The DC readings whose two points are nodes of the supply, and not one and the same."""
    return tuple(_charted(graph, translation))


def figures(readings: tuple[Charted, ...]) -> tuple[Figures, ...]:
    """Readings as the verdicts take them: plus, minus, volts, tolerance."""
    return tuple((one.plus, one.minus, one.volts, CHART_TOLERANCE) for one in readings)


def as_stated(network: Network) -> Network:
    """The network without currents taken by default: no verdict rests on those."""
    stated = (one for one in network.elements if not isinstance(one, Load) or one.stated)
    return replace(network, elements=tuple(stated))


def _charted(graph: CircuitGraph, translation: Translation) -> Iterator[Charted]:
    circuit = graph.circuit
    for chart in circuit.charts:
        ends = [circuit.index.get(name) for name in (chart.point, chart.to or circuit.common)]
        nodes = [translation.nodes.get(circuit.nets[at]) for at in ends if at is not None]
        if chart.volts.current is Current.AC or len(nodes) < len(ends):
            continue
        plus, minus = nodes
        if plus is not None and minus is not None and plus != minus:
            yield Charted(chart, plus, minus)
