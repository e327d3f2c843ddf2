"""The rows of a panel: places above and below, the parts between them; who stands where so that least crosses.

Every order of a short row is tried, and the one with the fewest crossings taken.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise, permutations, product

from msgspec import Struct

from netcheck.core.panel import Cell, Line, Mark, Panel, PartBox
from netcheck.reports.drawing.card import CardShape
from netcheck.reports.drawing.levels import GAP, Marks, facing, levels_to_try
from netcheck.reports.drawing.scene import Point
from netcheck.reports.drawing.shapes import is_lying, marks_at, shape_of

__all__ = ["Arranged", "Corner", "arranged", "body_of", "crosses"]

_BETWEEN = 28.0
_HANGING = 22.0  # what a line under a row needs besides
_MOST_TRIED = 4  # cards in a row of which every order is tried


class Corner(Struct, frozen=True):
    """A card's shape and its upper left corner."""

    shape: CardShape
    corner: Point
    level: int


class Arranged(Struct, frozen=True):
    """The seats by card; the size of it all."""

    seats: Mapping[int, Corner]
    width: float
    height: float


def arranged(panel: Panel, room: float) -> Arranged | None:
    """The cards in rows that are not wider than the room; None where they don't fit."""
    marks = marks_at(panel)
    best: tuple[float, Arranged] | None = None
    for extra, levels in levels_to_try(panel, room, marks):
        cards = range(len(panel.cards))
        shapes = {i: shape_of(panel.cards[i], marks[i], facing(panel, i, levels), room) for i in cards}
        rows = [[i for i in cards if levels[i] == level] for level in range(3)]
        if any(_width(row, shapes) > room for row in rows):
            continue
        first = next((row for row in rows if row), [])
        for order, pulled in product(_orders(first), (True, False)):
            seated = [list(order) if row is first else row for row in rows]
            found = _settled(panel, seated, shapes, _Known(room, marks, levels, pulled))
            cost = _cost(panel.lines, found) + extra
            if found.width <= room and (best is None or cost < best[0] - 0.01):
                best = (cost, found)
    return best[1] if best else None


def _orders(row: Sequence[int]) -> Iterator[Sequence[int]]:
    yield from permutations(row) if len(row) <= _MOST_TRIED else [tuple(row)]


def _width(row: Sequence[int], shapes: Mapping[int, CardShape]) -> float:
    return sum(shapes[i].width for i in row) + GAP * max(0, len(row) - 1)


class _Known(Struct, frozen=True):
    """What the seats depend on; ``pulled`` rows stand under what they are joined to, others in the middle."""

    room: float
    marks: Marks
    levels: Mapping[int, int]
    pulled: bool


def _settled(panel: Panel, rows: list[list[int]], shapes: Mapping[int, CardShape], known: _Known) -> Arranged:
    room, marks, levels = known.room, known.marks, known.levels
    shapes = dict(shapes)
    width = max(_width(row, shapes) for row in rows)
    seats: dict[int, Corner] = {}
    y = 0.0
    for level, row in enumerate(rows):
        if not row:
            continue
        ordered = sorted(row, key=lambda i: _pull(panel, i, seats)) if seats else row
        for i in ordered:
            card = panel.cards[i]
            if isinstance(card, PartBox) and is_lying(card) and _backwards(panel, i, seats):
                shapes[i] = shape_of(card, marks[i], facing(panel, i, levels), room, turned=True)
        height = max(shapes[i].height for i in row)
        corners = _spread(panel, ordered, shapes, seats if known.pulled else {}, width)
        for i in ordered:
            own = shapes[i].height
            down = y + (height - own if level == 0 else 0.0 if level == 2 else (height - own) / 2)
            seats[i] = Corner(shapes[i], (corners[i], down), level)
        y += height + (_BETWEEN if level != 0 or not _hang(panel, row) else _BETWEEN + _HANGING)
    left = min((seat.corner[0] for seat in seats.values()), default=0.0)
    right = max((seat.corner[0] + seat.shape.width for seat in seats.values()), default=0.0)
    return Arranged(seats, right - left, y - _BETWEEN)


def _hang(panel: Panel, row: Sequence[int]) -> bool:
    """Whether a line hangs under a row, from one of its cards to another or the same."""
    return any(line.a[0] in row and line.b[0] in row for line in panel.lines)


def _port(seat: Corner, label: str) -> Point:
    at = seat.shape.ports[label].at
    return (seat.corner[0] + at[0], seat.corner[1] + at[1])


def _lines_of(panel: Panel, i: int) -> list[tuple[Line, str, tuple[int, str]]]:
    """A card's lines to other cards: the line, its own cell, the other end."""
    found = []
    for line in panel.lines:
        if line.a[0] == line.b[0]:
            continue
        if line.a[0] == i:
            found.append((line, line.a[1], line.b))
        elif line.b[0] == i:
            found.append((line, line.b[1], line.a))
    return found


