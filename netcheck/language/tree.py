"""Syntax nodes: what a file says, each word with its place; no slots or equality, which cost at every start."""

from msgspec import Struct

from netcheck.core.source import Place
from netcheck.language.leaves import Clauses, Intent, Item, Lead, PinOf, Spot, Value, Word
from netcheck.language.measures import Convention, Leakage, Meter
from netcheck.language.plans import Meant
from netcheck.language.sites import Stand

__all__ = [
    "Accept", "Apart", "At", "Base", "Basing", "Change", "Clauses", "Common", "Convention", "Covers", "Cut", "Draws",
    "Fit", "Include", "Intent", "Item", "Lead", "Leakage", "Lift", "Mains", "Meant", "Meter", "Move", "Net", "Note",
    "Part", "PinOf", "Position", "Remove", "Section", "Spare", "Spot", "Stand", "State", "Statement", "Supply", "Title",
    "Tree", "Value", "Volts", "Winding", "Wire", "Word",
]  # fmt: skip


class Title(Struct, frozen=True, eq=False):
    """``title "TEXT"``."""

    place: Place
    text: Word


class State(Struct, frozen=True, eq=False):
    """``state rewired`` or ``state rewired unfinished``."""

    place: Place
    word: Word
    unfinished: Word | None = None


class Mains(Struct, frozen=True, eq=False):
    """``mains 117 V 60 Hz`` or ``mains 117 V DC``."""

    place: Place
    items: tuple[Item, ...]


class Note(Struct, frozen=True, eq=False):
    """``note SUBJECT "TEXT"``; the subject may be missing."""

    place: Place
    subject: Word | None
    text: Word


class Include(Struct, frozen=True, eq=False):
    """``include "PATH"``."""

    place: Place
    path: Word


class Base(Struct, frozen=True, eq=False):
    """``start from "PATH"`` (parts and joins) or ``parts from "PATH"`` (parts only)."""

    place: Place
    path: Word
    joins: bool


class Covers(Struct, frozen=True, eq=False):
    """``covers NAME, NAME``."""

    place: Place
    names: tuple[Word, ...]


class Part(Struct, frozen=True, eq=False):
    """A declaration: ``KIND NAME item... clauses``."""

    place: Place
    kind: Word
    name: Word
    items: tuple[Item, ...]
    clauses: Clauses


class Section(Struct, frozen=True, eq=False):
    """``section C30A 20 mfd 450 V half-moon``; like a part."""

    place: Place
    name: Word
    items: tuple[Item, ...]
    clauses: Clauses


class Winding(Struct, frozen=True, eq=False):
    """``winding PART NAME lead... value...``; ``each_side`` says that the values are those from the tap to an end."""

    place: Place
    part: Word
    name: Word
    leads: tuple[Word, ...]
    values: tuple[Value, ...]
    each_side: bool = False


class Position(Struct, frozen=True, eq=False):
    """``position S2 phono: 1 3, 4 6``; each group of lugs is closed on itself."""

    place: Place
    switch: Word
    name: Word
    groups: tuple[tuple[Word, ...], ...]


class Basing(Struct, frozen=True, eq=False):
    """``basing X99: 1 grid, 2 cathode, cap plate``."""

    place: Place
    type: Word
    pins: tuple[PinOf, ...]


class Net(Struct, frozen=True, eq=False):
    """``net NAME: POINT, POINT``."""

    place: Place
    name: Word
    points: tuple[Word, ...]
    intended: Intent | None = None


class At(Struct, frozen=True, eq=False):
    """``at POINT: POINT, POINT``: soldered at this place; ``spots`` where a whole strip is told lug by lug."""

    place: Place
    point: Word
    points: tuple[Word, ...]
    intended: Intent | None = None
    spots: tuple[Spot, ...] = ()


class Wire(Struct, frozen=True, eq=False):
    """``wire A to B to C black 20 AWG past D``."""

    place: Place
    points: tuple[Word, ...]
    items: tuple[Item, ...]
    past: tuple[Word, ...]
    intended: Intent | None = None


class Fit(Struct, frozen=True, eq=False):
    """``fit R41 from C30.A to C30.B``."""

    place: Place
    part: Word
    leads: tuple[Lead, ...]
    intended: Intent | None = None


class Spare(Struct, frozen=True, eq=False):
    """``spare V4.5, C40.A "why"``; the reason may be missing."""

    place: Place
    points: tuple[Word, ...]
    reason: Word | None


class Common(Struct, frozen=True, eq=False):
    """``common B-``."""

    place: Place
    point: Word


class Apart(Struct, frozen=True, eq=False):
    """``apart B-, chassis "why"``; the reason may be missing."""

    place: Place
    points: tuple[Word, ...]
    reason: Word | None


class Volts(Struct, frozen=True, eq=False):
    """``volts V5.plate to B- 110 V``."""

    place: Place
    point: Word
    to: Word | None
    value: Value


class Draws(Struct, frozen=True, eq=False):
    """``draws B+2 65 mA``."""

    place: Place
    point: Word
    value: Value


class Supply(Struct, frozen=True, eq=False):
    """``supply boost to B+1 280 V "declared"``; the reason may be missing."""

    place: Place
    point: Word
    to: Word
    value: Value
    reason: Word | None


class Remove(Struct, frozen=True, eq=False):
    """``remove C22, C23 bridged "why"``; the reason may be missing."""

    place: Place
    names: tuple[Word, ...]
    bridged: Word | None
    reason: Word | None


class Lift(Struct, frozen=True, eq=False):
    """``lift T1.black-a, T1.black-b``."""

    place: Place
    points: tuple[Word, ...]
    intended: Intent | None = None


class Move(Struct, frozen=True, eq=False):
    """``move R14.2 to SP2.1``."""

    place: Place
    point: Word
    to: Word
    intended: Intent | None = None


class Cut(Struct, frozen=True, eq=False):
    """``cut SP1.2 to SP1.3``."""

    place: Place
    point: Word
    to: Word
    intended: Intent | None = None


class Change(Struct, frozen=True, eq=False):
    """``change C28 .047 mfd 275 V X2``; ``kind`` where another kind of part is fitted."""

    place: Place
    name: Word
    kind: Word | None
    items: tuple[Item, ...]


class Accept(Struct, frozen=True, eq=False):
    """``accept value-changed C61, C62 "why"``."""

    place: Place
    rule: Word
    subjects: tuple[Word, ...]
    reason: Word


Statement = (
    Title | State | Mains | Note | Include | Base | Convention | Covers | Part | Section | Winding | Position | Basing
    | Net | Meant | At | Wire | Fit | Spare | Common | Apart | Stand | Volts | Draws | Supply | Meter | Leakage | Remove
    | Lift | Move | Cut | Change | Accept
)  # fmt: skip


class Tree(Struct, frozen=True, eq=False):
    """A file's statements in the order of the text; those that could not be read are missing."""

    statements: tuple[Statement, ...]
