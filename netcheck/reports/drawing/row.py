"""The card of a place whose lugs stand in a row: strip, plug, single lug, can."""

from collections.abc import Sequence
from itertools import pairwise

from netcheck.core.panel import Can, Lug, Mark, Strip
from netcheck.reports.drawing.card import Card, lug_cell, ports, table
from netcheck.reports.drawing.lettering import advance, brief, lettered
from netcheck.reports.drawing.marks import FAINT, FAINT_TEXT

__all__ = ["row_card"]

LUG_SIZE = (32, 30)
MOST_LUGS = 9
NEIGHBOURS = 2
_NAME_SIZE = 14
_NET_SIZE = 10

_Cell = tuple[str, Lug] | None  # a port and its lug; None for lugs left out


def row_card(place: Strip | Can, *, above: bool, touched: frozenset[str]) -> Card:
    """A strip or can from below, the nets of its marked lugs outside the row so that no line crosses them.

    Of a long row only the lugs that are marked or touched by a line remain, with their neighbours.
    """
    port_of = ports(lug.label for lug in place.lugs)
    cells = _kept(place.lugs, touched)
    row = "".join(_cell(cell) for cell in cells)
    name = _name(place, cells)
    nets = _net_row(cells)
    rows = [f"{name}{row}"]
    if nets:
        rows.insert(0 if above else 1, ("<TD></TD>" if name else "") + nets)
    start = advance(brief(place.name), _NAME_SIZE, bold=True) + 4 if name else 0.0
    centres: dict[str, float] = {}
    for cell in cells:
        width = _width(cell)
        if cell:
            centres.setdefault(cell[1].label, start + width / 2)
        start += width
    return Card(table(rows), start, centres, port_of)


def _name(place: Strip | Can, cells: Sequence[_Cell]) -> str:
    alone = len(cells) == 1 and cells[0] is not None and cells[0][1].label == place.name
    return "" if alone else f"<TD>{lettered(brief(place.name), _NAME_SIZE, bold=True)}</TD>"


def _kept(lugs: Sequence[Lug], touched: frozenset[str]) -> list[_Cell]:
    everything: list[_Cell] = [(f"c{index}", lug) for index, lug in enumerate(lugs)]
    if len(lugs) <= MOST_LUGS:
        return everything
    marked = [i for i, lug in enumerate(lugs) if lug.mark is not Mark.PLAIN or lug.label in touched] or [0]
    near = sorted({i for at in marked for i in range(max(0, at - NEIGHBOURS), min(len(lugs), at + NEIGHBOURS + 1))})
    kept: list[_Cell] = [None] if near[0] else []
    for before, after in pairwise(near):
        kept += [everything[before], *([None] if after > before + 1 else [])]
    return [*kept, everything[near[-1]], *([None] if near[-1] < len(lugs) - 1 else [])]


def _cell(cell: _Cell) -> str:
    if cell is None:
        return f'<TD BORDER="1" COLOR="{FAINT}" WIDTH="20">{lettered("…", 13, color=FAINT_TEXT)}</TD>'
    return lug_cell(cell[1], cell[0], LUG_SIZE)


def _width(cell: _Cell) -> float:
    if cell is None:
        return 20
    return max(LUG_SIZE[0], advance(brief(cell[1].label), 13) + 4, advance(brief(cell[1].word), 8) + 4)


def _net_row(cells: Sequence[_Cell]) -> str:
    """The nets of the marked lugs, each over as many neighbours as its name needs and nobody else does."""
    named = [
        (i, cell[1].net)
        for i, cell in enumerate(cells)
        if cell and cell[1].net.strip() and cell[1].mark is not Mark.PLAIN
    ]
    if not named:
        return ""
    out: list[str] = []
    done = 0
    for order, (at, net) in enumerate(named):
        # Half the way to the next name is that one's.
        left = (named[order - 1][0] + at) // 2 + 1 if order else 0
        right = (at + named[order + 1][0] - 1) // 2 if order + 1 < len(named) else len(cells) - 1
        first, last = _span([_width(cell) for cell in cells], at, (left, right), advance(brief(net), _NET_SIZE) + 4)
        side = "CENTER" if at - first == last - at else "RIGHT" if last == at else "LEFT"
        out += ["<TD></TD>"] * (first - done)
        out.append(f'<TD COLSPAN="{last - first + 1}" ALIGN="{side}">{lettered(brief(net), _NET_SIZE)}</TD>')
        done = last + 1
    return "".join(out + ["<TD></TD>"] * (len(cells) - done))


def _span(widths: Sequence[float], at: int, room: tuple[int, int], need: float) -> tuple[int, int]:
    """The first and last cell under a name: to both sides alike, or to the one side that is free."""
    first = last = at
    while sum(widths[first : last + 1]) < need:
        left, right = first > room[0], last < room[1]
        if left and right and at - first == last - at:
            first, last = first - 1, last + 1
        elif left and last == at:
            first -= 1
        elif right and first == at:
            last += 1
        else:
            break
    return first, last
