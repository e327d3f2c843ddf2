"""The findings as one ordinary graph, for a machine without a drawing engine."""

from netcheck.core.panel import Mark
from netcheck.core.report import Report
from netcheck.reports.drawing.heading import heading, numbered, rest
from netcheck.reports.drawing.legend import marks_of
from netcheck.reports.drawing.lettering import lettered, spoken, wrapped
from netcheck.reports.drawing.marks import FAINT, FONT, LOOKS
from netcheck.reports.drawing.panel import PANEL_LAYOUT, add_panel, graph_of

__all__ = ["unplaced_sheet"]

_WIDTH = 440.0


def unplaced_sheet(report: Report) -> str:
    """The sheet's content with nothing placed: each finding a frame of its own, which any engine can lay out.

    The frames keep their order, not their alignment.
    """
    shown, more = numbered(report)
    words = heading(report, drawn=bool(shown))
    top = [(words.title, 16, True), *((line, 12, False) for line in words.lines)]
    below = [*rest(report, more), *(f"{_style(mark)}: {LOOKS[mark].legend}" for mark in marks_of(p for *_, p in shown))]
    top += [(line, 10, False) for line in below]
    graph = graph_of("sheet", layout="dot", labelloc="t", labeljust="l", label=_label(top), **PANEL_LAYOUT)
    # Frames that share a rank would stand side by side.
    graph.attr(newrank="false")
    if not shown:
        graph.node("nothing", "", style="invis")
    above: str | None = None
    for number, diagnostic, panel in shown:
        with graph.subgraph(name=f"cluster_f{number}") as frame:
            lines = [
                (f"{number}  {spoken(diagnostic.headline, diagnostic.touched.nets)}", 13, True),
                (spoken(diagnostic.do), 12, False),
            ]
            frame.attr(label=_label(lines), labeljust="l", color=FAINT, fontname=FONT, id=f"f{number}")
            upper, lower = add_panel(frame, panel, number)
        if above:
            graph.edge(above, upper, style="invis")
        above = lower
    return str(graph.source)


def _style(mark: Mark) -> str:
    return {
        Mark.MAKE: "dashed",
        Mark.MOVE: "double line",
        Mark.TAKE_OFF: "thick line",
        Mark.VALUE: "nested border",
        Mark.PLAIN: "thin line",
    }[mark]


def _label(lines: list[tuple[str, int, bool]]) -> str:
    runs = [
        lettered(piece, size, bold=bold) + '<BR ALIGN="LEFT"/>'
        for line, size, bold in lines
        for piece in wrapped(line, _WIDTH, size, bold=bold)
    ]
    return f"<{''.join(runs)}>" if runs else ""
