"""What a picture consists of, each at its place: boxes, discs, strokes and words, in points from the upper left."""

from collections.abc import Iterable
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.panel import Done

__all__ = ["Box", "Disc", "Point", "Stroke", "Tag", "Thing", "Words", "moved", "straight"]

Point = tuple[float, float]


class Tag(Struct, frozen=True):
    """What a thing in the picture is a sign of: a finding's act, and whether that takes off or puts on."""

    mark: str
    done: Done


class Box(Struct, frozen=True):
    """A rectangle; no colour is none."""

    x: float
    y: float
    width: float
    height: float
    fill: str = ""
    stroke: str = ""
    weight: float = 1.0
    radius: float = 0.0
    dashed: bool = False
    tags: tuple[Tag, ...] = ()


class Disc(Struct, frozen=True):
    """A circle about a middle."""

    x: float
    y: float
    radius: float
    fill: str = ""
    stroke: str = ""
    weight: float = 1.0
    dashed: bool = False
    tags: tuple[Tag, ...] = ()


class Stroke(Struct, frozen=True):
    """A line of curves: a first point, then two inner points and an end for each of them.

    ``core`` is a second colour along its middle. ``fill`` closes it.
    """

    points: tuple[Point, ...]
    colour: str = "black"
    weight: float = 1.0
    core: str = ""
    dashed: bool = False
    fill: str = ""
    tags: tuple[Tag, ...] = ()
    title: str = ""


class Words(Struct, frozen=True):
    """A run of text on its base line; ``anchor`` is ``start``, ``middle`` or ``end``."""

    x: float
    y: float
    text: str
    size: float
    bold: bool = False
    colour: str = "black"
    anchor: str = "start"
    tags: tuple[Tag, ...] = ()


Thing = Box | Disc | Stroke | Words


def moved(things: Iterable[Thing], dx: float, dy: float) -> tuple[Thing, ...]:
    """The things at another place."""
    return tuple(_moved(thing, dx, dy) for thing in things)


def _moved(thing: Thing, dx: float, dy: float) -> Thing:
    if isinstance(thing, Stroke):
        return replace(thing, points=tuple((x + dx, y + dy) for x, y in thing.points))
    return replace(thing, x=thing.x + dx, y=thing.y + dy)


def straight(*corners: Point) -> tuple[Point, ...]:
    """The points of a stroke that goes from corner to corner."""
    points = [corners[0]]
    for (x, y), (end, bottom) in pairwise(corners):
        points += [(x + (end - x) * step / 3, y + (bottom - y) * step / 3) for step in (1, 2, 3)]
    return tuple(points)
