"""Small signs of our own: cut marks of a can, the key of a socket, the chassis."""

from math import cos, pi, sin

from netcheck.parts.section import MARKS
from netcheck.reports.drawing.marks import GREY, QUIET
from netcheck.reports.drawing.scene import Box, Disc, Point, Stroke, Thing, Words, straight

__all__ = ["chassis_sign", "cut_mark", "has_glyph", "key_mark"]

_ROUND = 0.5523  # of the radius: the inner points of a curve that is nearly a quarter circle


def has_glyph(label: str) -> bool:
    """Whether a lug's label is a cut mark."""
    return label in MARKS


def cut_mark(label: str, middle: Point) -> list[Thing]:
    """The cut-out beside a can's lug; a plain lug has none."""
    x, y = middle
    match label:
        case "square":
            return [Box(x - 4.5, y - 4.5, 9, 9, GREY)]
        case "triangle":
            return [Stroke(straight((x, y - 5.5), (x + 5.5, y + 4.5), (x - 5.5, y + 4.5), (x, y - 5.5)), fill=GREY)]
        case "half-moon":
            return [_half_moon(x, y + 2.5, 6.0)]
        case _:
            return [Disc(x, y, 1.5, GREY)]


def _half_moon(x: float, y: float, r: float) -> Stroke:
    k = r * _ROUND
    left, top, right = (x - r, y), (x, y - r), (x + r, y)
    arc = (left, (x - r, y - k), (x - k, y - r), top, (x + k, y - r), (x + r, y - k), right)
    return Stroke((*arc, *straight(right, left)[1:]), fill=GREY)


def key_mark(key: str, middle: Point, radius: float) -> list[Thing]:
    """What tells how the socket sits: a notch at the key, the word at the gap."""
    x, y = middle
    if key == "key":
        hole = Disc(x, y, 7, "#FFFFFF", QUIET, 0.8)
        return [hole, Box(x - 2, y + 5, 4, 5, QUIET), Words(x, y + 20, "key", 9, colour=QUIET, anchor="middle")]
    if key == "gap":
        arc = [(-sin(turn) * radius, cos(turn) * radius) for turn in (pi * step / 60 for step in (-6, -2, 2, 6))]
        line = Stroke(tuple((x + dx, y + dy) for dx, dy in arc), QUIET, 0.8, dashed=True)
        return [line, Words(x, y + radius - 6, "gap", 9, colour=QUIET, anchor="middle")]
    return []


def chassis_sign(x: float, y: float, width: float) -> list[Thing]:
    """Sheet metal in section: a line with hatching under it."""
    things: list[Thing] = [Stroke(straight((x, y), (x + width, y)), "black", 2)]
    step = 6.0
    for i in range(int(width // step)):
        at = x + 4 + i * step
        things.append(Stroke(straight((at, y + 1), (at - 5, y + 7)), GREY, 0.8))
    return things
