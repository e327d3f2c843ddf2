"""The readings of the file's chart: what they say of a net, and how far off they and what is computed may be."""

from collections.abc import Collection, Mapping

from msgspec import Struct

from netcheck.core.quantity import Dimension
from netcheck.electrical.network.draft import Translation
from netcheck.electrical.network.elements import Inductor, Resistor
from netcheck.model.graph import CircuitGraph

__all__ = ["CHART", "ChartReading", "ChartVolts"]

CHART = 0.2  # of a chart's reading (common practice)
SAME = 1e-4  # of the volts: what leakage alone drops
MOST_WITHIN = 0.5  # of a reading: beyond that it says nothing


class ChartReading(Struct, frozen=True):
    """A reading; ``of`` is the point that the chart gives it of, where the net asked for only hangs on that."""

    volts: float
    within: float
    of: str = ""


class ChartVolts(Struct, frozen=True):
    """The chart beside the computed potentials of all nodes."""

    graph: CircuitGraph
    translation: Translation
    running: tuple[float, ...]

    def of(self, net: int, beside: float) -> ChartReading | None:
        """The reading of a net, or of one that it hangs on by what drops no volts: a grid on its bias.

        ``beside`` is how far off the computed lines may be.
        """
        node, readings = self.translation.nodes.get(net), self.readings()
        if net in readings:
            volts = readings[net][0]
            return ChartReading(volts, CHART if node is None else self._within(node, volts, beside))
        alike = () if node is None else self._alike(node)
        found = (
            ChartReading(volts, CHART, point) for at, (volts, point) in readings.items() if self._node(at) in alike
        )
        return next(found, None)

    def _node(self, net: int) -> int | None:
        return self.translation.nodes.get(net)

    def readings(self) -> Mapping[int, tuple[float, str]]:
        """The chart's readings to the common, by net, with the point that each was taken at."""
        circuit = self.graph.circuit
        common = circuit.net_of(circuit.common)
        found: dict[int, tuple[float, str]] = {}
        for said in circuit.charts:
            if said.volts.dimension is Dimension.VOLTAGE and (not said.to or circuit.net_of(said.to) == common):
                found.setdefault(circuit.net_of(said.point), (float(said.volts.amount), said.point))
        return found

    def beside(self, held: Collection[int]) -> float:
        """How far the computed volts of some nodes are off their readings, on average."""
        charted = ((self._node(net), volts) for net, (volts, _) in self.readings().items())
        off = [abs(volts / self.running[at] - 1) for at, volts in charted if at in held and at and self.running[at]]
        return sum(off) / len(off) if off else 0.0

    def _within(self, node: int, volts: float, beside: float) -> float:
        """What is read is a line's volts less what a resistor drops, and the drop is no better known than the chart.

        A plate at a third of its line may be off by more of its own volts than the line is.
        """
        if volts <= 0:
            return CHART
        by_node = {self._node(net): said for net, (said, _) in self.readings().items()}
        lines = [
            by_node[end] * (1 + CHART) if end in by_node else self.running[end] * (1 + beside)
            for one in self.translation.network.elements
            if isinstance(one, Resistor | Inductor) and node in (one.a, one.b)
            for end in (one.a, one.b)
        ]
        dropped = max(lines, default=0.0) - volts
        return min(CHART * max(1.0, dropped / volts), MOST_WITHIN)

    def _alike(self, node: int) -> frozenset[int]:
        """The nodes at the same volts as one, by way of resistors and windings that carry no current."""
        found, volts = {node}, self.running[node]
        ways = [(one.a, one.b) for one in self.translation.network.elements if isinstance(one, Resistor | Inductor)]
        still = [way for way in ways if all(abs(self.running[end] - volts) <= SAME * abs(volts) for end in way)]
        grown = True
        while grown:
            more = {end for way in still if found & set(way) for end in way} - found
            found |= more
            grown = bool(more)
        return frozenset(found)
