"""The sheet of findings: each finding with its number, its sentence and its small picture."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from netcheck.core.diagnostic import Diagnostic
from netcheck.core.panel import Panel
from netcheck.core.report import Report
from netcheck.reports.drawing.heading import Heading, heading, numbered, rest
from netcheck.reports.drawing.legend import add_legend, marks_of
from netcheck.reports.drawing.lettering import spoken
from netcheck.reports.drawing.panel import graph_of
from netcheck.reports.drawing.paper import (
    NUMBER,
    SLACK,
    Placed,
    Text,
    add_frame,
    add_number,
    add_placed,
    add_text,
    place,
    text,
)
from netcheck.reports.drawing.placing import Spot

if TYPE_CHECKING:
    from graphviz import Graph

__all__ = ["placed_panel", "sheet"]

WIDTH = 560.0
TEXT_WIDTH = 190.0
INSIDE = 8.0
GAP = 10.0
# The number, its margins, and the text column.
_COLUMN = INSIDE + NUMBER + INSIDE + TEXT_WIDTH + 2 * INSIDE


def placed_panel(panel: Panel, number: int, lay_out: Callable[[str], str]) -> str:
    """One panel alone with its places settled, to stand beside its sentence in a page."""
    graph = graph_of(f"f{number}", layout="nop2", id=f"f{number}")
    add_placed(graph, place(panel, number, lay_out), (0.0, 0.0))
    return str(graph.source)


def sheet(report: Report, lay_out: Callable[[str], str]) -> str:
    """The whole sheet as one graph whose places are settled, so that every engine draws the same.

    ``lay_out`` has the drawing engine lay out a graph and returns its ``json0`` answer.
    """
    shown, more = numbered(report)
    placed = [place(panel, number, lay_out) for number, _, panel in shown]
    width = max([WIDTH, *(_COLUMN + one.width + 2 * INSIDE for one in placed)])
    graph = graph_of("sheet", layout="nop2", id="sheet")
    y = _add_heading(graph, heading(report, drawn=bool(shown)), width)
    for (_, diagnostic, _), one in zip(shown, placed, strict=True):
        y += _add_finding(graph, diagnostic, one, (0.0, y), width) + GAP
    for index, line in enumerate(rest(report, more)):
        block = text(line, width / SLACK, 12, color="#333333")
        add_text(graph, f"rest{index}", block, (0.0, y))
        y += block.height
    add_legend(graph, marks_of(panel for _, _, panel in shown), (0.0, y), width)
    return str(graph.source)


def _add_heading(graph: Graph, words: Heading, width: float) -> float:
    title = text(words.title, width / SLACK, 16, bold=True)
    lines = [text(line, width / SLACK, 12, color="#333333") for line in words.lines]
    add_text(graph, "title", title, (0.0, 0.0))
    y = title.height + 2
    for index, line in enumerate(lines):
        add_text(graph, f"line{index}", line, (0.0, y))
        y += line.height
    return y + 6


def _add_finding(graph: Graph, diagnostic: Diagnostic, placed: Placed, corner: Spot, width: float) -> float:
    words = _words(diagnostic)
    height = max(words.height, NUMBER, placed.height) + 2 * INSIDE
    left, top = corner
    number = placed.number
    add_frame(graph, f"f{number}frame", corner, (width, height))
    add_number(graph, number, diagnostic.grade, (left + INSIDE, top + INSIDE))
    add_text(graph, f"f{number}text", words, (left + 2 * INSIDE + NUMBER, top + INSIDE))
    room = width - _COLUMN - INSIDE
    x = left + _COLUMN + (room - placed.width) / 2
    add_placed(graph, placed, (x, top + (height - placed.height) / 2))
    return height


def _words(diagnostic: Diagnostic) -> Text:
    headline = text(spoken(diagnostic.headline, diagnostic.touched.nets), TEXT_WIDTH, 13, bold=True)
    return headline + text(spoken(diagnostic.do), TEXT_WIDTH, 12, color="#222222")
