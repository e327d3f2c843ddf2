"""One card of a picture: its label for the drawing engine, and where about its cells will come to lie."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from netcheck.core.panel import Lug, Mark
from netcheck.reports.drawing.lettering import brief, lettered
from netcheck.reports.drawing.marks import FAINT_TEXT, border

__all__ = ["Card", "cell_text", "lug_cell", "ports", "table"]


@dataclass(frozen=True, slots=True)
class Card:
    """``label`` is an HTML-like table; ``centres`` holds each cell's middle, in points from the card's left edge.

    The engine decides the true places; the estimate only serves to put ends and parts into an order.
    """

    label: str
    width: float
    centres: Mapping[str, float]
    ports: Mapping[str, str] = field(default_factory=dict)


def ports(labels: Iterable[str]) -> dict[str, str]:
    """A port for each cell's label; never the user's word, and the first of two equal labels keeps its own."""
    names: dict[str, str] = {}
    for index, label in enumerate(labels):
        names.setdefault(label, f"c{index}")
    return names


def table(rows: Iterable[str], attributes: str = 'BORDER="0"', spacing: int = 0) -> str:
    """An HTML-like label of rows of cells."""
    body = "".join(f"<TR>{row}</TR>" for row in rows)
    return f'<<TABLE {attributes} CELLBORDER="0" CELLSPACING="{spacing}" CELLPADDING="2">{body}</TABLE>>'


def cell_text(lug: Lug) -> str:
    """A lug's label, grey where nothing is to be done, and the small word under it."""
    color = FAINT_TEXT if lug.mark is Mark.PLAIN else "black"
    lines = (lettered(brief(lug.label), 13, color=color), lettered(brief(lug.word), 8, color="#444444"))
    return "<BR/>".join(line for line in lines if line)


def lug_cell(lug: Lug, port: str, size: tuple[int, int], *styles: str) -> str:
    """A lug as a cell of at least ``size`` points."""
    width, height = size
    return f'<TD PORT="{port}" {border(lug.mark, *styles)} WIDTH="{width}" HEIGHT="{height}">{cell_text(lug)}</TD>'
