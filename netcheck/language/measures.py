"""Statements that say one value about the whole file."""

from msgspec import Struct

from netcheck.core.source import Place
from netcheck.language.leaves import Value, Word

__all__ = ["Convention", "Leakage", "Meter"]


class Convention(Struct, frozen=True, eq=False):
    """``all capacitors in mfd``: what a number without its unit is on this sheet."""

    place: Place
    what: Word
    unit: Word


class Leakage(Struct, frozen=True, eq=False):
    """``leakage 0.75 mA``."""

    place: Place
    value: Value


class Meter(Struct, frozen=True, eq=False):
    """``meter 20000 ohm/V``."""

    place: Place
    value: Value
