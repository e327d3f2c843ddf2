"""A network in the making: elements between nets, what was taken by default, what was left out."""

from collections import Counter
from collections.abc import Callable, Mapping
from collections.abc import Set as AbstractSet

from msgspec import Struct, field
from msgspec.structs import replace

from netcheck.core.blocks import Blocks, are_in
from netcheck.core.circuit import Part
from netcheck.core.groups import joined_by
from netcheck.core.quantity import Current, Dimension, first_of
from netcheck.electrical.mains.line import USUAL_HERTZ, line_of, mains_of, net_at
from netcheck.electrical.network.alternating import alternating
from netcheck.electrical.network.elements import (
    Capacitor,
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Regulator,
    Resistor,
    Tube,
    VoltageSource,
    ends_of,
    pair_of,
)  # fmt: skip
from netcheck.electrical.network.gaps import Gap
from netcheck.model.graph import CircuitGraph

__all__ = ["Draft", "Translation", "first"]


class Translation(Struct, frozen=True):
    """The network of a circuit's supply; ``nodes`` gives the node of each net that is part of it.

    ``defaults`` are the values taken where the file states none, ``left_out`` what is not modelled, ``gaps`` the
    values that nothing can stand for: no figure that depends on one may be told. ``papers`` are capacitors too small
    to smooth anything; they see what their nodes have. ``unsaid`` are the positions
    of switches of which the file does not say how they are drawn; each is taken in its first. ``too_large`` says why
    nothing of it is worked out. ``covered`` are the paths of tubes whose current a `draws` has among others'.
    """

    network: Network
    nodes: Mapping[int, int]
    defaults: tuple[str, ...]
    left_out: tuple[str, ...]
    gaps: tuple[Gap, ...] = ()
    papers: tuple[Capacitor, ...] = ()
    unsaid: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    too_large: str = ""
    covered: frozenset[str] = frozenset()


Keep = Callable[[list[Element], int], list[Element]]
"""Chooses among elements between nets that are numbered up to a count."""


class Draft(Struct):
    """The one thing that changes while a circuit is translated; its elements stand between nets, not nodes.

    ``stand`` are positions of switches that go before the drawn ones; ``opened`` are parts that pass nothing: a blown
    fuse, a switch that is off, a plug that is pulled, a burnt-out winding.
    """

    graph: CircuitGraph
    stand: Mapping[str, str] = field(default_factory=dict)
    opened: frozenset[str] = frozenset()
    elements: list[Element] = field(default_factory=list)
    closed: list[tuple[int, int]] = field(default_factory=list)
    defaults: list[tuple[str, str]] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)
    gaps: list[Gap] = field(default_factory=list)
    papers: list[Capacitor] = field(default_factory=list)
    couplings: list[tuple[int, int]] = field(default_factory=list)  # capacitors without a value: current passes them
    unsaid: dict[str, tuple[str, ...]] = field(default_factory=dict)
    covered: list[str] = field(default_factory=list)  # tube paths whose current a `draws` has among others'
    live: set[int] = field(default_factory=set)  # nets of the line and of windings that it drives
    unknown: set[int] = field(
        default_factory=set
    )  # nets of windings of which nothing is known: no figure is told there

    def copied(self) -> "Draft":
        """The same, to be added to apart from this one."""
        made = self.__struct_fields__[3:]  # behind what it is made of
        return replace(self, **{name: getattr(self, name).copy() for name in made})

    def end(self, part: Part, *names: str) -> int | None:
        """The net of a part's terminal by the first of some names or electrodes that it has."""
        return net_at(self.graph, part, *names)

    def nets_of(self, part: Part) -> frozenset[int]:
        """The nets that a part's leads are on."""
        return frozenset(self.graph.circuit.nets[at] for at in self.graph.terminals(part))

    def default(self, element: str, text: str) -> None:
        """Keeps a value that was taken by default; it is told if its element is part of the supply."""
        self.defaults.append((element, text))

    def gap(self, say: str, least: float, most: float, *elements: str) -> None:
        """Keeps that a value is missing, with what to add to the file."""
        self.gaps.append(Gap(frozenset(elements), say, least, most))

    def default_hertz(self, element: str) -> None:
        """Keeps that the mains' frequency was taken by default, if it was."""
        said = self.graph.circuit.mains
        direct = any(q.current is Current.DC for q in said)
        if not direct and first_of(said, Dimension.FREQUENCY) is None:
            self.default(element, f"mains: {USUAL_HERTZ:g} Hz")

    def without_unknown(self) -> None:
        """Takes out all that hangs on windings of which nothing is known: as if they gave nothing would be untrue."""
        self.elements[:] = [one for one in self.elements if self.unknown.isdisjoint(ends_of(one))]
        self.papers[:] = [one for one in self.papers if self.unknown.isdisjoint((one.plus, one.minus))]

    @property
    def reference(self) -> int:
        """The net that volts are told from: the common, else the chassis."""
        circuit = self.graph.circuit
        return circuit.nets[circuit.index.get(circuit.common, 0)]

    @property
    def sides(self) -> tuple[frozenset[int], ...]:
        """The nets of the two sides of the line, through fuses and switches in any position; empty without a cord."""
        return self.graph.once(_sides)

    @property
    def mains(self) -> tuple[float, float] | None:
        """Effective volts and hertz (0 where direct) of the mains as declared; None without."""
        return mains_of(self.graph.circuit)

    def finished(self, keep: Keep | None = None) -> Translation:
        """The network of what lies around the rectifiers, or of what ``keep`` chooses.

        What hangs on by one net passes no current to it.
        """
        root = joined_by(self.closed)
        nets = {net for one in self.elements for net in ends_of(one)} | {self.reference}
        order = {net: at for at, net in enumerate(sorted({root.get(net, net) for net in nets}))}
        at = {net: order[root.get(net, net)] for net in nets}
        moved = (_moved(one, at) for one in self.elements)
        elements = [one for one in moved if len(set(pair_of(one))) > 1]
        swinging = self._swinging(elements, at, len(order))
        kept = keep(elements, len(order)) if keep else _around_rectifiers(elements, len(order), swinging)
        nodes = _numbered(kept, at[self.reference])
        names = self._names(at, nodes)
        network = Network(len(names), tuple(_moved(one, nodes) for one in kept), names, swinging)
        inside = {one.name for one in kept}
        placed = {net: nodes[at[net]] for net in nets if at[net] in nodes}
        alone = [
            f"{one.name}: not connected across a supply, or both its leads are on one point"
            for one in self.elements
            if isinstance(one, Capacitor) and one.polarised and one.name not in inside
        ]
        return Translation(
            network,
            placed,
            tuple(dict.fromkeys(text for name, text in self.defaults if name in inside)),
            tuple(dict.fromkeys((*self.left_out, *alone))),
            tuple(gap for gap in self.gaps if not gap.elements.isdisjoint(inside)),
            tuple(_moved_paper(one, at, nodes) for one in self.papers if _is_placed(one, at, nodes)),
            self._unsaid_in(placed.keys() - {self.reference}),
            covered=frozenset(self.covered) & inside,
        )

    def _unsaid_in(self, nets: AbstractSet[int]) -> dict[str, tuple[str, ...]]:
        """The switches of unsaid position that end on some nets."""
        parts = self.graph.circuit.parts
        return {name: places for name, places in self.unsaid.items() if not nets.isdisjoint(self.nets_of(parts[name]))}

    def _swinging(self, elements: list[Element], at: Mapping[int, int], count: int) -> frozenset[str]:
        """The tubes and loads that alternating current reaches, by small capacitors too."""
        pairs = (*self.couplings, *((one.plus, one.minus) for one in self.papers))
        passing = (Capacitor("", at[a], at[b], 0.0) for a, b in pairs if a in at and b in at)
        return alternating(Network(count, (*elements, *passing)))

    def _names(self, at: Mapping[int, int], nodes: Mapping[int, int]) -> tuple[str, ...]:
        names: dict[int, str] = {}
        for net, said in self.graph.net_names.items():
            node = nodes.get(at.get(net, -1))
            if node is not None and (node not in names or self.graph.declared_names(net)):
                names[node] = said
        return tuple(names.get(node, f"node {node}") for node in range(len(set(nodes.values()))))


