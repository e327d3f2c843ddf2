"""The way of a line from one cell to another: straight, out of a ring between its pins, under a row from lug to lug."""

from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import dist

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.panel import Line
from netcheck.reports.drawing.arranging import Corner, body_of, crosses
from netcheck.reports.drawing.bounds import bounds, shifted
from netcheck.reports.drawing.card import Port
from netcheck.reports.drawing.past import Block, Route, distance, is_free, past
from netcheck.reports.drawing.ring import PIN
from netcheck.reports.drawing.scene import Disc, Point, Words, straight

__all__ = ["DEPTH", "Route", "route"]

DEPTH = 20.0
"""How far a line between two cells of one row hangs below or above it, in points."""

_OVER_A_BODY = 300.0
_OVER_WORDS = 80.0
_SHARED = 60.0


def route(line: Line, seats: Mapping[int, Corner], used: set[Point]) -> Route:
    """The stroke's points; ways out of a ring that are ``used`` already are left to others, if there is a choice."""
    a, b = seats[line.a[0]], seats[line.b[0]]
    one, other = a.shape.ports[line.a[1]], b.shape.ports[line.b[1]]
    if line.a[0] == line.b[0] and a.shape.middle is not None and one.inner is not None and other.inner is not None:
        return _within(_at(a, one.inner), _at(b, other.inner), _at(a, a.shape.middle))
    if line.a[0] == line.b[0] and min(len(one.exits), len(other.exits)) > 1:
        return _round_itself(a, one, other, above=any(seat.level > a.level for seat in seats.values()))
    if a.level == b.level:
        return _hanging(_out(a, one), _out(b, other), up=a.level == 2)
    blocks = [block for seat in seats.values() if _is_in_the_way(seat, (a, b)) and (block := body_of(seat)) is not None]
    said = [frame for seat in seats.values() for frame in _said(seat)]
    pins = [pin for seat in (a, b) if seat.shape.middle is not None for pin in _pins(seat)]
    pairs = [(way, tuple(reversed(back))) for way in _ways(a, one) for back in _ways(b, other)]
    tried = [_Tried(way, (way[-1], back[0]), back) for way, back in pairs]
    if not any(is_free(found.middle, blocks) for found in tried):
        tried += [_Tried(way, past(way[-1], back[0], blocks), back) for way, back in pairs]
    corners = min(tried, key=lambda found: _cost(found, blocks, said, used) + _over_pins(found, pins)).corners
    used.update(_gaps(a, one, corners) | _gaps(b, other, corners))
    return straight(*corners)


class _Tried(Struct, frozen=True):
    """A line: the way out of one card, what lies between, the way into the other; each begins where the last ends."""

    way: Route
    middle: Route
    back: Route

    @property
    def corners(self) -> Route:
        return (*self.way, *self.middle[1:-1], *self.back)


def _is_in_the_way(seat: Corner, ends: tuple[Corner, Corner]) -> bool:
    """A ring that the line begins or ends at has ways out of its own."""
    return seat.shape.middle is None or seat not in ends


def _cost(tried: _Tried, blocks: Sequence[Block], said: Sequence[Block], used: set[Point]) -> float:
    """The length in points; a body crossed is dearest, then words, then a gap that another line goes by."""
    corners = tried.corners
    over = _OVER_A_BODY * sum(crosses(tried.middle, block) for block in blocks)
    over += _OVER_WORDS * sum(crosses(corners, frame) for frame in said)
    return _length(corners) + over + _SHARED * sum(1 for point in corners if point in used)


def _over_pins(tried: _Tried, pins: Sequence[Disc]) -> float:
    """What it costs that a line runs over pins of the very ring that it comes out of."""
    return _OVER_A_BODY * sum(
        distance((pin.x, pin.y), *edge) < pin.radius for edge in pairwise(tried.middle) for pin in pins
    )


def _pins(seat: Corner) -> list[Disc]:
    dx, dy = seat.corner
    return [replace(x, x=x.x + dx, y=x.y + dy) for x in seat.shape.things if isinstance(x, Disc) and x.radius == PIN]


def _within(start: Point, end: Point, middle: Point) -> Route:
    """From pin to pin of one ring, by its middle."""
    toward = [(x + (middle[0] - x) * 0.6, y + (middle[1] - y) * 0.6) for x, y in (start, end)]
    return (start, toward[0], toward[1], end)


def _said(seat: Corner) -> list[Block]:
    """The rectangles of a card's words, by two corners."""
    frames = [shifted(bounds(x), *seat.corner) for x in (*seat.shape.things, *seat.shape.over) if isinstance(x, Words)]
    return [((left, top), (right, bottom)) for left, top, right, bottom in frames]


def _length(corners: Route) -> float:
    return sum(dist(p, q) for p, q in pairwise(corners))


def _gaps(seat: Corner, port: Port, corners: Route) -> set[Point]:
    """The gaps between pins that a line goes by."""
    if not port.exclusive:
        return set()
    own = {_at(seat, point) for way in port.exits for point in way[1:]}
    return own.intersection(corners)


def _at(seat: Corner, point: Point) -> Point:
    return (seat.corner[0] + point[0], seat.corner[1] + point[1])


def _ways(seat: Corner, port: Port) -> list[tuple[Point, ...]]:
    return [tuple(_at(seat, point) for point in way) for way in port.exits]


def _out(seat: Corner, port: Port) -> tuple[Point, ...]:
    """The first way out, for a line within a row."""
    return _ways(seat, port)[0]


def _round_itself(seat: Corner, one: Port, other: Port, *, above: bool) -> Route:
    """From lead to lead of one part, clear of its body and its values; on the side that other lines leave free."""
    side = 1 if above else -1
    return straight(*_ways(seat, one)[side], *reversed(_ways(seat, other)[side]))


def _hanging(one: tuple[Point, ...], other: tuple[Point, ...], *, up: bool) -> Route:
    (x, y), (end, bottom) = one[-1], other[-1]
    deepest = min(y, bottom) - DEPTH if up else max(y, bottom) + DEPTH
    arc = ((x, deepest), (end, deepest), (end, bottom))
    tail = straight(*reversed(other))[1:] if len(other) > 1 else ()
    return (*straight(*one), *arc, *tail)
