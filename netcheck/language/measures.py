"""Statements that say one value about the whole file."""

from dataclasses import dataclass

from netcheck.core.source import Place
from netcheck.language.leaves import Value, Word

__all__ = ["Convention", "Leakage", "Meter"]


@dataclass(frozen=True, eq=False)
class Convention:
    """``all capacitors in mfd``: what a number without its unit is on this sheet."""

    place: Place
    what: Word
    unit: Word


@dataclass(frozen=True, eq=False)
class Leakage:
    """``leakage 0.75 mA``."""

    place: Place
    value: Value


@dataclass(frozen=True, eq=False)
class Meter:
    """``meter 20000 ohm/V``."""

    place: Place
    value: Value