def _pull(panel: Panel, i: int, seats: Mapping[int, Corner], label: str | None = None) -> float:
    """Where a card's lines come from, in points from the left: those that come off before those that go on."""
    known = [
        (line.mark, _port(seats[other[0]], other[1])[0])
        for line, own, other in _lines_of(panel, i)
        if other[0] in seats and label in (None, own)
    ]
    chosen = [x for mark, x in known if mark is Mark.OFF] or [x for _, x in known]
    return sum(chosen) / len(chosen) if chosen else float("inf")


def _backwards(panel: Panel, i: int, seats: Mapping[int, Corner]) -> bool:
    card = panel.cards[i]
    if not isinstance(card, PartBox) or len(card.ends) < 2:
        return False
    left, right = (_pull(panel, i, seats, end.label) for end in card.ends)
    if left == float("inf") or right == float("inf"):
        return False
    return left > right


def _spread(
    panel: Panel, row: Sequence[int], shapes: Mapping[int, CardShape], seats: Mapping[int, Corner], width: float
) -> dict[int, float]:
    """The left edges: each card under what it is joined to, none over another."""
    wanted = []
    for i in row:
        pull = _pull(panel, i, seats) if seats else float("inf")
        ports = [shapes[i].ports[own].at[0] for _, own, _ in _lines_of(panel, i)]
        middle = sum(ports) / len(ports) if ports else shapes[i].width / 2
        wanted.append(None if pull == float("inf") else pull - middle)
    if all(x is None for x in wanted):
        x = (width - _width(row, shapes)) / 2
        wanted = []
        for i in row:
            wanted.append(x)
            x += shapes[i].width + GAP
    return _apart(row, wanted, shapes)


def _apart(row: Sequence[int], wanted: Sequence[float | None], shapes: Mapping[int, CardShape]) -> dict[int, float]:
    """None over another, in their order, and the row where on the whole it is wanted."""
    lefts: list[float] = []
    free = 0.0
    for i, x in zip(row, wanted, strict=True):
        left = x if x is not None else free
        left = left if not lefts else max(free, left)
        lefts.append(left)
        free = left + shapes[i].width + GAP
    off = [left - x for left, x in zip(lefts, wanted, strict=True) if x is not None]
    shift = sum(off) / len(off) if off else 0.0
    return {i: left - shift for i, left in zip(row, lefts, strict=True)}


def _cost(lines: Sequence[Line], found: Arranged) -> float:
    """How far lines go sideways, and how often they cross; a crossing of what comes off is dearest."""
    spans = []
    for line in lines:
        if line.a[0] != line.b[0]:
            a, b = _port(found.seats[line.a[0]], line.a[1]), _port(found.seats[line.b[0]], line.b[1])
            spans.append((min(a, b, key=lambda p: p[1]), max(a, b, key=lambda p: p[1]), line.mark))
    cost = sum(abs(a[0] - b[0]) for a, b, _ in spans)
    for one, other in product(spans, spans):
        if (one[0][0] - other[0][0]) * (one[1][0] - other[1][0]) < 0:
            cost += 30 if Mark.ON in (one[2], other[2]) else 90
    # A line through a ring is harder to follow than one that leaves it at once.
    ports = [seat.shape.ports[label] for line in lines for i, label in (line.a, line.b) for seat in (found.seats[i],)]
    cost += 40 * sum(1 for port in ports if port.exclusive)
    blocks = [(i, block) for i, seat in found.seats.items() if (block := body_of(seat)) is not None]
    for line in lines:
        a, b = _port(found.seats[line.a[0]], line.a[1]), _port(found.seats[line.b[0]], line.b[1])
        cost += 150 * sum(1 for i, block in blocks if i not in (line.a[0], line.b[0]) and crosses((a, b), block))
    hanging = [
        i for i, seat in found.seats.items() if seat.level > 1 and any(i == a[0] == b[0] for a, b in _ends(lines))
    ]
    return cost + 50 * len(hanging) + (found.width + found.height) / 10


def body_of(seat: Corner) -> tuple[Point, Point] | None:
    """The rectangle of a part that no line may cross, by two corners."""
    block = seat.shape.block
    if block is None:
        return None
    x, y = seat.corner
    return ((block[0][0] + x, block[0][1] + y), (block[1][0] + x, block[1][1] + y))


def crosses(corners: Sequence[Point], block: tuple[Point, Point]) -> bool:
    """Whether a line from corner to corner runs over a rectangle."""
    (left, top), (right, bottom) = block
    for (x, y), (end, down) in pairwise(corners):
        # Where along the line it is between the sides, and where between top and bottom (Liang and Barsky's test).
        low, high = 0.0, 1.0
        for start, step, least, most in ((x, end - x, left, right), (y, down - y, top, bottom)):
            if abs(step) < 1e-9:
                low, high = (low, high) if least < start < most else (1.0, 0.0)
                continue
            first, last = sorted(((least - start) / step, (most - start) / step))
            low, high = max(low, first), min(high, last)
        if low < high:
            return True
    return False


def _ends(lines: Sequence[Line]) -> list[tuple[Cell, Cell]]:
    return [(line.a, line.b) for line in lines]
