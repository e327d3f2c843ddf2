"""The way of a line from one cell to another: straight, out of a ring between its pins, under a row from lug to lug."""

from collections.abc import Mapping
from itertools import pairwise
from math import dist

from netcheck.core.panel import Line
from netcheck.reports.drawing.arranging import Seat, body_of, crosses
from netcheck.reports.drawing.bounds import bounds, shifted
from netcheck.reports.drawing.card import Port
from netcheck.reports.drawing.scene import Point, Words, straight

__all__ = ["DEPTH", "Route", "route"]

Route = tuple[Point, ...]
DEPTH = 20.0
"""How far a line between two cells of one row hangs below or above it, in points."""


def route(line: Line, seats: Mapping[int, Seat], used: set[Point]) -> Route:
    """The stroke's points; ways out of a ring that are ``used`` already are left to others, if there is a choice."""
    a, b = seats[line.a[0]], seats[line.b[0]]
    one, other = a.shape.ports[line.a[1]], b.shape.ports[line.b[1]]
    if line.a[0] == line.b[0] and a.shape.middle is not None and one.inner is not None and other.inner is not None:
        return _within(_at(a, one.inner), _at(b, other.inner), _at(a, a.shape.middle))
    if a.level == b.level:
        return _hanging(_out(a, one), _out(b, other), up=a.level == 2)
    best: tuple[float, Route] | None = None
    said = [frame for seat in seats.values() for frame in _said(seat)]
    blocks = [block for seat in seats.values() if (block := body_of(seat)) is not None]
    for way in _ways(a, one):
        for back in _ways(b, other):
            corners = (*way, *reversed(back))
            cost = _length(corners) + 300.0 * sum(crosses(corners, block) for block in blocks)
            cost += 80.0 * sum(crosses(corners, frame) for frame in said)
            cost += sum(60 for p in corners if p in used)
            if best is None or cost < best[0] - 0.01:
                best = (cost, corners)
    corners = best[1] if best else (_at(a, one.at), _at(b, other.at))
    used.update(_gaps(a, one, corners) | _gaps(b, other, corners))
    return straight(*corners)


def _within(start: Point, end: Point, middle: Point) -> Route:
    """From pin to pin of one ring, by its middle."""
    toward = [(x + (middle[0] - x) * 0.6, y + (middle[1] - y) * 0.6) for x, y in (start, end)]
    return (start, toward[0], toward[1], end)


def _said(seat: Seat) -> list[tuple[Point, Point]]:
    """The rectangles of a card's words, by two corners."""
    frames = [shifted(bounds(x), *seat.corner) for x in (*seat.shape.things, *seat.shape.over) if isinstance(x, Words)]
    return [((left, top), (right, bottom)) for left, top, right, bottom in frames]


def _length(corners: Route) -> float:
    return sum(dist(p, q) for p, q in pairwise(corners))


def _gaps(seat: Seat, port: Port, corners: Route) -> set[Point]:
    """The gaps between pins that a line goes by."""
    if not port.exclusive:
        return set()
    own = {_at(seat, point) for way in port.ways for point in way}
    return own.intersection(corners)


def _at(seat: Seat, point: Point) -> Point:
    return (seat.corner[0] + point[0], seat.corner[1] + point[1])


def _ways(seat: Seat, port: Port) -> list[tuple[Point, ...]]:
    return [(_at(seat, port.at), *(_at(seat, point) for point in way)) for way in port.ways]


def _out(seat: Seat, port: Port) -> tuple[Point, ...]:
    """The first way out, for a line within a row."""
    return _ways(seat, port)[0]


def _hanging(one: tuple[Point, ...], other: tuple[Point, ...], *, up: bool) -> Route:
    sign = -1.0 if up else 1.0
    (x, y), (end, bottom) = one[-1], other[-1]
    deepest = max(y, bottom) + DEPTH if sign > 0 else min(y, bottom) - DEPTH
    arc = ((x, deepest), (end, deepest), (end, bottom))
    tail = straight(*reversed(other))[1:] if len(other) > 1 else ()
    return (*straight(*one), *arc, *tail)
