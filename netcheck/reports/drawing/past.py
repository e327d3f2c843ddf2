"""The way of a line past the bodies of parts, from corner to corner; how far a point is from a line."""

from collections.abc import Sequence
from math import dist, hypot, inf

from netcheck.reports.drawing.arranging import crosses
from netcheck.reports.drawing.scene import Point

__all__ = ["ASIDE", "Block", "Route", "distance", "is_free", "past"]

Route = tuple[Point, ...]
Block = tuple[Point, Point]
"""A rectangle that no line may cross, by two corners."""

ASIDE = 7.0
"""How far from a body's corner a line passes it, in points."""


def is_free(corners: Route, blocks: Sequence[Block]) -> bool:
    """Whether a line runs over no body."""
    return not any(crosses(corners, block) for block in blocks)


def distance(at: Point, start: Point, end: Point) -> float:
    """From a point to the nearest one of a stretch."""
    along = (end[0] - start[0], end[1] - start[1])
    length = hypot(*along)
    share = ((at[0] - start[0]) * along[0] + (at[1] - start[1]) * along[1]) / length**2 if length else 0.0
    near = min(1.0, max(0.0, share))
    return dist(at, (start[0] + near * along[0], start[1] + near * along[1]))


def past(start: Point, end: Point, blocks: Sequence[Block]) -> Route:
    """The shortest way past the bodies, from corner to corner of them; straight where there is none."""
    around = [corner for block in blocks for corner in _corners(block)]
    lengths: dict[Point, float] = {start: 0.0}
    routes: dict[Point, Route] = {start: (start,)}
    open_ends = [start]
    while open_ends:
        here = min(open_ends, key=lambda point: lengths[point])
        open_ends.remove(here)
        if here == end:
            return routes[here]
        for there in (*around, end):
            far = lengths[here] + dist(here, there)
            if far < lengths.get(there, inf) - 0.01 and is_free((here, there), blocks):
                lengths[there], routes[there] = far, (*routes[here], there)
                open_ends.append(there)
    return (start, end)


def _corners(block: Block) -> list[Point]:
    (left, top), (right, bottom) = block
    return [(x, y) for x in (left - ASIDE, right + ASIDE) for y in (top - ASIDE, bottom + ASIDE)]
