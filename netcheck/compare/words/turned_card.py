"""A socket, strip or can that is turned as a whole: one card, lug by lug what belongs there and what is there now.

So is one with two lugs or more that change among themselves and four things or more on them: lines would be a thicket.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping

from msgspec.structs import replace

from netcheck.compare.pair import Pair
from netcheck.compare.words.cards import Cards, is_place, place_card
from netcheck.compare.words.original_names import ALONE, OriginalNames
from netcheck.core.circuit import UNSOLDERED, Part
from netcheck.core.mend import Act, Cut, Mend, Put, Solder, Wire
from netcheck.core.panel import Done, PlaceCard
from netcheck.model.points import lead_name

__all__ = ["turned_card"]

_FEWEST = 4
"""Fewer things that change their lug are drawn with their lines."""

_Moved = tuple[Act, tuple[int, ...], tuple[int, ...], tuple[int, ...]]
_Moves = tuple[_Moved, ...]


def turned_card(pair: Pair, mend: Mend) -> PlaceCard | None:
    """The place that all acts of a mend are about, where they are many."""
    moves = _moves(pair, mend)
    if moves is None:
        return None
    owners = {pair.real.point(at).part for _, off, on, _ in moves for at in (*off, *on)}
    part = pair.real.circuit.parts.get(next(iter(owners))) if len(owners) == 1 else None
    things = sum(1 for _, _, on, _ in moves if on)
    if part is None or things < _FEWEST or not any(off for _, off, _, _ in moves):
        return None
    return _card(pair, mend, part, moves)


def _moves(pair: Pair, mend: Mend) -> _Moves | None:
    """Each act with the lugs that it takes off and puts on, and what it moves; None where another act is among them."""
    graph, index = pair.real, pair.real.circuit.index
    cards = Cards(graph, lambda _: "", lambda _: "")
    hubs = _hubs(pair, mend)
    found: list[_Moved] = []
    for act in mend:
        match act:
            case Put(point, to):
                at = index[point]
                off = [j.a if j.b == at else j.b for j in graph.joins_at[at] if j.how not in UNSOLDERED]
                found.append((act, tuple(map(cards.at, off)), (cards.at(index[to]),), (at,)))
            case Cut(a, b):
                ends = [cards.at(index[a]), cards.at(index[b])]
                inner = tuple(at for at in ends if graph.point(at).part in hubs)
                found.append((act, inner, (), tuple(at for at in ends if at not in inner)))
            case Solder(a, b) | Wire(a, b):
                ends = [cards.at(index[a]), cards.at(index[b])]
                inner = tuple(at for at in ends if graph.point(at).part in hubs)
                found.append((act, (), inner, tuple(at for at in ends if at not in inner)))
            case _:
                return None
    return tuple(found) if found and all(off or on for _, off, on, _ in found) else None


def _hubs(pair: Pair, mend: Mend) -> frozenset[str]:
    """The place that most acts name."""
    count: dict[str, int] = defaultdict(int)
    index = pair.real.circuit.index
    for act in mend:
        points = (act.to,) if isinstance(act, Put) else (act.a, act.b) if isinstance(act, Cut | Wire) else ()
        points = (act.point, act.to) if isinstance(act, Solder) else points
        for name in points:
            point = pair.real.point(index[name])
            part = pair.real.circuit.parts.get(point.part)
            if part is not None and point.terminal is not None and is_place(part, point.terminal.role):
                count[point.part] += 1
    return frozenset(sorted(count, key=lambda name: (-count[name], name))[:1])


def _card(pair: Pair, mend: Mend, part: Part, moves: _Moves) -> PlaceCard:
    names = OriginalNames(pair, mend)
    off: Mapping[int, list[Done]] = defaultdict(list)
    on: Mapping[int, list[Done]] = defaultdict(list)
    now: Mapping[int, list[str]] = defaultdict(list)
    coming: Mapping[int, list[str]] = defaultdict(list)
    for act, offs, ons, things in moves:
        for at in offs:
            off[at].append(Done(act.line, (pair.real.point(at).name,)))
            now[at] += _nets(pair, names, things or [other for other in offs if other != at])
        for at in ons:
            on[at].append(Done(act.line, (pair.real.point(at).name,)))
            coming[at] += _nets(pair, names, things or [other for other in ons if other != at])
    card = place_card(pair.real, part, lambda at: _belongs(names, at) or _few(coming[at]))
    points = [pair.real.circuit.index[lead_name(part, t.name)] for t in (part.shape.terminals if part.shape else ())]
    lugs = tuple(
        replace(lug, now=_few(now[at]), off=tuple(off[at]), on=tuple(on[at]))
        for at, lug in zip(points, card.lugs, strict=True)
    )
    return replace(card, lugs=lugs)


def _belongs(names: OriginalNames, at: int) -> str:
    name = names.of_place(at)
    return "" if name == ALONE else name


def _nets(pair: Pair, names: OriginalNames, things: Iterable[int]) -> list[str]:
    """Where things belong in the original; what has no place there is called by its own name."""
    found = []
    for at in things:
        net = names.of_lead(at) if pair.real.point(at).is_lead else _belongs(names, at)
        found.append(net or pair.real.point(at).name)
    return found


def _few(found: Iterable[str]) -> str:
    return " and ".join(list(dict.fromkeys(found))[:2])
