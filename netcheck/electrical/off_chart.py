"""Computed volts of the supply's lines beside the service chart's, where the two are far apart."""

from collections.abc import Iterator

from msgspec import Struct

from netcheck.core.circuit import Chart
from netcheck.electrical.network.draft import Translation
from netcheck.electrical.network.elements import Capacitor, Inductor, Load, Network, Resistor, part_of
from netcheck.electrical.network.readings import charted
from netcheck.electrical.network.supplies import translated
from netcheck.electrical.shared_out import shared_out
from netcheck.electrical.study import known
from netcheck.model.graph import CircuitGraph

__all__ = ["Comparison", "OffChart", "off_chart"]

FAR = 0.3  # of the chart's volts: a fifth is the chart's own tolerance, a tenth that of the figures
LEAST_VOLTS = 5.0


class Comparison(Struct, frozen=True):
    """A reading of the chart and what is computed in its place, in volts."""

    chart: Chart
    said: float
    computed: float

    @property
    def share(self) -> float:
        """By how much the two differ, as a part of what the chart says."""
        return abs(self.computed - self.said) / max(abs(self.said), 1.0)

    @property
    def is_far(self) -> bool:
        """Whether the two can't be the same set in the same state."""
        return abs(self.computed - self.said) > max(FAR * abs(self.said), LEAST_VOLTS)


class OffChart(Struct, frozen=True):
    """The readings that are far off, the farthest first; those that agree; and what feeds the farthest, by name.

    ``assumed`` is True where the tubes' currents are the usual ones and not stated.
    """

    far: tuple[Comparison, ...]
    near: tuple[Comparison, ...]
    feeds: tuple[str, ...]
    assumed: bool


def off_chart(graph: CircuitGraph) -> OffChart | None:
    """The lines whose computed volts are far from the chart; None where there are none, or nothing is computed."""
    translation = translated(graph)
    found = list(_compared(graph, translation))
    far = sorted((each for each in found if each.is_far), key=lambda each: -each.share)
    if not far:
        return None
    network = translation.network
    loads = [one for one in network.elements if isinstance(one, Load)]
    return OffChart(
        tuple(far),
        tuple(each for each in found if not each.is_far),
        tuple(_feeding(network, translation.nodes[graph.circuit.net_of(far[0].chart.point)])),
        any(not one.stated for one in loads),
    )


def _compared(graph: CircuitGraph, translation: Translation) -> Iterator[Comparison]:
    """The readings on lines that a filter capacitor holds: what a tube's plate has depends on its own current."""
    readings = charted(graph, translation)
    seen = known(graph) if readings else None
    if seen is None:
        return
    lines = _lines(translation.network) - shared_out(graph).nodes
    for one in readings:
        if (one.plus in lines and one.minus in lines | {0}) or (one.plus == 0 and one.minus in lines):
            yield Comparison(one.chart, one.volts, seen.nodes[one.plus] - seen.nodes[one.minus])


def _lines(network: Network) -> set[int]:
    held = {end for c in network.elements if isinstance(c, Capacitor) and c.polarised for end in (c.plus, c.minus)}
    cathodes = {one.minus for one in network.elements if isinstance(one, Load)}
    return held - cathodes - {0}


def _feeding(network: Network, node: int) -> Iterator[str]:
    """The resistors and chokes on a node through which its current comes: those of few ohms first."""
    near = [one for one in network.elements if isinstance(one, Resistor | Inductor) and node in (one.a, one.b)]
    for one in sorted(near, key=lambda each: each.ohms)[:2]:
        yield part_of(one.name)
