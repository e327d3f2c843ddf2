"""The words of wires: each beside its line, where it lies on nothing else, on a white ground."""

from collections.abc import Iterator, Mapping, Sequence

from netcheck.core.panel import Line, Mark
from netcheck.reports.drawing.arranging import Corner, crosses
from netcheck.reports.drawing.bounds import Frame, bounds, overlap, shifted
from netcheck.reports.drawing.lettering import advance, brief
from netcheck.reports.drawing.routing import DEPTH, Route
from netcheck.reports.drawing.scene import Box, Point, Thing, Words

__all__ = ["labels"]

_SIZE = 9.0
_CLEAR = 7.0  # from a line to its words
_STEPS = (0.0, -9.0, 9.0, -18.0, 18.0, -27.0, 27.0)


def labels(routes: Sequence[tuple[Line, Route]], seats: Mapping[int, Corner]) -> Iterator[Thing]:
    """A wire's words at the first of the places beside it where they are best read."""
    taken = [frame for seat in seats.values() for frame in _said(seat)]
    for line, points in routes:
        if not line.label.strip() or _is_said(line, routes):
            continue
        text = brief(line.label)
        wide = advance(text, _SIZE)
        others = [other for _, other in routes if other is not points]
        places = list(_places(points, wide, line, seats))
        x, y = min(places, key=lambda place: _trouble(_frame(place, wide), taken, others))
        taken.append(_frame((x, y), wide))
        yield Box(x - 1.5, y - 8, wide + 3, 11, "#FFFFFF")
        yield Words(x, y, text, _SIZE)


def _frame(place: Point, wide: float) -> Frame:
    return (place[0] - 2, place[1] - _SIZE * 0.8, place[0] + wide + 2, place[1] + _SIZE * 0.25)


def _trouble(frame: Frame, taken: Sequence[Frame], others: Sequence[Route]) -> float:
    """How badly words lie: over other words, or over another line."""
    corners = ((frame[0], frame[1]), (frame[2], frame[3]))
    lines = sum(1 for route in others if crosses(_straightened(route), corners))
    return 10.0 * sum(1 for other in taken if overlap(frame, other)) + lines


def _straightened(route: Route) -> tuple[Point, ...]:
    return tuple(route[at] for at in range(0, len(route), 3))


def _said(seat: Corner) -> Iterator[Frame]:
    for thing in (*seat.shape.things, *seat.shape.over):
        if isinstance(thing, Words):
            yield shifted(bounds(thing), *seat.corner)


def _is_said(line: Line, routes: Sequence[tuple[Line, Route]]) -> bool:
    """Whether the same wire's words stand at its end that comes off."""
    return line.mark is Mark.ON and any(
        other.mark is Mark.OFF and other.label == line.label and {other.a, other.b} & {line.a, line.b}
        for other, _ in routes
    )


def _places(points: Route, wide: float, line: Line, seats: Mapping[int, Corner]) -> Iterator[Point]:
    a, b = seats[line.a[0]], seats[line.b[0]]
    if line.a[0] == line.b[0] and a.shape.middle is not None:
        yield from _in_ring(a, a.shape.middle, wide)
    elif a.level == b.level:
        yield from _at_arc(points, wide, up=a.level > 1)
    else:
        height = _between(min(a.level, b.level), seats)
        for step in _STEPS:
            reach = [x for x in (_across(points, height + step + d) for d in (-6.0, 0.0, 5.0)) if x is not None]
            yield (max(reach, default=points[0][0]) + _CLEAR, height + step + 3)
            yield (min(reach, default=points[0][0]) - _CLEAR - wide, height + step + 3)


def _in_ring(seat: Corner, middle: Point, wide: float) -> Iterator[Point]:
    """Across the middle, or beside the ring at one of several heights."""
    x, y = seat.corner[0] + middle[0], seat.corner[1] + middle[1]
    for step in _STEPS:
        yield (x - wide / 2, y + step + 3)
    for step in _STEPS:
        yield (x + middle[0], y + step + 3)


def _at_arc(points: Route, wide: float, *, up: bool) -> Iterator[Point]:
    middle = (points[0][0] + points[-1][0]) / 2
    ys = [y for _, y in points]
    base = min(ys) + DEPTH / 4 - 5 if up else max(ys) - DEPTH / 4 + 12
    for step in _STEPS[::2]:
        yield (middle - wide / 2, base - step if up else base + abs(step))


def _between(level: int, seats: Mapping[int, Corner]) -> float:
    """The height midway between a row and the next."""
    bottom = max(seat.corner[1] + seat.shape.height for seat in seats.values() if seat.level == level)
    following = [seat for seat in seats.values() if seat.level > level]
    first = min(seat.level for seat in following)
    return (bottom + min(seat.corner[1] for seat in following if seat.level == first)) / 2


def _across(points: Route, height: float) -> float | None:
    """Where a line is at a height."""
    for at in range(0, len(points) - 3, 3):
        (x, y), (end, bottom) = points[at], points[at + 3]
        if min(y, bottom) <= height <= max(y, bottom):
            return x + (end - x) * ((height - y) / (bottom - y) if abs(bottom - y) > 1 else 0.5)
    return None