def _sides(graph: CircuitGraph) -> tuple[frozenset[int], ...]:
    line = line_of(graph)
    return () if line is None else tuple(side.nets for side in line.sides)


def first(part: Part, dimension: Dimension) -> float | None:
    """The first value of a dimension that a part's declaration states."""
    said = part.features.first(dimension)
    return None if said is None else float(said.amount)


def _moved(element: Element, to: Mapping[int, int]) -> Element:
    match element:
        case Resistor(a=a, b=b) | Inductor(a=a, b=b):
            return replace(element, a=to[a], b=to[b])
        case Capacitor(plus=a, minus=b) | VoltageSource(plus=a, minus=b) | Load(plus=a, minus=b):
            return replace(element, plus=to[a], minus=to[b])
        case Rectifier(anode=a, cathode=b) | Regulator(anode=a, cathode=b):
            return replace(element, anode=to[a], cathode=to[b])
        case Tube(plate=a, cathode=b, grid=grid):
            return replace(element, plate=to[a], cathode=to[b], grid=None if grid is None else to.get(grid))


def _is_placed(paper: Capacitor, at: Mapping[int, int], nodes: Mapping[int, int]) -> bool:
    """Whether a capacitor lies between two different nodes of the supply."""
    ends = [nodes.get(at.get(net, -1)) for net in (paper.plus, paper.minus)]
    return None not in ends and ends[0] != ends[1]


def _moved_paper(paper: Capacitor, at: Mapping[int, int], nodes: Mapping[int, int]) -> Capacitor:
    return replace(paper, plus=nodes[at[paper.plus]], minus=nodes[at[paper.minus]])


def _around_rectifiers(elements: list[Element], count: int, swinging: frozenset[str]) -> list[Element]:
    """The elements in one block with a rectifier that the mains drives, with a battery, or with a tube that swings."""
    grids = ((one.grid, one.cathode) for one in elements if isinstance(one, Tube) and one.grid is not None)
    blocks = Blocks(count, (*map(pair_of, elements), *grids))
    masks = {
        blocks.between(*pair_of(one))
        for one in elements
        if (isinstance(one, Rectifier) and one.driven)
        or (isinstance(one, VoltageSource) and not one.hertz)
        or one.name in swinging
    }
    return [one for one in elements if any(are_in(pair_of(one), mask) for mask in masks)]


def _numbered(elements: list[Element], reference: int) -> dict[int, int]:
    """Nodes from 0, the reference; of each part of the network that floats beside it one node is put there.

    That is where most of its capacitors have their minus: against a wire of the line every volt would swing.
    """
    root = joined_by(map(pair_of, elements))
    zeros = {root.get(reference, reference): reference}
    minuses = Counter(one.minus for one in elements if isinstance(one, Capacitor) and one.polarised)
    for net, _ in minuses.most_common():
        zeros.setdefault(root[net], net)
    for _, end in map(pair_of, elements):
        zeros.setdefault(root[end], end)
    zero = set(zeros.values())
    others = sorted({end for one in elements for end in pair_of(one)} - zero)
    return {**dict.fromkeys(zero, 0), **{node: at for at, node in enumerate(others, 1)}}
