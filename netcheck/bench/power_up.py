"""The first power-up: which volts to expect at half and at full line, in the order to measure.

A net without a chart's reading has its figure as well as the file's lines agree with their chart on average, and a
fifth. It has none where half of what a tube may draw less would change it by half. A grid at the volts of a charted net
that it hangs on has that reading, since how a control is set is in no file.
"""

import math
from collections.abc import Iterator, Mapping

import msgspec
from msgspec import Struct

from netcheck.bench.chart_volts import MOST_WITHIN, ChartReading, ChartVolts
from netcheck.bench.power import LinePower, taken
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension
from netcheck.electrical.network.draft import Translation
from netcheck.electrical.network.elements import (
    Capacitor,
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Resistor,
    VoltageSource,
    part_of,
)
from netcheck.electrical.network.translate import network_of
from netcheck.electrical.running.steady import steady
from netcheck.electrical.shared_out import shared_out
from netcheck.electrical.table.rows import ChargeRow
from netcheck.electrical.table.supply import supply
from netcheck.model.graph import CircuitGraph
from netcheck.model.points import lead_name

__all__ = ["PowerUp", "Volts", "power_up"]

HALF = 0.5
LITTLE = 0.5  # volts: next to nothing
WITHIN = 0.2  # of the computed volts of a line: what loads that the file does not state leave open
LITTLE_OHMS = 2_000.0  # of a winding or stopper, across which a plate's current drops little
OFF = 0.5  # of what a tube draws: how far its typical current may be off in a stage of its own
DRAWN = 1e-3  # volts of a cathode, through which something is reckoned to flow
STIFF = 0.75  # of the highest line: a plate nearer to it hardly depends on what its tube draws
_STATE = "they depend on what the file does not state"
_ELECTRODES = ("plate", "plate-a", "plate-b", "grid-2", "cathode", "cathode-a", "cathode-b")


class Volts(Struct, frozen=True):
    """Volts of a point against the common: computed running at full line, what is possible at half line.

    ``full`` is None where no figure is known; ``half`` are the least and the most, before and after tubes draw.
    ``chart`` is the reading that the file's chart gives, ``chart_of`` the net that it gives it of, where that is not
    this one but carries the same volts; ``most`` what no load leaves there at full line; ``within`` is how far off the
    chart, else the computed figure, may be, as 0.2. ``below`` is the highest line, where only that is known. What is
    expected to be next to nothing may be as much as ``little``.
    """

    name: str
    point: str
    full: float | None
    half: tuple[float, float] | None
    chart: float | None = None
    most: float | None = None
    within: float = 0.5
    below: float | None = None
    chart_of: str = ""
    little: float = LITTLE

    @property
    def said(self) -> float | None:
        """What is expected at full line: the chart's reading, else the computed figure."""
        return self.full if self.chart is None else self.chart


class PowerUp(Struct, frozen=True):
    """What to expect; ``unknown`` says why there are no volts where there are none.

    ``waits`` are rectifier tubes, which do little before they are hot, and at half line.
    """

    common: str
    common_point: str
    mains: float | None
    taken: LinePower | None
    lines: tuple[Volts, ...]
    electrodes: tuple[Volts, ...]
    charges: tuple[ChargeRow, ...]
    waits: tuple[str, ...]
    fuses: tuple[str, ...]
    unknown: str = ""


def power_up(graph: CircuitGraph) -> PowerUp:
    """Computes the volts as far as the file's mains, windings and loads allow."""
    circuit = graph.circuit
    mains = next((float(q.amount) for q in circuit.mains if q.dimension is Dimension.VOLTAGE), None)
    fuses = tuple(f"{p.name} {' '.join(q.written for q in p.features.quantities)}".strip()
                  for p in circuit.parts.values() if p.kind.family is Family.FUSE)  # fmt: skip
    empty = PowerUp(circuit.common, circuit.common, mains, None, (), (), (), (), fuses)
    if mains is None:
        return msgspec.structs.replace(empty, unknown="the file has no `mains` line")
    translation = network_of(graph)
    network = translation.network
    if not any(isinstance(one, VoltageSource) for one in network.elements):
        return msgspec.structs.replace(empty, unknown="no rectifier in the file is driven by the mains")
    table, running, half = supply(graph), steady(network), steady(network, line=HALF)
    lighter = steady(_lighter(network))
    if table.missing:
        return msgspec.structs.replace(empty, unknown=f"{_STATE}: {', '.join(table.missing)}")
    if not (running.converged and half.converged and lighter.converged):
        return msgspec.structs.replace(empty, unknown="the running figures did not settle")
    waits = tuple(dict.fromkeys(part_of(one.name) for one in network.elements
                                if isinstance(one, Rectifier) and not one.cold and one.driven))  # fmt: skip
    cold = {line.name: line.cold for line in table.lines}
    figures = _Figures(graph, translation, running.nodes, half.nodes, lighter.nodes, cold, waits)
    lines = sorted(figures.lines(), key=lambda one: (one.full or 0.0) >= 0)
    watts = taken(graph, mains, network, running, table.heaters)
    return msgspec.structs.replace(
        empty, taken=watts, lines=tuple(lines), electrodes=tuple(figures.electrodes()), waits=waits,
        charges=table.charges,
    )  # fmt: skip


