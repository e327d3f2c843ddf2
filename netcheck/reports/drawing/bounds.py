"""The rectangles that things fill, and whether two of them overlap."""

from netcheck.reports.drawing.lettering import advance
from netcheck.reports.drawing.scene import Box, Disc, Stroke, Thing, Words

__all__ = ["Frame", "bounds", "overlap", "shifted"]

Frame = tuple[float, float, float, float]
"""Left, top, right, bottom, in points."""


def bounds(thing: Thing) -> Frame:
    """The rectangle that a thing fills, its outline included."""
    match thing:
        case Words():
            wide = advance(thing.text, thing.size, bold=thing.bold)
            left = thing.x - {"start": 0.0, "middle": wide / 2, "end": wide}[thing.anchor]
            return (left, thing.y - thing.size * 0.8, left + wide, thing.y + thing.size * 0.25)
        case Stroke():
            xs, ys = [x for x, _ in thing.points], [y for _, y in thing.points]
            half = thing.weight / 2
            return (min(xs) - half, min(ys) - half, max(xs) + half, max(ys) + half)
        case Box():
            half = thing.weight / 2
            return (thing.x - half, thing.y - half, thing.x + thing.width + half, thing.y + thing.height + half)
        case Disc():
            out = thing.radius + thing.weight / 2
            return (thing.x - out, thing.y - out, thing.x + out, thing.y + out)


def overlap(one: Frame, other: Frame) -> bool:
    """Whether two rectangles have more than an edge in common."""
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def shifted(frame: Frame, dx: float, dy: float) -> Frame:
    """A rectangle at another place."""
    return (frame[0] + dx, frame[1] + dy, frame[2] + dx, frame[3] + dy)
