"""What a picture looks like, as numbers: where things are, and which lie on each other."""

from collections.abc import Iterable, Iterator
from itertools import combinations

from netcheck.reports.drawing.lettering import natural
from netcheck.reports.drawing.scene import Box, Disc, Stroke, Thing, Words

Frame = tuple[float, float, float, float]
"""Left, top, right and bottom."""


def frame(thing: Thing) -> Frame:
    match thing:
        case Words():
            wide = natural(thing.text, thing.size, bold=thing.bold)
            left = thing.x - {"start": 0.0, "middle": wide / 2, "end": wide}[thing.anchor]
            return (left, thing.y - thing.size * 0.72, left + wide, thing.y + thing.size * 0.2)
        case Stroke():
            xs, ys = [x for x, _ in thing.points], [y for _, y in thing.points]
            return (min(xs), min(ys), max(xs), max(ys))
        case Box():
            return (thing.x, thing.y, thing.x + thing.width, thing.y + thing.height)
        case Disc():
            r = thing.radius
            return (thing.x - r, thing.y - r, thing.x + r, thing.y + r)


def overlap(one: Frame, other: Frame) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def words_on_words(things: Iterable[Thing]) -> list[tuple[str, str]]:
    words = [(thing.text, frame(thing)) for thing in things if isinstance(thing, Words) and thing.text.strip()]
    return [(a, b) for (a, one), (b, other) in combinations(words, 2) if overlap(one, other)]


def spots(stroke: Stroke, steps: int = 24) -> Iterator[tuple[float, float]]:
    """Points along a stroke: each of its curves in equal steps of its parameter (Bernstein's form)."""
    points = stroke.points
    for at in range(0, len(points) - 3, 3):
        p = points[at : at + 4]
        for step in range(steps + 1):
            t = step / steps
            weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
            yield (
                sum(w * x for w, (x, _) in zip(weights, p, strict=True)),
                sum(w * y for w, (_, y) in zip(weights, p, strict=True)),
            )


def is_joint(thing: Thing) -> bool:
    return isinstance(thing, Stroke) and bool(thing.title)


def words_crossed(things: Iterable[Thing]) -> list[str]:
    """The words that a joint runs over."""
    listed = list(things)
    joints = [thing for thing in listed if isinstance(thing, Stroke) and is_joint(thing)]
    return [
        thing.text
        for thing in listed
        if isinstance(thing, Words) and any(_inside(x, y, frame(thing)) for joint in joints for x, y in spots(joint))
    ]


def _inside(x: float, y: float, within: Frame) -> bool:
    return within[0] < x < within[2] and within[1] < y < within[3]


def discs_crossed(things: Iterable[Thing], least: float = 9.0) -> int:
    """How many pins (discs of at least that radius, but the biggest, which is the body) a joint runs over."""
    listed = list(things)
    pins = [thing for thing in listed if isinstance(thing, Disc) and least <= thing.radius <= 12]
    joints = [thing for thing in listed if isinstance(thing, Stroke) and is_joint(thing)]
    return sum(
        1
        for joint in joints
        for pin in pins
        if any((x - pin.x) ** 2 + (y - pin.y) ** 2 < (pin.radius - 1.5) ** 2 for x, y in spots(joint))
    )


def bodies_crossed(things: Iterable[Thing]) -> int:
    """How often a joint runs over a lying part's body."""
    listed = list(things)
    bodies = [
        thing
        for thing in listed
        if isinstance(thing, Box) and thing.height == 27 and thing.stroke and thing.width >= 46
    ]
    joints = [thing for thing in listed if isinstance(thing, Stroke) and is_joint(thing)]
    return sum(1 for joint in joints for body in bodies if any(_inside(x, y, frame(body)) for x, y in spots(joint)))
