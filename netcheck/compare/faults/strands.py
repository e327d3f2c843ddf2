"""Two partitions of the same leads, to the fewest faults that explain the difference.

A strand is the leads that share an old net and a new net. The pairing of old with new nets that keeps most leads
says which strand of each net is at home. Every other strand is one fault: it left its net (a split), it came
upon another (a merge), or both (a move).
"""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from netcheck.core.budget import Budget
from netcheck.core.circuit import Circuit, Join
from netcheck.core.difference import Fault, Lead, Merge, Move, Split
from netcheck.model.graph import CircuitGraph, best_matching

__all__ = ["NAME", "Homes", "Named", "Strands", "faults", "homes", "strands", "weight"]

Strands = Mapping[tuple[int, int], tuple[Lead, ...]]

# One lead weighs more than every name and lug together, and the chassis more than all leads.
_LEAD, NAME, _LUG, _LUGS_AT_MOST, _ANCHOR = 1_000, 400, 40, 300, 10_000_000


class Homes(Struct, frozen=True):
    """Where each old net is now, where it is anywhere, and the other way round."""

    new_of: Mapping[int, int]
    old_of: Mapping[int, int]


def strands(leads: Sequence[Lead], old: Sequence[int], new: Sequence[int]) -> Strands:
    """The leads by (old net, new net)."""
    found: dict[tuple[int, int], list[Lead]] = defaultdict(list)
    for lead, pair in zip(leads, zip(old, new, strict=True), strict=True):
        found[pair].append(lead)
    return {pair: tuple(members) for pair, members in found.items()}


def weight(lead: Lead) -> int:
    """What one lead weighs in the choice of its net's home."""
    return _LEAD if lead.part else _LEAD + _ANCHOR


def homes(weighed: Mapping[tuple[int, int], int], hinted: Mapping[tuple[int, int], int]) -> Homes:
    """Pairs old and new nets by the weight of their strands; those with one partner only need no choice."""
    partners_old: Counter[int] = Counter(old for old, _ in weighed)
    partners_new: Counter[int] = Counter(new for _, new in weighed)
    new_of = {old: new for old, new in weighed if partners_old[old] == 1 and partners_new[new] == 1}
    open_pairs = {pair: weight + hinted.get(pair, 0) for pair, weight in weighed.items() if pair[0] not in new_of}
    if open_pairs:
        new_of.update(best_matching(open_pairs))
    return Homes(new_of, {new: old for old, new in new_of.items()})


class Named(Struct, frozen=True):
    """The nets' names and the lugs of the original: its net number by name, read once for all states of a chassis."""

    nets: Mapping[str, int]
    lugs: Mapping[str, int]
    sources: frozenset[str]

    @classmethod
    def of(cls, original: Circuit) -> "Named":
        """Those of one original."""
        points = [pair for pair in zip(original.points, original.nets, strict=True) if not pair[0].is_lead]
        nets = {point.name: net for point, net in points if point.net_name}
        lugs = {point.name: net for point, net in points if not point.net_name}
        return cls(nets, lugs, frozenset(original.sources))

    def hints(self, rewired: Circuit) -> dict[tuple[int, int], int]:
        """What speaks for a pair of nets beside leads: an inherited name, a lug that both states name."""
        index, nets = rewired.index, rewired.nets
        inherited = {at for join in rewired.joins if join.place.source.name in self.sources for at in (join.a, join.b)}
        shared = ((index[name], old) for name, old in self.nets.items() if name in index)
        found = Counter((old, nets[at]) for at, old in shared if at in inherited)
        lugs = Counter((old, nets[index[name]]) for name, old in self.lugs.items() if name in index)
        weighed = Counter({pair: NAME * count for pair, count in found.items()})
        weighed.update({pair: min(_LUG * count, _LUGS_AT_MOST) for pair, count in lugs.items()})
        return dict(weighed)


