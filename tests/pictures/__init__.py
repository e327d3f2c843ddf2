"""Whole pictures: what is drawn of each panel and sheet, thing by thing, as it was looked at and found right.

Other tests hold what a picture must never do; these hold what it looks like: how wide a body is, where a number stands,
which line is heavy.
"""

import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from netcheck.core.panel import Panel
from netcheck.reports.drawing import A4, NARROW, DrawnPages, drawn_panel
from netcheck.reports.drawing.scene import Box, Disc, Stroke, Tag, Thing, Words, straight
from tests.panels import PANELS
from tests.pictures.more import MORE, SHEETS

__all__ = ["FOLDER", "kept", "made", "pictures", "sheets", "titles"]

FOLDER = Path(__file__).parent
PAPERS = {"A4": A4, "narrow": NARROW}
# Beside the words on A4, and on a telephone.
ROOMS = (303.0, 246.0)
ACROSS = 509.0


def pictures() -> Iterator[tuple[str, Panel, float]]:
    """Each panel with the room that it is drawn into; across the page where it is a table beside the words."""
    for name, panel in {**PANELS, **MORE}.items():
        wide = (ACROSS,) if panel.cards and drawn_panel(panel, ROOMS[0]).is_table else ()
        for room in (*wide, *ROOMS):
            yield f"{name} in {room:g}", panel, room


def sheets() -> Iterator[tuple[str, DrawnPages]]:
    """Each sheet on each paper."""
    for name, draw in SHEETS.items():
        for word, paper in PAPERS.items():
            yield f"{name} on {word}", draw(paper)


def made(title: str) -> str:
    """What is drawn now under a title."""
    for name, panel, room in pictures():
        if name == title:
            drawn = drawn_panel(panel, room)
            return f"{_n(drawn.width)} x {_n(drawn.height)}\n{_told(drawn.things)}"
    name, _, paper = title.partition(" on ")
    return _sheet(SHEETS[name](PAPERS[paper]))


def titles() -> Iterator[str]:
    """The titles of all that is kept."""
    yield from (name for name, *_ in pictures())
    yield from (f"{name} on {paper}" for name in SHEETS for paper in PAPERS)


def kept() -> dict[str, str]:
    """What was drawn when it was looked at, by title."""
    found = {}
    for path in sorted(FOLDER.glob("*.txt")):
        for section in re.split(r"^## ", path.read_text(encoding="utf-8"), flags=re.MULTILINE)[1:]:
            title, _, body = section.partition("\n")
            found[title] = body.rstrip("\n") + "\n"
    return found


def _sheet(drawn: DrawnPages) -> str:
    groups = "".join(f"of {group.number}\n{_told(group.things)}" for group in drawn.groups)
    return f"{_n(drawn.width)} x {_n(drawn.height)}, {drawn.pages} pages\n{groups}"


def _told(things: Iterable[Thing]) -> str:
    return "".join(f"{_thing(thing)}\n" for thing in things)


def _thing(thing: Thing) -> str:
    tail = f" | {thing.text}" if isinstance(thing, Words) else ""
    return f"{_placed(thing)}{_tags(thing.tags)}{tail}".rstrip()


def _placed(thing: Thing) -> str:
    match thing:
        case Box():
            size = f"{_at((thing.x, thing.y))} {_n(thing.width)} x {_n(thing.height)}"
            return f"box {size}{_ink(thing)}{f' round {_n(thing.radius)}' if thing.radius else ''}"
        case Disc():
            return f"disc {_at((thing.x, thing.y))} radius {_n(thing.radius)}{_ink(thing)}"
        case Stroke():
            return _stroke(thing)
        case Words():
            anchor = "" if thing.anchor == "start" else f" {thing.anchor}"
            return f"words {_at((thing.x, thing.y))}{anchor} {_n(thing.size)}{' bold' * thing.bold} {thing.colour}"


def _stroke(stroke: Stroke) -> str:
    corners = stroke.points[::3]
    even = all(abs(x - a) + abs(y - b) < 0.01 for (x, y), (a, b) in zip(stroke.points, straight(*corners), strict=True))
    way = " ".join(map(_at, corners if even else stroke.points))
    core = f" core {stroke.core}" if stroke.core else ""
    fill = f" filled {stroke.fill}" if stroke.fill else ""
    title = f" = {stroke.title}" if stroke.title else ""
    look = f"{stroke.colour} {_n(stroke.weight)}{core}{fill}{' dashed' * stroke.dashed}"
    return f"{'line' if even else 'curve'} {way} {look}{title}"


def _ink(thing: Box | Disc) -> str:
    fill = f" filled {thing.fill}" if thing.fill else ""
    edge = f" edge {thing.stroke} {_n(thing.weight)}{' dashed' * thing.dashed}" if thing.stroke else ""
    return fill + edge


def _tags(tags: tuple[Tag, ...]) -> str:
    return "".join(f" [{tag.mark}: {tag.done.act} at {' '.join(tag.done.at)}]" for tag in tags)


def _at(point: tuple[float, float]) -> str:
    return f"{_n(point[0])},{_n(point[1])}"


def _n(value: float) -> str:
    """To a tenth of a point; what rounds to nothing has no sign."""
    return f"{round(value, 1) + 0.0:g}"
