"""The cheapest cut between two sides of a graph: a largest flow by levels (Dinitz, 1970), in plain Python."""

from collections import deque
from collections.abc import Collection, Iterable, Iterator
from itertools import pairwise
from math import inf

__all__ = ["nearer_side"]

_ONE, _OTHER = -1, -2
_HELD = 10**9
"""What it would cost to cut a side's own points off; more than all edges together."""


def nearer_side(
    edges: Iterable[tuple[int, int, int]], one: Collection[int], other: Collection[int]
) -> frozenset[int] | None:
    """The points on the nearer side of the cheapest cut, of equally cheap ones that nearest to ``other``.

    Edges are two points (from 0 on) and what it costs to cut between them. None where no edge leads from one side to
    the other. A point that leads to neither is on the nearer side.
    """
    room = _room(edges, one, other)
    if _OTHER not in _levels(room, _ONE):
        return None
    while _OTHER in (levels := _levels(room, _ONE)):
        _fill(room, levels)
    far = set(_levels({at: _into(room, at) for at in room}, _OTHER))
    return frozenset(room.keys() - far)


def _room(
    edges: Iterable[tuple[int, int, int]], one: Collection[int], other: Collection[int]
) -> dict[int, dict[int, int]]:
    """How much more may flow from each point to each beside it."""
    room: dict[int, dict[int, int]] = {_ONE: {}, _OTHER: {}}
    held = (*((_ONE, at, _HELD) for at in one), *((_OTHER, at, _HELD) for at in other))
    for a, b, cost in (*edges, *held):
        for start, end in ((a, b), (b, a)):
            beside = room.setdefault(start, {})
            beside[end] = beside.get(end, 0) + cost
    return room


def _into(room: dict[int, dict[int, int]], at: int) -> dict[int, int]:
    return {beside: room[beside][at] for beside in room[at]}


def _levels(room: dict[int, dict[int, int]], start: int) -> dict[int, int]:
    """How many edges with room away from the start each point is that can be reached."""
    levels = {start: 0}
    waiting = deque((start,))
    while waiting:
        at = waiting.popleft()
        for beside, free in room[at].items():
            if free > 0 and beside not in levels:
                levels[beside] = levels[at] + 1
                waiting.append(beside)
    return levels


def _fill(room: dict[int, dict[int, int]], levels: dict[int, int]) -> None:
    """Lets flow through every shortest way as much as it has room for."""
    ahead: dict[int, Iterator[int]] = {at: iter(room[at]) for at in levels}
    way = [_ONE]
    while way:
        at = way[-1]
        if at == _OTHER:
            del way[_flow(room, way) + 1 :]
            ahead[way[-1]] = iter(room[way[-1]])
            continue
        step = next((o for o in ahead[at] if room[at][o] > 0 and levels.get(o, inf) == levels[at] + 1), None)
        if step is None:
            way.pop()
        else:
            way.append(step)


def _flow(room: dict[int, dict[int, int]], way: list[int]) -> int:
    """Fills one way; which of its points is the last before the first edge that is full now."""
    steps = list(pairwise(way))
    most = min(room[a][b] for a, b in steps)
    for a, b in steps:
        room[a][b] -= most
        room[b][a] += most
    return next(number for number, (a, b) in enumerate(steps) if room[a][b] == 0)
