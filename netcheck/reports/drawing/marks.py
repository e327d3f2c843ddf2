"""How each mark looks, on a line and round a cell; the same in every picture.

Only dash, double line, nesting and thickness carry a meaning: the colours turn into two close greys in print.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from netcheck.core.panel import Mark

__all__ = ["FAINT", "FAINT_TEXT", "FONT", "LOOKS", "Look", "border"]

FONT = "Arial"
FAINT = "#AAAAAA"
FAINT_TEXT = "#777777"

_MAKE = "#A8480C"
_TAKE_OFF = "#005B8C"


@dataclass(frozen=True, slots=True)
class Look:
    """A mark's class name in the SVG, its line, its border in points, and what the legend says of it."""

    word: str
    line: Mapping[str, str]
    width: int
    color: str
    legend: str


_DOUBLE = {"color": "black:white:black", "penwidth": "2"}

LOOKS: Mapping[Mark, Look] = {
    Mark.PLAIN: Look("same", {"color": "#8A8A8A", "penwidth": "1"}, 1, FAINT, "as it should be: leave it"),
    Mark.MAKE: Look(
        "was",
        {"style": "dashed", "color": _MAKE, "fontcolor": _MAKE, "penwidth": "2.5"},
        2,
        _MAKE,
        "in the original, not there now: make it",
    ),
    Mark.MOVE: Look("is", _DOUBLE, 3, "black", "this lead is here now: move it"),
    Mark.TAKE_OFF: Look(
        "added",
        {"color": _TAKE_OFF, "fontcolor": _TAKE_OFF, "penwidth": "5"},
        4,
        _TAKE_OFF,
        "not in the original: take it off",
    ),
    Mark.VALUE: Look("value", _DOUBLE, 2, "black", "the same joints, another value"),
}


def border(mark: Mark, *styles: str) -> str:
    """The attributes of a table or cell that carries a mark; ``styles`` are further ones (``rounded``)."""
    look = LOOKS[mark]
    style = ",".join((*styles, *(("dashed",) if mark is Mark.MAKE else ())))
    return f'BORDER="{look.width}" COLOR="{look.color}"' + (f' STYLE="{style}"' if style else "")
