"""How each mark looks, on a line and round a cell; the same in every picture.

Only the style of a line carries a meaning: what comes off is heavy and whole, what goes on is dashed. A lead is white
inside, a wire has its own colour there. Colours turn into close greys in print.
"""

from collections.abc import Iterable, Mapping

from netcheck.core.panel import Line, Mark
from netcheck.reports.drawing.scene import Point, Stroke, Tag

__all__ = ["BODY", "CELL", "FAINT", "GREY", "ON", "QUIET", "cell_look", "drawn_line", "tags_of", "wire_colour"]

ON = "#A8480C"
FAINT = "#AAAAAA"
QUIET = "#666666"
GREY = "#444444"
BODY = "#F4F2EC"
CELL = "#FFFFFF"

# How insulation looks; the first word of a wire that is in here is its colour. What is bare, clear or natural is grey.
_INSULATION: Mapping[str, str] = {
    "black": "#000000",
    "brown": "#7A4A21",
    "red": "#CC2222",
    "maroon": "#801A33",
    "orange": "#EE8822",
    "yellow": "#E8CC22",
    "green": "#2E8B3D",
    "blue": "#2255BB",
    "violet": "#8844AA",
    "purple": "#8844AA",
    "gray": "#909090",
    "grey": "#909090",
    "slate": "#909090",
    "white": "#FFFFFF",
    "pink": "#E899AA",
    "tan": "#CCAA77",
}
_BARE = "#FFFFFF"
_UNKNOWN = "#C8C8C8"


def wire_colour(words: str) -> str:
    """The colour of a wire, grey where the file says none."""
    return next(
        (
            _INSULATION[word]
            for word in words.lower().replace("-", " ").replace("/", " ").split()
            if word in _INSULATION
        ),
        _UNKNOWN,
    )


def cell_look(marks: Iterable[Mark]) -> tuple[str, float, bool]:
    """Colour, weight and dash of a cell's border: something comes off it, goes onto it, or it is only shown."""
    found = set(marks)
    if Mark.OFF in found:
        return "black", 2.5, False
    if Mark.ON in found:
        return ON, 2.0, True
    if Mark.PLAIN in found:
        return "black", 1.2, False
    return FAINT, 1.0, False


def drawn_line(points: tuple[Point, ...], line: Line, title: str = "") -> Stroke:
    """A joint as a stroke."""
    tags = tags_of(line)
    wired = bool(line.label or line.colour)
    match line.mark:
        case Mark.OFF:
            core = wire_colour(line.colour) if wired else _BARE
            return Stroke(points, "black", 5.5, core, tags=tags, title=title)
        case Mark.ON:
            core = wire_colour(line.colour) if line.colour else ""
            return Stroke(
                points, "black" if core else ON, 4.0 if core else 2.5, core, dashed=True, tags=tags, title=title
            )
        case Mark.PLAIN:
            return Stroke(points, "#8A8A8A", 1.2, tags=tags, title=title)


def tags_of(line: Line) -> tuple[Tag, ...]:
    """What a line is a sign of."""
    return () if line.done is None else (Tag(line.mark.value, line.done),)
