"""What statements are made of: words, values and clauses, each in its place."""

from dataclasses import dataclass

from netcheck.core.quantity import Quantity
from netcheck.core.source import Place

__all__ = ["Clauses", "Intent", "Item", "Lead", "PinOf", "Spot", "Value", "Word"]


@dataclass(frozen=True, slots=True)
class Word:
    """A name, a point, a descriptive word or a quoted text (then without its quotes)."""

    text: str
    place: Place


@dataclass(frozen=True, slots=True)
class Value:
    """A quantity in its place; ``quantity`` is None where reading it already gave a message."""

    quantity: Quantity | None
    place: Place


Item = Word | Value


@dataclass(frozen=True, slots=True)
class Lead:
    """One lead of a leads clause: which (``from to plus minus anode cathode``), the point, the lead's own colour."""

    role: Word
    point: Word
    colour: Word | None = None


@dataclass(frozen=True, slots=True)
class Intent:
    """A clause that declares a difference on purpose: its word and its reason."""

    word: Word
    reason: Word


@dataclass(frozen=True, slots=True)
class Clauses:
    """The clauses of a declaration, in any order in the text."""

    leads: tuple[Lead, ...] = ()
    replaces: tuple[Word, ...] = ()
    inserted: Intent | None = None
    added: Intent | None = None


@dataclass(frozen=True, slots=True)
class PinOf:
    """One item of a basing: ``1 grid``, ``cap plate``."""

    label: Word
    electrode: Word


@dataclass(frozen=True, slots=True)
class Spot:
    """A lug of a place and what is soldered there, in a line about the whole place: ``1 C51- R7.2``."""

    lug: Word
    points: tuple[Word, ...]
