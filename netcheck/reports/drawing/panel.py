"""One panel as a picture: its cards in rows, its lines with their labels; or a table where there is too much of it."""

from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from netcheck.core.panel import Mark, Panel
from netcheck.reports.drawing.arranging import Corner, arranged
from netcheck.reports.drawing.bounds import bounds
from netcheck.reports.drawing.labels import labels
from netcheck.reports.drawing.listing import listed, rows_of
from netcheck.reports.drawing.marks import drawn_line
from netcheck.reports.drawing.routing import route
from netcheck.reports.drawing.scene import Point, Thing, moved
from netcheck.reports.drawing.sentences import line_told

__all__ = ["Drawn", "drawn_panel"]

# What goes on lies under what comes off, so that no white core hides a dash's end.
_ORDER = (Mark.PLAIN, Mark.ON, Mark.OFF)


class Drawn(Struct, frozen=True):
    """A picture of a size in points."""

    width: float
    height: float
    things: tuple[Thing, ...]
    is_table: bool = False


def drawn_panel(panel: Panel, room: float) -> Drawn:
    """The panel, not wider than the room where that can be."""
    if panel.rows:
        return _table(panel, room)
    found = arranged(panel, room)
    if found is None:
        return _table(panel, room)
    used: set[Point] = set()
    ordered = sorted(panel.lines, key=lambda line: _ORDER.index(line.mark))
    routes = [(line, route(line, found.seats, used)) for line in ordered]
    lines = [drawn_line(points, line, line_told(panel, line)) for line, points in routes]
    said = labels(routes, found.seats)
    things = [*_cards(found.seats), *lines, *said, *_over(found.seats)]
    drawn = _trimmed(things)
    return drawn if drawn.width <= room else _table(panel, room)


def _table(panel: Panel, room: float) -> Drawn:
    width, height, things = listed(rows_of(panel), room)
    return Drawn(width, height, things, is_table=True)


def _cards(seats: Mapping[int, Corner]) -> Iterator[Thing]:
    for seat in seats.values():
        yield from moved(seat.shape.things, *seat.corner)


def _over(seats: Mapping[int, Corner]) -> Iterator[Thing]:
    for seat in seats.values():
        yield from moved(seat.shape.over, *seat.corner)


def _trimmed(things: Sequence[Thing]) -> Drawn:
    """Moved so that its upper left corner is the origin; a hanging line and a label may reach beyond the rows."""
    frames = [bounds(thing) for thing in things] or [(0.0, 0.0, 0.0, 0.0)]
    left, top = min(b[0] for b in frames), min(b[1] for b in frames)
    right, bottom = max(b[2] for b in frames), max(b[3] for b in frames)
    return Drawn(right - left, bottom - top, moved(things, -left, -top))
