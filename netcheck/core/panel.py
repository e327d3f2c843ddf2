"""The small picture of one finding: the places and parts concerned, and the lines of what comes off and goes on."""

from enum import Enum

from msgspec import Struct, field

__all__ = [
    "BareChassis",
    "Can",
    "Card",
    "Cell",
    "Done",
    "End",
    "Form",
    "LeadRow",
    "Line",
    "Lug",
    "Mark",
    "NetCard",
    "Panel",
    "PartBox",
    "PlaceCard",
    "Socket",
    "Strip",
    "Value",
    "Winding",
]  # fmt: skip

Cell = tuple[int, str]
"""A card's index in its panel and the label of its cell."""


class Mark(Enum):
    """What a line, a cell or a box says; only the line style carries it, colour helps."""

    PLAIN = "as it is"
    OFF = "take off"
    ON = "put on"


class Form(Enum):
    """What a part looks like."""

    BOX = "box"
    RESISTOR = "resistor"
    CAPACITOR = "capacitor"
    ELECTROLYTIC = "electrolytic"
    COIL = "coil"
    DIODE = "diode"
    STACK = "stack"
    FUSE = "fuse"
    LAMP = "lamp"
    WINDINGS = "windings"


class Done(Struct, frozen=True):
    """The act that a mark stands for, as a line of a work log, and the points where the mark is."""

    act: str
    at: tuple[str, ...] = ()


class Lug(Struct, frozen=True):
    """A lug or pin: its label on the chassis, a small word under it, the net that it is on in the original.

    Where a whole place is turned no lines are drawn: ``now`` is then the net that is on it now, and ``off`` and
    ``on`` are what comes off it and goes onto it.
    """

    label: str
    word: str = ""
    net: str = ""
    now: str = ""
    off: tuple[Done, ...] = ()
    on: tuple[Done, ...] = ()


class Strip(Struct, frozen=True):
    """Lugs in a row, left to right seen from below: a terminal strip, a plug, a single lug."""

    name: str
    lugs: tuple[Lug, ...]


class Socket(Struct, frozen=True):
    """A tube socket from below, pins clockwise from the key (``key``, ``gap`` or empty)."""

    name: str
    type: str
    key: str
    lugs: tuple[Lug, ...]


class Can(Struct, frozen=True):
    """The lugs of a can, labelled with their marks as words; the last is the can itself, by its tabs."""

    name: str
    lugs: tuple[Lug, ...]


class BareChassis(Struct, frozen=True):
    """The chassis where no lug of it is named; it has one cell, labelled with the empty text."""

    name: str = "chassis"


class NetCard(Struct, frozen=True):
    """A net where no lug is known: its name and the first leads on it; ``count`` is how many there are.

    It has one cell, labelled with the empty text.
    """

    name: str
    leads: tuple[str, ...]
    count: int


PlaceCard = Strip | Socket | Can | BareChassis | NetCard


class End(Struct, frozen=True):
    """A lead of a part: its label on the part; the net of an unchanged lead stands beside it."""

    label: str
    net: str = ""


class Winding(Struct, frozen=True):
    """A winding: its name, what the file says of it, and which of the part's ends are its own."""

    name: str
    values: str
    leads: tuple[str, ...]


class PartBox(Struct, frozen=True):
    """A part with its leads and up to two lines of values; a marked one is itself to be put in or taken out."""

    name: str
    values: tuple[str, ...]
    ends: tuple[End, ...]
    form: Form = Form.BOX
    mark: Mark = Mark.PLAIN
    windings: tuple[Winding, ...] = ()
    done: Done | None = None


Card = PlaceCard | PartBox


class Line(Struct, frozen=True):
    """A joint between two cells. ``label`` and ``colour`` are those of a wire, empty where it is a lead's end."""

    a: Cell
    b: Cell
    mark: Mark
    label: str = ""
    colour: str = ""
    done: Done | None = None


class LeadRow(Struct, frozen=True):
    """One lead of a finding that has too many to draw: what comes off, and what goes on."""

    lead: str
    off: str
    on: str
    taken: tuple[Done, ...] = ()
    put: tuple[Done, ...] = ()


class Value(Struct, frozen=True):
    """A part whose joints are right and whose value is not: what it is, what it was, what to fit."""

    part: str
    now: str
    was: str
    fit: str = ""
    done: Done | None = None


class Panel(Struct, frozen=True):
    """Cards and the lines between them; or rows, where there is too much to draw; values are told in a table."""

    cards: tuple[Card, ...] = ()
    lines: tuple[Line, ...] = ()
    rows: tuple[LeadRow, ...] = field(default=())
    values: tuple[Value, ...] = field(default=())
