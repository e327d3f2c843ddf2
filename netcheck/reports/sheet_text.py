"""A sheet for the bench in plain text: boxes to tick, columns to write in."""

from collections.abc import Iterator, Sequence

from netcheck.core.sheet import Column, Row, Sheet, Table
from netcheck.reports.excerpt import cells
from netcheck.reports.renderer import Style, shown
from netcheck.reports.wrapping import in_lines

__all__ = ["sheet_text"]

_BOX = "[ ] "
_GAP = 2
_TO_WRITE = 10  # columns that a reading takes by hand
_CRAMPED = 8  # columns that it can do with where every row then stays on one line
_LEAST = 12  # columns that a wrapped cell keeps, however narrow the screen
_NARROW = 6  # where that is not enough
_PAPER = 100


def sheet_text(sheet: Sheet, style: Style) -> str:
    """The whole sheet, no wider than the screen, nor than a sheet of paper."""
    width = min(style.width, _PAPER)
    blocks = [
        [*_wrapped(f"netcheck {sheet.command}: {', '.join(sheet.files)}", width, style)],
        [
            *_wrapped(f"{sheet.title} ({sheet.state})" if sheet.state else sheet.title, width, style),
            "date ____________  by ____________",
        ],
        [line for text in sheet.cautions for line in _wrapped(f"! {text}", width, style, "  ")],
        [line for text in sheet.before for line in _wrapped(text, width, style, "  ")],
        *([*_table(table, width, style)] for table in sheet.tables),
        [line for text in sheet.closing for line in _wrapped(text, width, style, "  ")],
    ]
    return "\n".join("".join(f"{line.rstrip()}\n" for line in block) for block in blocks if block)


def _table(table: Table, width: int, style: Style) -> Iterator[str]:
    yield from _wrapped(table.heading, width, style)
    for text in table.before:
        yield from _wrapped(text, width, style, "  ")
    if not table.rows:
        return
    box = _BOX if table.boxes else ""
    widths = _widths(table, width - len(box), style)
    if any(column.name for column in table.columns):
        yield from _row(Row(tuple(column.name for column in table.columns)), widths, " " * len(box), style)
    for row in table.rows:
        if row.lead:
            yield from _wrapped(row.lead, width, style)
        yield from _row(_filled(row, table.columns, widths), widths, box, style)


def _filled(row: Row, columns: Sequence[Column], widths: Sequence[int]) -> Row:
    """The row with a line to write on in every blank cell that has nothing."""
    return Row(
        tuple(
            cell or ("_" * (width if column.wide else min(width, _TO_WRITE)) if column.blank else "")
            for cell, column, width in zip(row.cells, columns, widths, strict=True)
        )
    )


def _widths(table: Table, room: int, style: Style) -> list[int]:
    """Columns as wide as what they hold; where that is too much the widest give way."""
    widths = []
    for at, column in enumerate(table.columns):
        held = [cells(shown(row.cells[at], style)) for row in table.rows]
        widths.append(max([*held, cells(column.name), _TO_WRITE if column.blank else 0]))
    over = sum(widths) + _GAP * (len(widths) - 1) - room
    if over < 0:
        # A column to write in takes what room is left.
        for at, column in enumerate(table.columns):
            if column.blank and column.wide:
                widths[at] -= over
                over = 0
    over -= _cramped(table, widths, over)
    while over > 0:
        wide = [at for at, column in enumerate(table.columns) if column.wide] or [*range(len(widths))]
        at = max(wide, key=lambda one: widths[one])
        if widths[at] <= _LEAST:
            at = max(range(len(widths)), key=lambda one: widths[one])
        if widths[at] <= _NARROW:
            break
        widths[at] -= 1
        over -= 1
    return widths


def _cramped(table: Table, widths: list[int], over: int) -> int:
    """How much the columns to write in have given way: enough to keep every row on one line, or not at all."""
    blank = [at for at, column in enumerate(table.columns) if column.blank]
    spare = {at: widths[at] - max(_CRAMPED, cells(table.columns[at].name)) for at in blank}
    if not 0 < over <= sum(spare.values()):
        return 0
    left = over
    for at in blank:
        given = min(left, spare[at])
        widths[at] -= given
        left -= given
    return over


def _row(row: Row, widths: Sequence[int], start: str, style: Style) -> Iterator[str]:
    wrapped = [[*in_lines(shown(cell, style).split(), width)] for cell, width in zip(row.cells, widths, strict=True)]
    for line in range(max(map(len, wrapped))):
        texts = [column[line] if line < len(column) else "" for column in wrapped]
        padded = (text + " " * (width - cells(text)) for text, width in zip(texts, widths, strict=True))
        yield (start if line == 0 else " " * len(start)) + (" " * _GAP).join(padded)


def _wrapped(text: str, width: int, style: Style, hang: str = "  ") -> Iterator[str]:
    for number, line in enumerate(in_lines(shown(text, style).split(), max(width - len(hang), _LEAST))):
        yield (hang if number else "") + line
