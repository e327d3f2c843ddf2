"""The small picture of one finding: the places concerned, the part, and what to make or undo."""

from dataclasses import dataclass
from enum import Enum

__all__ = ["Can", "End", "Line", "Lug", "Mark", "NetCard", "Panel", "PartBox", "PlaceCard", "Socket", "Strip"]


class Mark(Enum):
    """What a line, a lug or a box says; only the line style carries it, colour helps."""

    PLAIN = "plain"
    MAKE = "make"  # in the original, not there now
    MOVE = "move"  # this lead is here now and belongs elsewhere
    TAKE_OFF = "take off"  # not in the original
    VALUE = "value"  # same joints, another value


@dataclass(frozen=True, slots=True)
class Lug:
    """A lug or pin: its label on the chassis, a small word under it, the net that it is on."""

    label: str
    mark: Mark = Mark.PLAIN
    word: str = ""
    net: str = ""


@dataclass(frozen=True, slots=True)
class Strip:
    """Lugs in a row, left to right seen from below: a terminal strip, a plug, a single lug."""

    name: str
    lugs: tuple[Lug, ...]


@dataclass(frozen=True, slots=True)
class Socket:
    """A tube socket from below, pins clockwise from the key (``key``, ``gap`` or empty)."""

    name: str
    type: str
    key: str
    pins: tuple[Lug, ...]


@dataclass(frozen=True, slots=True)
class Can:
    """The lugs of a can, labelled with their marks as words."""

    name: str
    lugs: tuple[Lug, ...]


@dataclass(frozen=True, slots=True)
class NetCard:
    """A net where no lug is known: its name and the first leads on it; ``count`` is how many there are."""

    name: str
    leads: tuple[str, ...]
    count: int
    mark: Mark = Mark.PLAIN


PlaceCard = Strip | Socket | Can | NetCard


@dataclass(frozen=True, slots=True)
class End:
    """A lead of a part: its label on the part; the net of an unchanged lead stands in its cell."""

    label: str
    net: str = ""


@dataclass(frozen=True, slots=True)
class PartBox:
    """A part with an end cell per lead and up to two lines of values.

    ``is_joint`` says that it is none: a wire or a bridge of which both ends are on one place, labelled by its lugs.
    """

    name: str
    values: tuple[str, ...]
    ends: tuple[End, ...]
    mark: Mark = Mark.PLAIN
    is_joint: bool = False


@dataclass(frozen=True, slots=True)
class Line:
    """A joint between two cells; each end is (card's index in its row, cell's label).

    ``upper`` counts in ``Panel.tops``. ``lower`` counts in ``Panel.parts``, or in ``Panel.bottoms``
    where ``to_bottom`` is set.
    """

    upper: tuple[int, str]
    lower: tuple[int, str]
    mark: Mark
    label: str = ""
    to_bottom: bool = False


@dataclass(frozen=True, slots=True)
class Panel:
    """Rows of cards and the lines between them. A net card has one cell, labelled with the empty text."""

    tops: tuple[PlaceCard, ...] = ()
    parts: tuple[PartBox, ...] = ()
    bottoms: tuple[PlaceCard, ...] = ()
    lines: tuple[Line, ...] = ()
