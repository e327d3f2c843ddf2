"""The chassis from below with what the file places on it, each where it sits; what has no room there is named."""

from collections.abc import Callable, Iterator, Mapping, Sequence

from msgspec import Struct

from netcheck.core.circuit import Stand
from netcheck.core.kind import Family
from netcheck.core.panel import Lug, Mark
from netcheck.model.places import PlaceListing
from netcheck.reports.drawing.block import Block, paragraph, stacked
from netcheck.reports.drawing.lettering import advance, brief
from netcheck.reports.drawing.marks import GREY, QUIET
from netcheck.reports.drawing.scene import Box, Stroke, Thing, Words, moved, straight
from netcheck.reports.drawing.standing import NodeBox, standing

__all__ = ["chassis_map"]

_SIZE = 9.0
_TALLEST = 600.0
_LARGEST = 2.6  # points to a millimetre; nearly full size
_EDGE = 8.0  # mm beyond the outermost thing, where the chassis' size is not given
_GAP = 1.5
_HEAD = 12.0
_HOW = "By the ruler, from the left and the back edge, and about as large as they are"
# Loose leads and parts are where their places are; only of these is it worth saying that they have none.
_WORTH = (Family.PLACE, Family.TUBE, Family.TRANSFORMER)

Lugs = Callable[[PlaceListing], tuple[tuple[Lug, ...], Mapping[str, set[Mark]]]]
Frame = tuple[float, float, float, float]


class _Seat(Struct, frozen=True):
    """A thing at its place, with what is written beside it."""

    drawn: NodeBox
    at: tuple[float, float]
    name: str
    tags: tuple[str, ...]

    @property
    def frame(self) -> Frame:
        (x, y), (wide, tall) = self.at, self.drawn.half
        return (x - wide, y - tall, x + wide, y + tall)

    @property
    def wide(self) -> float:
        """How wide the name is with the findings' numbers."""
        return advance(self.name, _SIZE, bold=True) + sum(_tag_width(tag) + 2 for tag in self.tags)

    def spots(self) -> Iterator[tuple[float, float]]:
        """Where the name may stand, by its upper left: within a box, below, above, right, left."""
        left, top, right, bottom = self.frame
        middle = (self.at[0] - self.wide / 2, self.at[1] - _HEAD / 2)
        if self.drawn.is_box and self.wide <= right - left - 2:
            yield middle
        yield middle[0], bottom + 1
        yield middle[0], top - _HEAD
        yield right + 3, middle[1]
        yield left - self.wide - 3, middle[1]


def chassis_map(
    listing: Sequence[PlaceListing], room: float, lugs: Lugs, numbers: Mapping[str, Sequence[int]]
) -> Block:
    """The map; empty where the file places nothing. ``numbers`` are those of the findings at a place, by its name."""
    placed = [(place, place.stand) for place in listing if place.stand is not None and place.kind != "chassis"]
    if not placed:
        return Block(0.0, (), 0.0)
    size = next((place.stand for place in listing if place.kind == "chassis"), None)
    wide, deep = _size(placed, size)
    scale = min((room - 2) / wide, _TALLEST / deep, _LARGEST)
    seats = [_seat(place, stand, lugs(place), numbers.get(place.name, ()), scale) for place, stand in placed]
    things, crowded = _placed(seats, room)
    edges = _edges(wide * scale, deep * scale, closed=size is not None)
    picture = Block(deep * scale + _HEAD, moved((*edges, *things), 1.0, _HEAD))
    return stacked([picture, *_told(listing, crowded, room)], gap=3.0)


def _seat(
    place: PlaceListing,
    stand: Stand,
    lugs: tuple[tuple[Lug, ...], Mapping[str, set[Mark]]],
    numbers: Sequence[int],
    scale: float,
) -> _Seat:
    drawn = standing(place, *lugs, scale)
    return _Seat(drawn, (stand.right * scale, stand.front * scale), brief(place.name), tuple(map(str, numbers)))


def _placed(seats: Sequence[_Seat], room: float) -> tuple[list[Thing], list[str]]:
    """What is drawn, and the names of what is not, since something else is there: bodies first, then their names.

    What there is to do something at comes before what there is not.
    """
    free: list[_Seat] = []
    for seat in sorted(seats, key=lambda seat: not seat.tags):
        if not any(_meet(seat.frame, other.frame) for other in free):
            free.append(seat)
    things: list[Thing] = []
    taken: list[Frame] = []
    unnamed: list[_Seat] = []
    for seat in free:
        bodies = [other.frame for other in free if other is not seat]
        words = (_within(spot, seat.wide, room) for spot in seat.spots())
        free_words = (frame for frame in words if not any(_meet(frame, other) for other in (*bodies, *taken)))
        frame = next((frame for frame in free_words if frame[1] > 0), None)
        if frame is None:
            unnamed.append(seat)
            continue
        taken.append(frame)
        things += [*moved(seat.drawn.things, *seat.at), *_named(seat.name, seat.tags, frame[0], frame[1])]
    return things, [seat.name for seat in seats if seat not in free or seat in unnamed]


def _within(spot: tuple[float, float], wide: float, room: float) -> Frame:
    left = min(max(0.0, spot[0]), room - wide)
    return (left, spot[1], left + wide, spot[1] + _HEAD - 1)


def _size(placed: Sequence[tuple[PlaceListing, Stand]], size: Stand | None) -> tuple[float, float]:
    if size is not None:
        return size.right, size.front
    return (
        max(stand.right + place.half[0] for place, stand in placed) + _EDGE,
        max(stand.front + place.half[1] for place, stand in placed) + _EDGE,
    )


def _edges(wide: float, deep: float, *, closed: bool) -> list[Thing]:
    """The chassis, or its left and back edges where no more is known."""
    words = Words(wide / 2, -3, "back edge", _SIZE, colour=QUIET, anchor="middle")
    if closed:
        return [Box(0, 0, wide, deep, "", GREY, 1.2), words]
    return [Stroke(straight((0, deep), (0, 0), (wide, 0)), GREY, 1.2), words]


def _meet(one: Frame, other: Frame) -> bool:
    return (
        one[0] < other[2] + _GAP and other[0] < one[2] + _GAP and one[1] < other[3] + _GAP and other[1] < one[3] + _GAP
    )


def _tag_width(tag: str) -> float:
    return advance(tag, _SIZE, bold=True) + 5


def _named(name: str, tags: Sequence[str], left: float, top: float) -> list[Thing]:
    things: list[Thing] = [Words(left, top + 8.5, name, _SIZE, bold=True)]
    x = left + advance(name, _SIZE, bold=True) + 2
    for tag in tags:
        wide = _tag_width(tag)
        things.append(Box(x, top, wide, _HEAD - 1, "black", radius=1.5))
        things.append(Words(x + wide / 2, top + 8.7, tag, _SIZE, bold=True, colour="white", anchor="middle"))
        x += wide + 2
    return things


def _told(listing: Sequence[PlaceListing], crowded: Sequence[str], room: float) -> list[Block]:
    without = [
        p.name for p in listing if p.stand is None and p.made is not None and p.made.family in _WORTH and p.spots
    ]
    lines = [_HOW]
    if crowded:
        lines.append(f"Not drawn, as something else is drawn there already: {', '.join(crowded)}")
    if without:
        lines.append(f"No place given: {', '.join(without)}")
    return [paragraph(f"{line}.", room, _SIZE, bold=line.startswith("Not"), colour=GREY) for line in lines]