def faults(found: Strands, home: Homes, rewired: CircuitGraph) -> tuple[Fault, ...]:
    """One fault for each strand that is not at home."""
    astray = {pair: leads for pair, leads in found.items() if home.new_of.get(pair[0]) != pair[1]}
    by_new: dict[int, list[tuple[int, tuple[Lead, ...]]]] = {new: [] for _, new in astray}
    by_old: dict[int, list[tuple[int, tuple[Lead, ...]]]] = {old: [] for old, _ in astray}
    for (old, new), leads in found.items():  # where all is at home, as almost everywhere, nothing is told
        if new in by_new:
            by_new[new].append((old, leads))
        if old in by_old:
            by_old[old].append((new, leads))
    told: list[Fault] = []
    cuts = {
        (old, new): cut
        for new, strands_there in by_new.items()
        if len(strands_there) > 1
        for old, cut in _parting(rewired, strands_there, home.old_of.get(new))
    }
    for (old, new), leads in astray.items():
        at_home, other = home.new_of.get(old), home.old_of.get(new)
        rest = tuple(lead for n, members in by_old[old] if n == at_home for lead in members)
        cut = cuts.get((old, new))
        if at_home is not None and other is not None and cut is not None:
            told.append(Move(leads, old, at_home, other, new, cut.culprits))
        elif at_home is not None:
            told.append(Split(leads, old, rest, at_home, new))
        elif cut is not None:
            told.append(Merge(leads, old, cut.others, cut.other_net, new, cut.culprits))
    return tuple(told)


class _Cut(Struct, frozen=True):
    """What holds one strand to the rest of its net, and the strand on the other side."""

    culprits: tuple[Join, ...]
    other_net: int
    others: tuple[Lead, ...]


def _parting(
    rewired: CircuitGraph, present: Sequence[tuple[int, tuple[Lead, ...]]], at_home: int | None
) -> Iterator[tuple[int, _Cut]]:
    """Parts the strands of one net, the loosest first, so that a chain of bridges is named wire by wire.

    Of more strands than any chassis has on one net, those that are left over are parted as they come.
    """
    left = _placed(rewired, dict(present))
    size, looking = sum(map(len, left.values())), Budget(_LOOKED_AT)
    while len(left) > 1:
        others = [old for old in left if old != at_home]
        asked = others if looking.spend(size * len(others)) else others[:1]
        cuts = {old: rewired.cheapest_cut({lead.new for lead in left[old]}, _points(left, old)) for old in asked}
        loosest = min(cuts, key=lambda old: (len(cuts[old]), list(left).index(old)))
        leads, culprits = left.pop(loosest), cuts[loosest]
        near = rewired.first_reached(culprits, {lead.new for lead in leads}, _points(left, loosest))
        other = next(
            (old for old, others in left.items() if any(lead.new == near for lead in others)), next(iter(left))
        )
        yield loosest, _Cut(culprits, other, left[other])


_LOOKED_AT = 4_000
"""Leads that are looked at for which strand is the loosest: all of ten strands of a hundred leads."""

_TRIED = 6
"""So many free parts across one bridge are tried both ways."""


def _placed(rewired: CircuitGraph, present: dict[int, tuple[Lead, ...]]) -> dict[int, tuple[Lead, ...]]:
    """The leads on each side of a bridge; a free part that lies across it is put the way that needs the least cut.

    Once two nets are one, the ends of a free part between them can't be told apart by nets.
    """
    across: dict[str, list[tuple[int, Lead]]] = defaultdict(list)
    for old, leads in present.items():
        for lead in leads:
            if _lies_across(rewired, lead):
                across[lead.part].append((old, lead))
    pairs = [ends for ends in across.values() if len(ends) == 2 and ends[0][0] != ends[1][0]]
    doubtful = {lead for ends in pairs for _, lead in ends}
    sides = {old: tuple(lead for lead in leads if lead not in doubtful) for old, leads in present.items()}
    if not all(sides.values()):
        return present
    for (x, one), (y, other) in pairs[:_TRIED]:
        ways = [{x: (*sides[x], a), y: (*sides[y], b)} for a, b in ((one, other), (other, one))]
        costs = [
            rewired.cost(rewired.cheapest_cut({lead.new for lead in way[x]}, {lead.new for lead in way[y]}))
            for way in ways
        ]
        sides.update(ways[costs.index(min(costs))])
    return sides


def _lies_across(rewired: CircuitGraph, lead: Lead) -> bool:
    part = rewired.circuit.parts.get(lead.part)
    if part is None or not part.free or len(part.leads) != 2:
        return False
    return len({rewired.circuit.nets[at] for at in rewired.terminals(part)}) == 1


def _points(left: Mapping[int, tuple[Lead, ...]], but: int) -> set[int]:
    return {lead.new for old, leads in left.items() if old != but for lead in leads}
