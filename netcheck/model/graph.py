"""Questions about a circuit, indexed once; the only importer of networkx."""

from collections import defaultdict
from collections.abc import Callable, Collection, Hashable, Iterable, Mapping, Sequence
from functools import cached_property
from typing import TypeVar, cast

from netcheck.core.circuit import UNSOLDERED, Circuit, How, Join, Part, Point
from netcheck.core.kind import Family, Role
from netcheck.core.source import Place
from netcheck.model.joins_at import JoinsAt
from netcheck.model.points import lead_name

__all__ = ["CircuitGraph", "best_matching"]

A = TypeVar("A", bound=Hashable)
Made = TypeVar("Made")
_Edge = tuple[int, int, int, tuple[Join, ...]]
"""Two points, what it costs to part them, and the joins to undo."""

# What a cut costs: hands' joints are likelier wrong than the paper's nets, and what is one by its making can't part.
_COST = {
    How.WIRE: 10, How.SOLDERED: 11, How.LEAD: 12, How.NET: 30, How.BOND: 1_000, How.INSIDE: 100_000, How.NAMED: 100_000
}  # fmt: skip
_INHERITED = 15


class CircuitGraph:
    """A circuit with its indexes: who is on a net, what a point is joined to, what a net is called."""

    def __init__(self, circuit: Circuit) -> None:
        self.circuit = circuit
        self._made: dict[object, object] = {}
        self._edges_by_net: dict[int, tuple[_Edge, ...]] = {}

    def of(self, circuit: Circuit) -> "CircuitGraph":
        """The graph of a state; this one where that is its own, with all that was indexed."""
        return self if circuit is self.circuit else CircuitGraph(circuit)

    def once(self, make: "Callable[[CircuitGraph], Made]") -> Made:
        """What a function makes of this graph; several rules that ask for the same share it."""
        if make not in self._made:
            self._made[make] = make(self)
        return cast("Made", self._made[make])

    @cached_property
    def members(self) -> Mapping[int, tuple[int, ...]]:
        """The points of each net, in the order of the file."""
        found: dict[int, list[int]] = defaultdict(list)
        for at, net in enumerate(self.circuit.nets):
            found[net].append(at)
        return {net: tuple(points) for net, points in found.items()}

    @cached_property
    def joins_at(self) -> JoinsAt:
        """The joins that end at each point."""
        return JoinsAt(len(self.circuit.points), self.circuit.joins)

    def point(self, at: int) -> Point:
        """The point of an index."""
        return self.circuit.points[at]

    def part_of(self, at: int) -> Part | None:
        """The part that a point is a terminal of, where it is present."""
        return self.circuit.parts.get(self.circuit.points[at].part)

    @cached_property
    def _leads_by_net(self) -> Mapping[int, tuple[int, ...]]:
        parts, points = self.circuit.parts, self.circuit.points
        is_lead = [point.is_lead and point.part in parts for point in points]
        leads = {net: tuple([at for at in members if is_lead[at]]) for net, members in self.members.items()}
        return {net: found for net, found in leads.items() if found}

    @cached_property
    def _only_on(self) -> Mapping[int, str]:
        """The one part that has leads on a net, where no other has."""
        points = self.circuit.points
        owners = ((net, {points[at].part for at in leads}) for net, leads in self._leads_by_net.items())
        return {net: parts.pop() for net, parts in owners if len(parts) == 1}

    @cached_property
    def _alone(self) -> Mapping[str, frozenset[int]]:
        """The nets off the chassis that have no name, and leads of one part alone, by that part."""
        named = {self.circuit.nets[0], *self._names_by_net}
        found: dict[str, set[int]] = defaultdict(set)
        for net, part in self._only_on.items():
            if net not in named:
                found[part].add(net)
        return {part: frozenset(nets) for part, nets in found.items()}

    @cached_property
    def _names_by_net(self) -> Mapping[int, tuple[str, ...]]:
        found: dict[int, list[str]] = defaultdict(list)
        for at, point in enumerate(self.circuit.points):
            if point.net_name:
                found[self.circuit.nets[at]].append(point.name)
        return {net: tuple(names) for net, names in found.items()}

    def leads_on(self, net: int) -> tuple[int, ...]:
        """The electrical ends on a net, of parts that are present."""
        return self._leads_by_net.get(net, ())

    def terminals(self, part: Part) -> tuple[int, ...]:
        """The points of a part's leads, one for all pins of one electrode."""
        index, name = self.circuit.index, part.name
        return tuple([index[name + end.suffix] for end in part.ends])

    @cached_property
    def spared(self) -> frozenset[int]:
        """The points declared as bare on purpose."""
        return frozenset(self.circuit.index[name] for s in self.circuit.spared for name in s.points)

    def is_lonely(self, net: int) -> bool:
        """Whether a net is one single lead and nothing else but its name."""
        if net == self.circuit.nets[0] or net not in self._only_on:
            return False
        points = map(self.point, self.members[net])
        return len({(point.part, point.terminal and point.terminal.key) for point in points if point.part}) == 1

    def wanted(self, part: Part) -> tuple[int, ...]:
        """The leads that have to be joined to something: not a shell, nothing of a plug or other place."""
        if part.kind.place:
            return ()
        index, name, shell = self.circuit.index, part.name, Role.SHELL
        return tuple([index[name + end.suffix] for end in part.ends if end.role is not shell])

    def playing(self, role: Role) -> tuple[int, ...]:
        """The points that are terminals of that role."""
        points = enumerate(self.circuit.points)
        return tuple([at for at, point in points if point.terminal is not None and point.terminal.role is role])

    def loose_leads(self, part: Part) -> tuple[int, ...]:
        """The leads of a part that no join names together with something else, and that are not declared spare.

        A lead on an empty lug is soldered to something: whether it belongs there, the comparison says. A lead alone
        under a net's name is left to the net (``lonely-net``); pins of one electrode count once.
        """
        alone = self._alone.get(part.name)
        if alone is None:  # of most parts every lead is joined to another one's
            return ()
        loose: dict[int, int] = {}
        for at in self.wanted(part):
            net = self.circuit.nets[at]
            if net not in alone:
                continue
            others = [o for o in self.members[net] if o != at and self.point(o).part and not self._one_inside(at, o)]
            if not others and not self.spared.intersection(self.members[net]):
                loose.setdefault(net, at)
        return tuple(loose.values())

    def _one_inside(self, at: int, other: int) -> bool:
        return any(j.how is How.INSIDE and other in (j.a, j.b) for j in self.joins_at[at])

    def declared_names(self, net: int) -> tuple[str, ...]:
        """The names that the file gives to a net."""
        return self._names_by_net.get(net, ())

    def is_bare(self, at: int) -> bool:
        """Whether nothing but the part's own inside holds a point."""
        net = self.circuit.nets[at]
        own = self.point(at).part
        return net != self.circuit.nets[0] and all(self.point(o).part in (own, "") for o in self.members[net])

    @cached_property
    def net_names(self) -> Mapping[int, str]:
        """What a net is called: the chassis, the common, a declared name, else one of its terminals."""
        return {net: self.name_of(points) for net, points in self.members.items()}

    def name_of(self, points: Sequence[int]) -> str:
        """What a net of these points is called, of which the least comes first."""
        names = [self.point(at).name for at in points if self.point(at).net_name]
        if points[0] == 0:
            return "chassis"
        if self.circuit.common in names:
            return self.circuit.common
        if names:
            return names[0]
        owners = ((at, self.part_of(at)) for at in points)
        pins = (at for at, part in owners if part is not None and part.kind.family is Family.TUBE)
        return self.spoken(next(pins, points[0]))

    def spoken(self, at: int) -> str:
        """A point as it is read aloud: ``V5.8 (cathode)``, ``C51+``, ``SP1.3``."""
        point = self.point(at)
        terminal = point.terminal
        if terminal is not None and terminal.electrode and terminal.electrode != terminal.name:
            return f"{point.name} ({terminal.said or terminal.electrode})"
        return point.name

    def said_at(self, at: int) -> Place:
        """Where the file joins a point, the latest layer first; a point that is on nothing: its declaration."""
        told = [j for j in self.joins_at[at] if j.how not in UNSOLDERED]
        part = self.part_of(at)
        if not told and part is not None and part.host:
            # A section is soldered to by its can's lugs.
            return self.said_at(next(j.a for j in self.joins_at[at] if j.how is How.INSIDE))
        if told:
            join = told[-1]
            return join.place if join.b == at or join.how is How.WIRE else join.statement
        taken = [t for t in self.circuit.taken if t.point == self.point(at).name]
        if taken:
            return taken[-1].place
        return part.place if part is not None else self.circuit.source.whole

    def site(self, at: int) -> int:
        """The place that a lead is soldered to: a lug, pin or chassis point; else the net's name; else itself."""
        order = {How.LEAD: 0, How.SOLDERED: 1, How.WIRE: 2, How.NET: 3, How.INSIDE: 4, How.BOND: 5}
        joined = [join for join in self.joins_at[at] if join.how in order]
        for join in sorted(joined, key=lambda j: order[j.how]):
            other = join.a if join.b == at else join.b
            if other == 0 or not self.point(other).is_lead:
                return other
        return at

    def beside(self, at: int) -> tuple[int, ...]:
        """The lugs or pins next to one on its part."""
        part, terminal = self.part_of(at), self.point(at).terminal
        if part is None or part.shape is None or terminal is None or terminal.name not in part.shape.ordered:
            return ()
        order = part.shape.ordered
        ring = part.shape.ring and len(order) > 2
        numbers = (order.index(terminal.name) + step for step in (-1, 1))
        near = (number % len(order) for number in numbers if ring or 0 <= number < len(order))
        return tuple(self.circuit.index[lead_name(part, order[number])] for number in near)

    @cached_property
    def moulded(self) -> Mapping[int, int]:
        """The pin of each lead inside a moulded network; no hand can part the two."""
        from netcheck.model.moulded import pins_of_moulded

        return pins_of_moulded(self.circuit)

    def cheapest_cut(self, one: Collection[int], other: Collection[int]) -> tuple[Join, ...]:
        """The joins to undo so that no point of ``one`` reaches a point of ``other``; empty where none does.

        A minimum cut over the physical joins of their net.
        """
        from netcheck.core.cut import nearer_side  # where nothing is joined too much, nothing is parted

        edges = [edge for net in dict.fromkeys(self.circuit.nets[at] for at in one) for edge in self._edges(net)]
        near = nearer_side(((a, b, cost) for a, b, cost, _ in edges), one, other)
        if near is None:
            return ()
        return tuple(j for a, b, _, joins in edges if (a in near) is not (b in near) for j in joins)

    def _edges(self, net: int) -> tuple[_Edge, ...]:
        """What joins the points of a net, parallel joins together."""
        if net not in self._edges_by_net:
            between = defaultdict[tuple[int, int], list[Join]](list)
            for at in self.members[net]:
                for join in self.joins_at[at]:
                    if join.a != join.b and join.a == at:
                        between[min(join.a, join.b), max(join.a, join.b)].append(join)
            self._edges_by_net[net] = tuple((*pair, self.cost(joins), tuple(joins)) for pair, joins in between.items())
        return self._edges_by_net[net]

    def first_reached(self, undone: Collection[Join], one: Collection[int], others: Collection[int]) -> int | None:
        """The first of ``others`` that the far ends of undone joins lead to; ``one`` is the near side."""
        from netcheck.model.undone import first_reached  # a state in order has nothing to undo

        return first_reached(self.joins_at, undone, one, others)

    def parts(self, undone: Collection[Join], one: Collection[int], others: Collection[int]) -> bool:
        """Whether no way leads from one to the others once some joins are undone."""
        from netcheck.model.undone import reached

        return reached(self.joins_at, undone, one).isdisjoint(others)

    def cost(self, joins: Iterable[Join]) -> int:
        """What it costs to undo some joins: the likelier a joint is a mistake of the hands, the less."""
        return sum(map(self._cost, joins))

    def _cost(self, join: Join) -> int:
        sealed = self.moulded.get(join.a) == join.b or self.moulded.get(join.b) == join.a
        inherited = join.place.source is not self.circuit.source and join.how is not How.NET
        return _COST[How.INSIDE if sealed else join.how] + _INHERITED * inherited


def best_matching(weights: Mapping[tuple[A, A], int]) -> dict[A, A]:
    """The pairing of old with new (kept apart) of the greatest total weight: networkx's, where there is a choice."""
    from netcheck.model.settled_pairs import without_choice

    settled, left = without_choice(weights)
    return settled | _matched(left) if left else settled


def _matched(weights: Mapping[tuple[A, A], int]) -> dict[A, A]:
    import networkx as nx

    graph = nx.Graph()
    for (old, new), weight in weights.items():
        graph.add_edge((0, old), (1, new), weight=weight)
    pairs = nx.max_weight_matching(graph)
    ordered = (sorted(pair, key=lambda side: side[0]) for pair in pairs)
    return {old: new for (_, old), (_, new) in ordered}
