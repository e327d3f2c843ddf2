"""A socket or can as a ring, seen from below: its pins clockwise from the key, or its lugs by their cut marks."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from math import asin, cos, hypot, pi, sin, sqrt

from msgspec import Struct

from netcheck.core.panel import Can, Lug, Mark, Socket
from netcheck.reports.drawing.card import CardShape, Facing, Port
from netcheck.reports.drawing.glyphs import cut_mark, has_glyph, key_mark
from netcheck.reports.drawing.lettering import NAME, SMALL, advance, brief, leading
from netcheck.reports.drawing.marks import BODY, CELL, FAINT, GREY, QUIET, cell_look
from netcheck.reports.drawing.scene import Box, Disc, Point, Thing, Words

__all__ = ["PIN", "on_ring", "ring_shape", "turns_of"]

PIN = 10.0  # a pin's radius in points
_SPACING = 27.0
_RIM = 15.0
_SQUARE = 0.7  # half the side of the square within a ring, of its radius
_SIDE = 0.3  # a pin so near the middle, of the radius, has no side
_CLEAR = 4.0
_STEP = 0.3  # radians from point to point along the outside
_LEVEL = 0.5  # where, in radians past the side, a line leaves the outside
_INNER = 19.0  # how far inside the pins a line turns towards a gap


class _Cell(Struct, frozen=True):
    lug: Lug
    angle: float
    at: Point


def angles(count: int, key: str) -> tuple[float, ...]:
    """Where pins stand, clockwise from straight down as seen from below: beside a key, or beside a gap of one pin."""
    if key == "gap":
        return tuple(2 * pi * (i + 1) / (count + 1) for i in range(count))
    return tuple(2 * pi * (i + 0.5) / count for i in range(count))


def can_angles(count: int) -> tuple[float, ...]:
    """Where a can's lugs stand: spread over the upper part, the last, the can's own tab, at the bottom."""
    upper = count - 1
    return (*(2 * pi * (i + 1) / (upper + 1) for i in range(upper)), 0.0)


def turns_of(place: Socket | Can) -> tuple[float | None, ...]:
    """The angle of each lug; none for a tube's cap, which stands in the middle."""
    if isinstance(place, Can):
        return can_angles(len(place.lugs))
    pins = iter(angles(sum(1 for lug in place.lugs if lug.label != "cap"), place.key))
    return tuple(None if lug.label == "cap" else next(pins) for lug in place.lugs)


def _is_over(cell: _Cell, facing: Facing) -> bool:
    """Whether a pin's words stand above it: at the top of a ring whose lines leave downwards."""
    return abs(cell.at[0]) < 1 and cell.at[1] < 0 and facing == "down"


def _above(cells: Sequence[_Cell], marks: Mapping[str, set[Mark]], facing: Facing) -> float:
    """The room for the words of a marked pin that stands at the top."""
    top = [cell for cell in cells if _is_over(cell, facing) and marks.get(cell.lug.label)]
    return max((leading(SMALL) * len(_texts(cell.lug)) for cell in top), default=0.0)


def ring_shape(place: Socket | Can, marks: Mapping[str, set[Mark]], facing: Facing) -> CardShape:
    """The ring under its name; a marked pin's net stands beside it."""
    socket = isinstance(place, Socket)
    turns = turns_of(place)
    radius = _radius([turn for turn in turns if turn is not None])
    cells = [
        _Cell(lug, turn or 0.0, (0.0, 0.0) if turn is None else on_ring(turn, radius))
        for lug, turn in zip(place.lugs, turns, strict=True)
    ]
    left, right = _reach(cells, marks, radius, facing)
    above = _above(cells, marks, facing)
    head = above + (leading(NAME) + 4 if facing == "down" else 2.0)
    name, what = _title(place)
    said = advance(name, NAME, bold=True) + 4 + advance(what, SMALL)
    width = max(left + right, said)
    x = max(left, width / 2 if left + right < width else left)
    y = head + radius + _RIM
    things: list[Thing] = [Disc(x, y, radius + _RIM - 1, BODY, FAINT, 0.8)]
    if socket:
        things += key_mark(place.key if isinstance(place, Socket) else "", (x, y), radius)
    over: list[Thing] = []
    for cell in cells:
        own = marks.get(cell.lug.label, set())
        things += _pin(cell, (x, y), own, numbered=socket)
        over += _net(cell, (x, y, radius), own, facing)
    rim = y + radius + _RIM
    base, at = leading(NAME) - 3 if facing == "down" else rim + leading(NAME), x - said / 2
    over.append(Words(at, base, name, NAME, bold=True))
    over.append(Words(at + said - advance(what, SMALL), base, what, SMALL, colour=QUIET))
    ports = _ports(cells, (x, y), radius, facing)
    height = rim + 1 if facing == "down" else rim + leading(NAME) + 4
    half = (radius + _RIM) * _SQUARE
    block = ((x - half, y - half), (x + half, y + half))
    return CardShape(max(width, x + right), height, tuple(things), ports, tuple(over), (x, y), block)


def _title(place: Socket | Can) -> tuple[str, str]:
    what = brief(place.type) if isinstance(place, Socket) else "can"
    return brief(place.name), f"{what}, from below" if what else "from below"


def _radius(turns: Sequence[float]) -> float:
    nearest = min((abs(b - a) for a, b in pairwise(turns)), default=pi)
    return max(28.0, _SPACING / (2 * sin(min(nearest, pi) / 2)))


def on_ring(turn: float, radius: float) -> Point:
    """A place on the ring about the middle; the angle runs clockwise from straight down."""
    return (-sin(turn) * radius, cos(turn) * radius)


