"""How a set may stand while someone touches it: the plug each way round, the switches in all their positions.

A switch matters only where its contacts lie on some path between the two sides of the line and the metal; those that
do are tried in all their positions together.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain, combinations, product
from math import prod

from msgspec import Struct

from netcheck.core.blocks import Blocks, are_in
from netcheck.core.budget import Budget
from netcheck.core.circuit import Part
from netcheck.core.groups import joined_by
from netcheck.core.kind import Family
from netcheck.electrical.mains.impedance import Passage
from netcheck.electrical.mains.line import MainsInlet, closed, contacts, ends
from netcheck.model.graph import CircuitGraph

__all__ = ["MOST_WAYS", "Setting", "settings"]

MOST_WAYS = 4096
"""In how many ways switches are tried together; of more, two at a time are moved from where they are drawn."""

MOST_JOINED = 200_000
"""Contacts that are closed, over all settings; with more switches not even every two are moved."""

Stand = Mapping[str, str]
Pairs = tuple[tuple[int, int], ...]


class Setting(Struct, frozen=True):
    """Which lead is hot, which is not, what every closed contact and fuse makes one, and how the switches stand."""

    hot: int
    cold: int
    root: Mapping[int, int]
    said: str

    def of(self, net: int) -> int:
        """The net that stands for all that are one with this."""
        return self.root.get(net, net)

    def all_of(self, roots: set[int]) -> frozenset[int]:
        """Every net that is one with these."""
        return frozenset((*roots, *(net for net, root in self.root.items() if root in roots)))


def settings(
    graph: CircuitGraph, line: MainsInlet, carriers: Sequence[Passage], metals: Iterable[int]
) -> tuple[tuple[Setting, ...], bool]:
    """The plug both ways where it goes in both ways, the switches in each position; and whether that is all of them."""
    leads = tuple(side.lead for side in line.sides)
    parts = graph.circuit.parts.values()
    fuses = tuple(chain(*(ends(graph, part) for part in parts if part.kind.family is Family.FUSE)))
    switches = [_Switch(graph, part) for part in parts if part.kind.family is Family.SWITCH]
    nets = [graph.circuit.nets[lead] for lead in leads]
    mask = _on_the_way(graph, switches, (*fuses, *((each.a, each.b) for each in carriers)), (*nets, *metals))
    mattering = [each for each in switches if each.matters(mask)]
    still = tuple(chain(fuses, *(each.pairs(each.drawn) for each in switches if each not in mattering)))
    found = []
    places = [each.places(mask) for each in mattering]
    complete = prod(map(len, places)) <= MOST_WAYS
    joining = Budget(MOST_JOINED)
    for stand in product(*places) if complete else _two_at_a_time(places):
        if not joining.spend(len(still) + len(stand)):
            complete = False
            break
        root = joined_by((*still, *chain(*(each.pairs(at) for each, at in zip(mattering, stand, strict=True)))))
        moved = [each.words(at) for each, at in zip(mattering, stand, strict=True) if at != each.drawn]
        said = " and ".join(moved)
        for hot, cold in (leads, leads[::-1]) if line.alike else (leads,):
            found.append(Setting(hot, cold, root, said))
    return tuple(found), complete


class _Switch:
    """A switch with the pairs of nets that each of its positions joins."""

    def __init__(self, graph: CircuitGraph, part: Part) -> None:
        self.name = part.name
        self._pairs = {name: tuple(closed(graph, part, groups)) for name, groups in contacts(part)}
        self.drawn = part.features.arguments.get("drawn", next(iter(self._pairs)))

    def pairs(self, position: str) -> Pairs:
        return self._pairs.get(position, ())

    @property
    def every(self) -> Iterator[tuple[int, int]]:
        return chain.from_iterable(self._pairs.values())

    def matters(self, mask: int) -> bool:
        return any(are_in(pair, mask) for pair in self.every)

    def places(self, mask: int) -> tuple[str, ...]:
        """The positions that differ in what they join on the way, the one that is drawn first."""
        ordered = sorted(self._pairs, key=self.drawn.__ne__)
        seen: dict[frozenset[tuple[int, int]], str] = {}
        for name in ordered:
            seen.setdefault(frozenset(pair for pair in self._pairs[name] if are_in(pair, mask)), name)
        return tuple(seen.values())

    def words(self, position: str) -> str:
        return f"{self.name} {position if position in ('open', 'closed') else f'at {position}'}"


def _on_the_way(
    graph: CircuitGraph, switches: Iterable[_Switch], paths: Iterable[tuple[int, int]], poles: Sequence[int]
) -> int:
    """The nets on some path between two of the poles, as bits; all contacts count as closed."""
    count = len(graph.circuit.points)
    # One more node joined to all poles: a path between two of them closes a ring with it.
    edges = [*paths, *chain(*(each.every for each in switches)), *((pole, count) for pole in poles)]
    return Blocks(count + 1, edges).around(count)


def _two_at_a_time(places: Sequence[tuple[str, ...]]) -> Iterator[tuple[str, ...]]:
    drawn = tuple(each[0] for each in places)
    yield drawn
    for one, every in enumerate(places):
        for place in every[1:]:
            yield (*drawn[:one], place, *drawn[one + 1 :])
    for one, other in combinations(range(len(places)), 2):
        for first, second in product(places[one][1:], places[other][1:]):
            yield (*drawn[:one], first, *drawn[one + 1 : other], second, *drawn[other + 1 :])
