"""A thing on the map of a chassis, about as large as it is: a strip, a socket, a can, or a box for anything else."""

from collections.abc import Iterator, Mapping, Sequence
from math import pi

from msgspec import Struct

from netcheck.core.kind import Seat
from netcheck.core.panel import Can, Lug, Mark, Socket
from netcheck.model.outline import PITCH
from netcheck.model.places import PlaceListing
from netcheck.reports.drawing.glyphs import cut_mark, has_glyph
from netcheck.reports.drawing.lettering import advance, brief
from netcheck.reports.drawing.marks import BODY, CELL, FAINT, QUIET, cell_look
from netcheck.reports.drawing.ring import on_ring, turns_of
from netcheck.reports.drawing.scene import Box, Disc, Thing, Words

__all__ = ["NodeBox", "standing"]

SIZE = 9.0
_LETTER = 7.0  # how tall a figure is
_RIM = 8.0
_LEAST = 22.0
Marks = Mapping[str, set[Mark]]


class NodeBox(Struct, frozen=True):
    """What is drawn about its middle, and half of how wide and how tall that is, in points; a box is empty inside."""

    things: tuple[Thing, ...]
    half: tuple[float, float]
    is_box: bool = False


def standing(place: PlaceListing, lugs: Sequence[Lug], marks: Marks, scale: float) -> NodeBox:
    """The thing at ``scale`` points to the millimetre; ``marks`` by the label of a lug."""
    half = (place.half[0] * scale, place.half[1] * scale)
    if place.seat in (Seat.STRIP, Seat.PLUG):
        return _row(lugs, marks, half, turned=place.stand is not None and place.stand.turned, pitch=PITCH * scale)
    if place.seat is Seat.CAN:
        return _ring(Can("", tuple(lugs)), lugs, marks, half[0])
    if place.key:  # of a socket alone
        return _ring(Socket("", "", place.key, tuple(lugs)), lugs, marks, half[0])
    found = {mark for some in marks.values() for mark in some} - {Mark.PLAIN}
    colour, weight, dashed = cell_look(found) if found else (QUIET, 1.0, False)
    box = Box(-half[0], -half[1], 2 * half[0], 2 * half[1], BODY, colour, weight, 2, dashed)
    return NodeBox((box,), half, is_box=True)


def _row(lugs: Sequence[Lug], marks: Marks, half: tuple[float, float], *, turned: bool, pitch: float) -> NodeBox:
    things: list[Thing] = []
    deep = max(2 * min(half), SIZE + 3)
    wide = max(pitch, SIZE + 3)
    start = -wide * len(lugs) / 2
    for i, lug in enumerate(lugs):
        at = start + i * wide
        x, y, across, along = (-deep / 2, at, deep, wide) if turned else (at, -deep / 2, wide, deep)
        colour, weight, dashed = cell_look(marks.get(lug.label, set()))
        things.append(Box(x + 0.5, y + 0.5, across - 1, along - 1, CELL, colour, weight, 1.5, dashed))
        things += _figure(lug.label, (x + across / 2, y + along / 2), across, marked=bool(marks.get(lug.label)))
    long = wide * len(lugs) / 2
    return NodeBox(tuple(things), (deep / 2, long) if turned else (long, deep / 2))


def _figure(text: str, middle: tuple[float, float], room: float, *, marked: bool) -> Iterator[Thing]:
    """A lug's number where it fits; the list below has it in any case."""
    if advance(brief(text), SIZE, bold=marked) <= room - 1:
        ink = "black" if marked else QUIET
        yield Words(middle[0], middle[1] + _LETTER / 2, brief(text), SIZE, marked, ink, "middle")


def _ring(place: Socket | Can, lugs: Sequence[Lug], marks: Marks, half: float) -> NodeBox:
    radius = max(half, _LEAST)
    inner = radius - _RIM
    things: list[Thing] = [Disc(0, 0, radius, BODY, QUIET, 1)]
    room = 2 * pi * inner / max(1, len(lugs))
    for lug, turn in zip(lugs, turns_of(place), strict=True):
        x, y = (0.0, 0.0) if turn is None else on_ring(turn, inner)
        own = marks.get(lug.label, set())
        if own - {Mark.PLAIN}:
            colour, weight, dashed = cell_look(own)
            things.append(Disc(x, y, 7.5, CELL, colour, weight, dashed))
        if has_glyph(lug.label):
            things += cut_mark(lug.label, (x, y))
        elif isinstance(place, Can):
            things.append(Box(x - 4, y - 2, 8, 4, FAINT))
        else:
            things += _figure(lug.label, (x, y), max(room, 2 * _LETTER), marked=bool(own))
    return NodeBox(tuple(things), (radius, radius))
