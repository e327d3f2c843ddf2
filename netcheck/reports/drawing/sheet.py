"""The sheet of findings: each finding with its number, its sentence and its picture, on pages that cut none of them.

It is laid out here and written as SVG. An engine draws the PNG only, from a graph in which every place is settled; the
DOT file is that graph. Every mark of the SVG carries its act and its points (`data-act`, `data-at`).
"""

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.diagnostic import Diagnostic
from netcheck.core.panel import Panel
from netcheck.core.report import Report
from netcheck.reports.drawing.block import Block
from netcheck.reports.drawing.finding import finding_block, has_picture
from netcheck.reports.drawing.heading import ending, heading
from netcheck.reports.drawing.paper import A4, Paper
from netcheck.reports.drawing.scene import Stroke, Thing, Words, moved, straight
from netcheck.reports.drawing.value_table import value_blocks

__all__ = ["DrawnPages", "Group", "filling", "paged", "sheet"]

_FOOT = 14.0
_MOST_ROWS = 24


class Group(Struct, frozen=True):
    """Things that belong to one finding, or to none (0)."""

    number: int
    things: tuple[Thing, ...]


class DrawnPages(Struct, frozen=True):
    """Pages one below the other; ``pages`` is how many."""

    width: float
    height: float
    groups: tuple[Group, ...]
    pages: int
    paper: Paper


def sheet(report: Report, paper: Paper = A4) -> DrawnPages:
    """The report as a sheet."""
    return paged(_blocks(report, paper.room), paper, report.title)


def _blocks(report: Report, room: float) -> list[Block]:
    """From the top: the heading, the findings as they are numbered, the values in a table, the end."""
    numbered = list(report.numbered)
    panels = [d.panel for _, d in numbered if d.panel is not None]
    blocks = [heading(report, panels, room)]
    values = []
    for number, diagnostic in numbered:
        own = diagnostic.panel.values if diagnostic.panel else ()
        values += [(number, diagnostic, value) for value in own]
        if has_picture(diagnostic.panel) or not own:
            blocks += [finding_block(part, number, room) for part in _in_parts(diagnostic)]
    blocks += value_blocks(values, room)
    return [*blocks, ending(report, room)]


def _in_parts(diagnostic: Diagnostic) -> list[Diagnostic]:
    """The finding; one whose table is longer than a page can hold, in parts."""
    rows = diagnostic.panel.rows if diagnostic.panel else ()
    if len(rows) <= _MOST_ROWS:
        return [diagnostic]
    chunks = [rows[at : at + _MOST_ROWS] for at in range(0, len(rows), _MOST_ROWS)]
    first = replace(diagnostic, panel=Panel(rows=chunks[0]))
    more = replace(diagnostic, headline=f"{diagnostic.headline} (continued)", do="")
    return [first, *(replace(more, panel=Panel(rows=chunk)) for chunk in chunks[1:])]


def paged(blocks: Sequence[Block], paper: Paper, title: str) -> DrawnPages:
    """Blocks one below the other, a page further where one does not fit; of several each has ``title`` at its foot."""
    groups: list[Group] = []
    page, y = 0, paper.margin
    foot = 0.0 if _is_one_page(blocks, paper) else _FOOT
    for block in blocks:
        bottom = None if paper.height is None else paper.height * (page + 1) - paper.margin - foot
        if bottom is not None and y + block.height > bottom:
            page += 1
            y = paper.margin + (paper.height or 0.0) * page
        groups.append(Group(block.number, moved(block.things, paper.margin, y)))
        y += block.height + block.after
    pages = page + 1
    # The last page ends where its words do.
    height = y + paper.margin + (foot if pages > 1 else 0.0)
    if paper.height is not None and pages > 1:
        ends = [*(paper.height * number for number in range(1, pages)), height]
        groups += [Group(0, _foot(number, ends, paper, title)) for number in range(pages)]
    return DrawnPages(paper.width, height, tuple(groups), pages, paper)


def filling(first: Sequence[Block], rows: Sequence[Block], paper: Paper) -> list[Block]:
    """The first blocks, then the rows in order; where one is too tall for the rest of a page, one that fits goes first.

    Else a map that is as wide as its page has half of it to itself.
    """
    if paper.height is None:
        return [*first, *rows]
    room, y = paper.height - 2 * paper.margin - _FOOT, 0.0
    ordered: list[Block] = []
    waiting = [*first, *rows]
    while waiting:
        able = waiting if len(ordered) >= len(first) else waiting[:1]
        at = next((at for at, one in enumerate(able) if y + one.height <= room), None)
        y = 0.0 if at is None else y
        block = waiting.pop(at or 0)
        ordered.append(block)
        y += block.height + block.after
    return ordered


def _is_one_page(blocks: Sequence[Block], paper: Paper) -> bool:
    """Whether all fits on one page, which has no foot: its number would say nothing."""
    tall = sum(block.height + block.after for block in blocks) - blocks[-1].after
    return paper.height is None or tall <= paper.height - 2 * paper.margin


def _foot(number: int, ends: Sequence[float], paper: Paper, title: str) -> tuple[Thing, ...]:
    """The page's number, and where the next page begins."""
    bottom, pages = ends[number], len(ends)
    words = Words(
        paper.width - paper.margin, bottom - paper.margin + 4, f"page {number + 1} of {pages}", 9, anchor="end"
    )
    name = Words(paper.margin, bottom - paper.margin + 4, title, 9, colour="#666666")
    if number + 1 == pages:
        return (name, words)
    return (name, words, Stroke(straight((0, bottom), (paper.width, bottom)), "#DDDDDD", 0.5))
