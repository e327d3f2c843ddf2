"""Resistors in place of a tapped one: which section of it each of them, or each string of them, stands for.

Where their leads belong is said by ``meant``, and by that they are held against the ohms between those lugs.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from netcheck.compare.pair import Pair
from netcheck.compare.roles.reduction import Reduced, reduced
from netcheck.core.circuit import Part
from netcheck.core.groups import reached
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension, Quantity
from netcheck.model.points import lead_name

__all__ = ["OfSection", "of_sections"]


class OfSection(Struct, frozen=True):
    """The new parts between two lugs of an old one, what they amount to, and the ohms that were there."""

    old: Part
    new: tuple[Part, ...]
    lugs: tuple[str, str]
    then: tuple[Quantity, ...]
    now: Reduced


def of_sections(pair: Pair) -> Iterator[OfSection]:
    """What is meant between two lugs of each tapped resistor that several parts replace."""
    graph, known = pair.original, pair.source.parts
    entered = [part for name, part in graph.circuit.parts.items() if name not in known and len(part.leads) == 2]
    replacing: dict[str, list[Part]] = defaultdict(list)
    for part in entered:
        for name in part.replaces:
            replacing[name].append(part)
    for name, parts in replacing.items():
        old = known.get(name)
        if old is not None and _is_tapped(old):
            yield from _between_lugs(pair, old, parts)


def _is_tapped(part: Part) -> bool:
    values = part.features.all_of(Dimension.RESISTANCE)
    return part.kind.family is Family.RESISTOR and len(values) > 1 and len(values) == len(part.leads) - 1


def _between_lugs(pair: Pair, old: Part, parts: Sequence[Part]) -> Iterator[OfSection]:
    graph = pair.original
    nets, index = graph.circuit.nets, graph.circuit.index
    names = [lead_name(old, lead.name) for lead in old.leads]
    lugs = {nets[index[name]]: n for n, name in enumerate(names) if name in index}
    for group in _strings(parts, [frozenset(nets[at] for at in graph.terminals(p)) for p in parts], lugs):
        now = reduced(group, graph)
        ends = sorted(lugs[nets[end]] for end in now.ends if nets[end] in lugs) if now is not None else []
        if now is not None and len(set(ends)) == 2:
            first, last = ends
            values = old.features.all_of(Dimension.RESISTANCE)[first:last]
            yield OfSection(old, group, (old.leads[first].name, old.leads[last].name), tuple(values), now)


def _strings(
    parts: Sequence[Part], ends: Sequence[frozenset[int]], lugs: Mapping[int, int]
) -> Iterator[tuple[Part, ...]]:
    """The parts that hang together by nets that are no lug's, and those side by side."""

    def beside(n: int) -> Iterator[int]:
        for other, theirs in enumerate(ends):
            if theirs == ends[n] or (theirs & ends[n]) - lugs.keys():
                yield other

    groups = {reached(n, beside) for n in range(len(parts))}
    for group in sorted(groups, key=min):
        yield tuple(parts[n] for n in sorted(group))
