"""The legend of a sheet: the marks that occur in it, and what each asks for."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from netcheck.core.panel import Mark, NetCard, Panel, PlaceCard, Socket
from netcheck.reports.drawing.lettering import advance
from netcheck.reports.drawing.marks import LOOKS, border
from netcheck.reports.drawing.paper import add_text, at, text
from netcheck.reports.drawing.placing import Spot, curve

if TYPE_CHECKING:
    from graphviz import Graph

__all__ = ["add_legend", "marks_of"]

_SAMPLE = 36
_BETWEEN = 10
_SIZE = 10
_LINE = 20.0


def marks_of(panels: Iterable[Panel]) -> tuple[Mark, ...]:
    """The marks that need explaining: those of lines, of part boxes, and of cells where no line says it."""
    found: set[Mark] = set()
    for panel in panels:
        found |= {line.mark for line in panel.lines}
        found |= {part.mark for part in panel.parts if part.mark is not Mark.PLAIN}
        if not panel.lines:
            found |= {mark for place in (*panel.tops, *panel.bottoms) for mark in _cells(place)} - {Mark.PLAIN}
    return tuple(mark for mark in (Mark.MAKE, Mark.MOVE, Mark.TAKE_OFF, Mark.VALUE, Mark.PLAIN) if mark in found)


def _cells(place: PlaceCard) -> set[Mark]:
    if isinstance(place, NetCard):
        return {place.mark}
    return {lug.mark for lug in (place.pins if isinstance(place, Socket) else place.lugs)}


def add_legend(graph: Graph, marks: Iterable[Mark], corner: Spot, width: float) -> float:
    """Draw the legend in rows of at most ``width`` points; returns its height."""
    left, top = corner
    x, y = left, top
    for mark in marks:
        words = LOOKS[mark].legend
        block = text(words, advance(words, _SIZE) + 1, _SIZE, color="#333333")
        room = _SAMPLE + 6 + block.width
        if x > left and x + room > left + width:
            x, y = left, y + _LINE
        _add_sample(graph, mark, (x, y + _LINE / 2))
        add_text(graph, f"legend{LOOKS[mark].word}", block, (x + _SAMPLE + 6, y + (_LINE - block.height) / 2))
        x += room + _BETWEEN
    return y + _LINE - top if x > left else 0.0


def _add_sample(graph: Graph, mark: Mark, start: Spot) -> None:
    look = LOOKS[mark]
    name = f"sample{look.word}"
    if mark is Mark.VALUE:
        inner = f'<TABLE {border(mark)} CELLBORDER="0"><TR><TD WIDTH="18"></TD></TR></TABLE>'
        label = (
            f'<<TABLE {border(mark)} CELLBORDER="0" CELLSPACING="0" CELLPADDING="2"><TR><TD>{inner}</TD></TR></TABLE>>'
        )
        graph.node(name, label, id=name, pos=at(start[0] + _SAMPLE / 2, start[1]))
        return
    end = (start[0] + _SAMPLE, start[1])
    for side, spot in (("a", start), ("b", end)):
        graph.node(f"{name}{side}", "", id=f"{name}{side}", shape="point", width="0.01", style="invis", pos=at(*spot))
    graph.edge(f"{name}a", f"{name}b", id=name, pos=curve(start, end), **look.line)