def _charted(one: Volts, chart: ChartReading | None) -> Volts:
    """A point with what the chart says of it, which counts for more than what is computed."""
    if chart is None:
        return one
    return msgspec.structs.replace(one, chart=chart.volts, within=chart.within, chart_of=chart.of)


def _lighter(network: Network) -> Network:
    """With what tubes draw where the file does not say it as little as it may be."""
    elements = (
        msgspec.structs.replace(one, amperes=(1 - OFF) * one.amperes)
        if isinstance(one, Load) and not one.stated
        else one
        for one in network.elements
    )
    return msgspec.structs.replace(network, elements=tuple(elements))


def _held(one: Element) -> tuple[int, ...]:
    """The nodes that an electrolytic holds up, or from which the file says what is drawn."""
    match one:
        case Capacitor(plus=plus, minus=minus, polarised=True):
            return plus, minus
        case Load(plus=plus, stated=True):
            return (plus,)
        case _:
            return ()


class _Figures(Struct, frozen=True):
    """The volts of nets at full and half line."""

    graph: CircuitGraph
    translation: Translation
    running: tuple[float, ...]
    half: tuple[float, ...]
    lighter: tuple[float, ...]
    cold: Mapping[str, float]
    waits: tuple[str, ...]

    def lines(self) -> Iterator[Volts]:
        """The supply's lines; the one nearest to the rectifier, with the most volts, first.

        A net that is a tube's plate, screen or cathode and nothing more is told with the tube; what no part is on has
        no place for a probe.
        """
        names, tubes = self.translation.network.names, {net for _, net in self._electrodes()}
        found = [node for node, name in enumerate(names) if name in self.cold]
        for node in sorted(found, key=lambda one: -abs(self.running[one])):
            net = next(net for net, at in self.translation.nodes.items() if at == node)
            if net not in tubes and self._points(net):
                yield self._line(names[node], net, node)

    def _line(self, name: str, net: int, node: int) -> Volts:
        """A net behind a resistor so large that its tube decides the volts has no figure, but a line above it."""
        full, point, chart = self.running[node], self._point(net), self._chart(net)
        loose = abs(self.lighter[node] - full) / max(abs(full), 1.0)
        half, most = self._seen(node)
        if node in self._shared() or self._is_divided(node):
            return _charted(Volts(name, point, None, None, None, most, below=max(self.running)), chart)
        if chart is None and full > 0 and half is not None and loose > MOST_WITHIN:
            return Volts(name, point, None, (0.0, half[1]), None, most, below=max(self.running))
        computed = Volts(name, point, full, half, None, most, min(max(self._beside(), loose), MOST_WITHIN))
        return _charted(self._between(node, computed), chart)

    def _is_divided(self, node: int) -> bool:
        """Whether leakage alone says how much of a line's volts is there: nobody knows."""
        return math.isnan(self.cold.get(self.translation.network.names[node], 0.0))

    def _shared(self) -> frozenset[int]:
        """Where the volts are less than a fifth known, by how a stated current divides: below the highest line."""
        drops = shared_out(self.graph).drops
        return frozenset(node for node, drop in drops.items() if drop > WITHIN * abs(self.running[node]))

    def _between(self, node: int, one: Volts) -> Volts:
        """The middle of what a stated current leaves there, whichever part of it goes this way, and as far off more."""
        drop, full = shared_out(self.graph).drops.get(node, 0.0), one.full
        if full is None or not drop:
            return one
        middle = math.copysign(abs(full) - drop / 2, full)
        low, high = one.half or (0.0, 0.0)
        half = None if one.half is None else (math.copysign(max(abs(low) - drop, 0.0), low), high)
        return msgspec.structs.replace(one, full=middle, half=half, within=one.within + drop / 2 / abs(middle))

    def _beside(self) -> float:
        """How far off a computed line may be: by as much more as those that the chart speaks of are off, on average."""
        held = {end for one in self.translation.network.elements for end in _held(one)}
        return WITHIN + self._charts().beside(held)

    def _charts(self) -> ChartVolts:
        return ChartVolts(self.graph, self.translation, self.running)

    def _chart(self, net: int) -> ChartReading | None:
        return self._charts().of(net, self._beside())

    def _seen(self, node: int) -> tuple[tuple[float, float] | None, float | None]:
        """The least and the most at half line, and what no load leaves at full line."""
        most = self.cold.get(self.translation.network.names[node], math.nan)
        if math.isnan(most):
            return None, None
        seen = sorted((self.half[node], HALF * most, *((0.0,) if self.waits else ())), key=abs)
        return (seen[0], seen[-1]), most

    def _electrodes(self) -> Iterator[tuple[tuple[str, str, str], int]]:
        """Part, electrode and lead of what is told tube by tube, with its net: not what a filter holds up."""
        held = {end for one in self.translation.network.elements for end in _held(one)}
        for part in self.graph.circuit.parts.values():
            if part.kind.family is not Family.TUBE or part.shape is None or part.name in self.waits:
                continue
            for terminal in part.leads:
                if terminal.electrode in _ELECTRODES:
                    name = lead_name(part, terminal.name)
                    net = self.graph.circuit.net_of(name)
                    cathode = terminal.electrode.startswith("cathode")
                    if cathode or self.translation.nodes.get(net) not in held:
                        yield (part.name, terminal.electrode, name), net

    def electrodes(self) -> Iterator[Volts]:
        """Plates, screens and cathodes of the tubes that are no rectifiers, tube by tube; each net once."""
        told: set[int] = set()
        for said, net in self._electrodes():
            if net not in told:
                told.add(net)
                yield from self._electrode(*said)

    def _electrode(self, part: str, electrode: str, name: str) -> Iterator[Volts]:
        """A plate behind a large resistor depends on its tube more than on what can be computed."""
        circuit = self.graph.circuit
        net = circuit.net_of(name)
        node, chart, point = self.translation.nodes.get(net), self._chart(net), f"{part} {electrode}"
        if net == circuit.net_of(circuit.common) or (node is None and chart is None):
            return
        full = None if node is None else self.running[node]
        line = max(self.running)
        if electrode.startswith("cathode") or full is None:
            yield _charted(self._cathode(point, name, node), chart)
        elif node is None or node in self._shared() or full < STIFF * line or not self._fed(node):
            yield _charted(Volts(point, name, None, None, below=line), chart)
        else:
            half, most = self._seen(node)
            yield _charted(self._between(node, Volts(point, name, full, half, None, most, WITHIN)), chart)

    def _cathode(self, point: str, name: str, node: int | None) -> Volts:
        """Where nothing is reckoned to flow, what does is said of the line that it comes from: all of it at most."""
        full = None if node is None else self.running[node]
        if node is None or full is None or (abs(full) >= DRAWN and node not in self._shared()):
            return Volts(point, name, full, None)
        elements = self.translation.network.elements
        ways = [one.ohms for one in elements if isinstance(one, Resistor | Inductor) and {one.a, one.b} == {0, node}]
        stated = sum(one.amperes for one in elements if isinstance(one, Load) and not one.part)
        if not ways or not stated:
            return Volts(point, name, None, None)
        return Volts(point, name, 0.0, None, little=max(LITTLE, min(ways) * stated))

    def _fed(self, node: int) -> bool:
        """Whether what the tube draws there is reckoned with, or hardly matters, as through a transformer."""
        elements = self.translation.network.elements
        draws = any(isinstance(one, Load) and one.plus == node for one in elements)
        ways = [one.ohms for one in elements if isinstance(one, Resistor | Inductor) and node in (one.a, one.b)]
        return draws or min(ways, default=0.0) < LITTLE_OHMS

    def _points(self, net: int) -> list[int]:
        return [at for at in self.graph.members[net] if self.graph.part_of(at) is not None]

    def _point(self, net: int) -> str:
        """Where a probe finds a net: a lug or pin of it, else a lead."""
        points = self._points(net)
        places = [at for at in points if (part := self.graph.part_of(at)) and (part.kind.holds_leads)]
        return self.graph.point((places or points)[0]).name
