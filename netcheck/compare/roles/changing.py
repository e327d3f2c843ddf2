"""A circuit while joints are made and undone, one change after the other: its nets follow each at once.

To find all nets anew after each of thousands of changes takes time with their square. Here a change costs what its
smaller side has: two nets become one as the smaller takes the other's label, and a net is parted where a search from
both sides of what was undone ends on one.
"""

from collections.abc import Sequence

from msgspec.structs import replace

from netcheck.core.circuit import Circuit, How, Join, Point
from netcheck.model.closure import closure
from netcheck.model.graph import CircuitGraph
from netcheck.model.joints import cut
from netcheck.model.points import HUNG_ON

__all__ = ["Changing"]

_STAYS = (How.INSIDE, How.BOND)  # what no hand lifts


class Changing:
    """A circuit and its nets; labels of nets are numbers that nobody else sees."""

    def __init__(self, circuit: Circuit) -> None:
        self._circuit, self._graph = circuit, CircuitGraph(circuit)
        self._points = list(circuit.points)
        self._joins = dict(enumerate(circuit.joins))
        self._lifted = -1  # the last joint made before the last lift: what was made since comes after what stays
        self._at: list[dict[int, None]] = [{} for _ in self._points]
        self._net = list(circuit.nets)
        self._members: dict[int, set[int]] = {}
        for number, join in self._joins.items():
            self._at[join.a][number] = self._at[join.b][number] = None
        for at, net in enumerate(self._net):
            self._members.setdefault(net, set()).add(at)
        self._next_joint, self._next_label = len(self._joins), len(self._points)
        self._before: dict[int, int] = {}
        self._count = len(self._points)

    def begin(self) -> None:
        """Begins one change, of which ``is_idle`` tells."""
        self._before, self._count = {}, len(self._points)

    @property
    def is_idle(self) -> bool:
        """Whether the points that were there before the change still lie on nets with the same others."""
        moved = [(was, self._net[at]) for at, was in self._before.items() if at < self._count and self._net[at] != was]
        pairs = set(moved) | {(net, net) for pair in moved for net in pair if self._stayed(net, moved)}
        return len(pairs) == len({was for was, _ in pairs}) == len({now for _, now in pairs})

    def _stayed(self, net: int, moved: Sequence[tuple[int, int]]) -> bool:
        """Whether a point that was there before has kept this label."""
        come = sum(1 for _, now in moved if now == net)
        fresh = sum(1 for at in range(self._count, len(self._points)) if self._net[at] == net)
        return len(self._members.get(net, ())) > come + fresh

    def net(self, at: int) -> int:
        """A number that all points of a net share by now."""
        return self._net[at]

    def name_at(self, at: int) -> str:
        """What the net of a point that was there from the first is called."""
        points = sorted(each for each in self._members[self._net[at]] if each < len(self._circuit.points))
        return self._graph.name_of(points)  # no bundle gives a net its name

    def made(self, join: Join) -> None:
        """Makes a joint."""
        self._enter(self._next_joint, join)
        self._next_joint += 1
        one, other = sorted((self._net[join.a], self._net[join.b]), key=lambda net: len(self._members[net]))
        if one != other:
            self._relabel(self._members.pop(one), other)

    def cut_between(self, a: int, b: int) -> None:
        """Undoes one joint that is stated between two points; nothing where there is none."""
        numbers = sorted(n for n in self._at[a] if {self._joins[n].a, self._joins[n].b} == {a, b})
        joins = [self._joins[n] for n in numbers]
        _, (hit,) = cut(joins, ((a, b),))
        if hit is not None:
            self._leave(next(n for n, join in zip(numbers, joins, strict=True) if join is hit))
            self._part(a, b)

    def lifted(self, at: int) -> None:
        """Takes a point off everything; what hung on it stays joined, as a bundle."""
        bundle = len(self._points)
        self._points.append(Point(f"{HUNG_ON}{self._points[at].name}"))
        self._at.append({})
        self._net.append(self._net[at])
        self._members[self._net[at]].add(bundle)
        for number in [n for n in self._at[at] if self._joins[n].how not in _STAYS]:
            join = self._joins[number]
            a, b = (bundle if end == at else end for end in (join.a, join.b))
            self._leave(number, for_good=False)
            self._enter(number, replace(join, a=a, b=b))
        self._lifted = self._next_joint - 1
        self._part(at, bundle)

    def circuit(self) -> Circuit:
        """The circuit as it is now."""
        joins = tuple(self._ordered())
        return replace(
            self._circuit, points=tuple(self._points), joins=joins, nets=closure(len(self._points), joins)
        )  # fmt: skip

    def _ordered(self) -> list[Join]:
        if self._lifted < 0:
            return list(self._joins.values())
        stay = [join for join in self._joins.values() if join.how in _STAYS]
        others = [(n, join) for n, join in self._joins.items() if join.how not in _STAYS]
        return [
            *(join for n, join in others if n <= self._lifted), *stay, *(join for n, join in others if n > self._lifted)
        ]  # fmt: skip

    def _enter(self, number: int, join: Join) -> None:
        self._joins[number] = join
        self._at[join.a][number] = self._at[join.b][number] = None

    def _leave(self, number: int, *, for_good: bool = True) -> None:
        join = self._joins[number]
        for end in {join.a, join.b}:
            del self._at[end][number]
        if for_good:
            del self._joins[number]

    def _part(self, a: int, b: int) -> None:
        """Gives the smaller side a label of its own, where nothing joins two points of one net any longer."""
        sides = ({a}, {b})
        fronts = ([a], [b])
        while a != b and all(fronts):
            turn = len(sides[0]) > len(sides[1])
            for other in self._beside(fronts[turn].pop()):
                if other in sides[not turn]:
                    return
                if other not in sides[turn]:
                    sides[turn].add(other)
                    fronts[turn].append(other)
        if a != b:
            alone = sides[0] if not fronts[0] else sides[1]
            self._members[self._net[a]] -= alone
            self._members[self._next_label] = set()
            self._relabel(alone, self._next_label)
            self._next_label += 1

    def _beside(self, at: int) -> list[int]:
        joins = (self._joins[number] for number in self._at[at])
        return [join.b if join.a == at else join.a for join in joins]

    def _relabel(self, points: set[int], net: int) -> None:
        for at in points:
            self._before.setdefault(at, self._net[at])
            self._net[at] = net
        self._members[net] |= points
