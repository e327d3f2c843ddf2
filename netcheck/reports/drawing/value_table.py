"""The values that differ, in one small table: finding, part, now, was, what to do."""

from collections.abc import Sequence

from netcheck.core.diagnostic import Diagnostic
from netcheck.core.panel import Mark, Value
from netcheck.reports.drawing.block import Block
from netcheck.reports.drawing.finding import small_number
from netcheck.reports.drawing.lettering import advance, leading, spoken, wrapped
from netcheck.reports.drawing.marks import FAINT, GREY
from netcheck.reports.drawing.scene import Stroke, Tag, Thing, Words, moved, straight

__all__ = ["value_blocks"]

_SIZE = 9.5
_HEADS = ("part", "now", "was", "fit")
_BETWEEN = 9.0
_SQUARE = 15.0
_FIRST = _SQUARE + 46
_MOST_LINES = 12  # what is to be fitted has to be read whole on a phone too

Entry = tuple[int, Diagnostic, Value]


def value_blocks(entries: Sequence[Entry], room: float) -> list[Block]:
    """The heading with the first row, then a block a row, so that a page may end between two of them."""
    if not entries:
        return []
    columns = _columns(entries, room)
    rows = [_row(entry, columns, room) for entry in entries]
    title = Words(0.0, 12.0, "Values", 12.0, bold=True)
    heads = [Words(x, 27.0, head, 9.0, colour=GREY) for (x, _), head in zip(columns, _HEADS, strict=True)]
    first = Block(31.0 + rows[0].height, (title, *heads, *moved(rows[0].things, 0.0, 31.0)), 0.0, rows[0].number)
    return [first, *rows[1:]]


def _columns(entries: Sequence[Entry], room: float) -> list[tuple[float, float]]:
    """Left edge and width: the first three as wide as their words allow, the rest for what to fit."""
    texts = list(zip(*[(value.part, value.now, value.was) for _, _, value in entries], strict=True))
    widest = [
        max(advance(text, _SIZE, bold=i == 0) for text in (_HEADS[i], *column)) + 1 for i, column in enumerate(texts)
    ]
    limit = (room - _FIRST) * 0.22
    found: list[tuple[float, float]] = []
    x = _FIRST
    for width in (min(width, limit) for width in widest):
        found.append((x, width))
        x += width + _BETWEEN
    return [*found, (x, room - x)]


def _row(entry: Entry, columns: Sequence[tuple[float, float]], room: float) -> Block:
    number, diagnostic, value = entry
    fit = value.fit or spoken(diagnostic.do)
    cells = [
        wrapped(text, width, _SIZE, bold=i == 0, most=_MOST_LINES)
        for i, (text, (_, width)) in enumerate(zip((value.part, value.now, value.was, fit), columns, strict=True))
    ]
    step = leading(_SIZE)
    tags = () if value.done is None else (Tag(Mark.ON.value, value.done),)
    things: list[Thing] = [Stroke(straight((0, 1), (room, 1)), FAINT, 0.6)]
    for i, ((x, _), lines) in enumerate(zip(columns, cells, strict=True)):
        for n, line in enumerate(lines):
            own = tags if i == 3 and n == 0 else ()
            things.append(Words(x, 4 + step * (n + 1) - 2, line, _SIZE, bold=i == 0, tags=own))
    height = max(_SQUARE + 6, step * max(len(lines) for lines in cells) + 7)
    return Block(height, (*things, *moved(small_number(number, diagnostic.grade), 0.0, 3.5)), 0.0, number)
