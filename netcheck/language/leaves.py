"""What statements are made of: words, values and clauses, each in its place."""

from msgspec import Struct

from netcheck.core.quantity import Quantity
from netcheck.core.source import Place

__all__ = ["Clauses", "Intent", "Item", "Lead", "PinOf", "Spot", "Value", "Word"]


class Word(Struct, frozen=True, gc=False):
    """A name, a point, a descriptive word or a quoted text (then without its quotes)."""

    text: str
    place: Place


class Value(Struct, frozen=True, gc=False):
    """A quantity in its place; ``quantity`` is None where reading it already gave a message."""

    quantity: Quantity | None
    place: Place


Item = Word | Value


class Lead(Struct, frozen=True):
    """One lead of a leads clause: which (``from to plus minus anode cathode``), the point, the lead's own colour."""

    role: Word
    point: Word
    colour: Word | None = None


class Intent(Struct, frozen=True):
    """A clause that declares a difference on purpose: its word and its reason."""

    word: Word
    reason: Word


class Clauses(Struct, frozen=True):
    """The clauses of a declaration, in any order in the text."""

    leads: tuple[Lead, ...] = ()
    replaces: tuple[Word, ...] = ()
    inserted: Intent | None = None
    added: Intent | None = None


class PinOf(Struct, frozen=True):
    """One item of a basing: ``1 grid``, ``cap plate``."""

    label: Word
    electrode: Word


class Spot(Struct, frozen=True):
    """A lug of a place and what is soldered there, in a line about the whole place: ``1 C51- R7.2``."""

    lug: Word
    points: tuple[Word, ...]