def _reach(
    cells: Sequence[_Cell], marks: Mapping[str, set[Mark]], radius: float, facing: Facing
) -> tuple[float, float]:
    left = right = radius + _RIM + 1
    for cell in cells:
        if not marks.get(cell.lug.label):
            continue
        x = cell.at[0]
        room = max((advance(text, SMALL) for text in _texts(cell.lug)), default=0.0)
        if _is_over(cell, facing):
            left, right = max(left, room / 2), max(right, room / 2)
        elif x > -1:
            right = max(right, _beside(cell, radius) + room)
        else:
            left = max(left, -_beside(cell, radius) + room)
    return left + 1, right + 1


def _texts(lug: Lug) -> list[str]:
    mark = lug.label if has_glyph(lug.label) else ""
    return [brief(text) for text in (lug.net, mark) if text.strip()]


def _beside(cell: _Cell, radius: float) -> float:
    """Where a pin's words begin: outside the rim at the pin's height, those of a tube's cap too."""
    x, y = cell.at
    rim = radius + _RIM + (8 if abs(x) < 1 else 9)
    outside = sqrt(max(rim * rim - y * y, 0.0))
    return outside if x > -1 else -outside


def _pin(cell: _Cell, middle: Point, marks: set[Mark], *, numbered: bool) -> list[Thing]:
    colour, weight, dashed = cell_look(marks)
    x, y = middle[0] + cell.at[0], middle[1] + cell.at[1]
    ink = "black" if marks else QUIET
    label = cell.lug.label
    if label == "can":
        box = Box(x - 13, y - 7, 26, 16, CELL, colour, weight, 2, dashed)
        return [box, Words(x, y + 4, "can", SMALL, bool(marks), ink, "middle")]
    things: list[Thing] = [Disc(x, y, PIN, CELL, colour, weight, dashed)]
    if not numbered and has_glyph(label):
        return [*things, *cut_mark(label, (x, y))]
    text = brief(label, 4)
    return [*things, Words(x, y + 3.6, text, 10 if len(text) < 3 else SMALL, bool(marks), ink, "middle")]


def _net(cell: _Cell, ring: tuple[float, float, float], marks: set[Mark], facing: Facing) -> list[Thing]:
    """The words of a marked pin; ``ring`` is its middle and its radius."""
    if not marks:
        return []
    texts = _texts(cell.lug)
    across, down, radius = ring
    x, y = across + cell.at[0], down + cell.at[1]
    if _is_over(cell, facing):
        at, anchor = (x, y - _RIM - 2 - leading(SMALL) * (len(texts) - 1)), "middle"
    else:
        at = (across + _beside(cell, radius), y + 3 - leading(SMALL) * (len(texts) - 1) / 2)
        anchor = "start" if cell.at[0] > -1 else "end"
    return [
        Words(at[0], at[1] + i * leading(SMALL), text, SMALL, colour="black" if i == 0 else GREY, anchor=anchor)
        for i, text in enumerate(texts)
    ]


def _ports(cells: Sequence[_Cell], middle: Point, radius: float, facing: Facing) -> dict[str, Port]:
    sign = 1.0 if facing == "down" else -1.0
    gaps = _gaps(cells, middle, radius, sign)
    ports: dict[str, Port] = {}
    for cell in cells:
        x, y = cell.at
        size = hypot(x, y) or 1.0
        inner = (middle[0] + x - x / size * PIN, middle[1] + y - y / size * PIN)
        if (y * sign > -1 and cell.at != (0.0, 0.0)) or len(cells) == 1:
            side = 0.0 if abs(x) < radius * 0.55 else (1.0 if x > 0 else -1.0)
            start = (middle[0] + x + side * 7, middle[1] + y + sign * (PIN if side == 0 else 7))
            below = (middle[0] + x + side * 12, middle[1] + sign * (radius + _RIM))
            ports.setdefault(cell.lug.label, Port(start, ((start, below),), inner=inner))
        else:
            through = tuple((inner, *gap) for gap in gaps)
            ways = (*through, *_round(cell, middle, radius, sign))
            ports.setdefault(cell.lug.label, Port(inner, ways or ((inner,),), exclusive=True, inner=inner))
    return ports


def _gaps(cells: Sequence[_Cell], middle: Point, radius: float, sign: float) -> tuple[tuple[Point, ...], ...]:
    """The ways out of the ring between two neighbouring pins on the side that lines leave by."""
    ways = []
    turns = sorted(cell.angle % (2 * pi) for cell in cells if cell.at != (0.0, 0.0))
    for a, b in zip(turns, [*turns[1:], turns[0] + 2 * pi], strict=True):
        x, y = on_ring((a + b) / 2, 1.0)
        if y * sign > 0.2:
            ways.append(tuple((middle[0] + x * r, middle[1] + y * r) for r in (radius - _INNER, radius + _RIM + 3)))
    return tuple(ways)


def _round(cell: _Cell, middle: Point, radius: float, sign: float) -> Iterator[tuple[Point, ...]]:
    """The way of a pin on the far side along the outside of the ring, on its own side; a pin in the middle has none."""
    x, y = cell.at
    if abs(x) < radius * _SIDE:
        return
    out = radius + _RIM + _CLEAR
    turn, last = asin(max(-1.0, min(1.0, y / radius))), _LEVEL * sign
    steps = max(2, round(abs(last - turn) / _STEP))
    turns = [turn + (last - turn) * (i + 1) / steps for i in range(steps)]
    side = 1.0 if x > 0 else -1.0
    dx, dy = side * cos(turns[0]), sin(turns[0])
    start = (middle[0] + x + dx * PIN, middle[1] + y + dy * PIN)
    yield (start, *((middle[0] + side * cos(at) * out, middle[1] + sin(at) * out) for at in turns))
