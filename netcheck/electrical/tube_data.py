"""What tubes drop, stand, keep, take and draw, by type: rectifiers, regulators, heaters, typical currents.

The table is ``tube_data.txt``. A figure is from memory unless its row says where it was read; what a file states goes
before it.

With 3 mA for every plate the B+ of a table set came out 13 % above its chart; with 11 and 4 mA for an IF pentode it is
7 % above. So small tubes take their typical currents too, less in proportion below 100 V on their plates.
"""

import re
from decimal import Decimal
from functools import cache

from msgspec import Struct

from netcheck.core.kind import Standing
from netcheck.core.quantity import MICROFARAD
from netcheck.core.type_table import TypeRow, TypeTable, table_of

__all__ = [
    "Appetite", "FirstCapacitor", "Heater", "RectifierTube", "appetite_of", "first_capacitor_of", "first_capacitors",
    "heater_of", "rectifier_tube_of", "regulator_volts_of",
]  # fmt: skip

_FIGURES = frozenset({"drop", "inverse", "peak", "mean"})


class RectifierTube(Struct, frozen=True):
    """One plate "drops ``volts`` at ``amperes``"; it stands ``inverse_volts`` backwards and ``peak`` amperes.

    ``mean`` is the direct current that one plate may carry. ``gas`` is True where the drop hardly depends on the
    current (mercury vapour). A limit of 0 is unknown. ``source`` says where the limits are from, and ``read`` which of
    ``drop``, ``inverse``, ``peak`` and ``mean`` were read there; the others are from memory.
    """

    volts: float
    amperes: float
    inverse_volts: float = 0.0
    peak: float = 0.0
    mean: float = 0.0
    gas: bool = False
    source: str = "from memory"
    read: frozenset[str] = frozenset()


class FirstCapacitor(Struct, frozen=True):
    """The largest capacitor, in farads, that a type of tube may charge directly."""

    type: str
    most: Decimal
    standing: Standing
    source: str

    @property
    def terms(self) -> str:
        """On which terms, as the source has them, without its address."""
        return self.source.partition("; ")[2] if self.standing is Standing.SOURCE else self.source


class Appetite(Struct, frozen=True):
    """Typical currents of a tube's plate and screen, in amperes; ``power`` is True for an output tube."""

    plate: float
    screen: float
    power: bool


class Heater(Struct, frozen=True):
    """Volts and amperes of a heater from end to end; ``tap`` are those from ``heater-1`` to its tap, 0 without."""

    volts: float
    amperes: float
    tap: float = 0.0


def rectifier_tube_of(tube_type: str) -> RectifierTube | None:
    """What a rectifier tube drops and stands; None where the type is not in the table."""
    row = _found(tube_type, "rectifier")
    if row is None:
        return None
    volts, amperes, inverse, peak, mean = map(float, row.cells[:5])
    gas = row.cells[-1] == "gas"
    return RectifierTube(volts, amperes / 1000, inverse, peak / 1000, mean / 1000, gas, _said(row), _read(row))


def first_capacitors() -> tuple[FirstCapacitor, ...]:
    """Every type that has a largest first capacitor."""
    found = (first_capacitor_of(tube_type) for tube_type in _table().types("first capacitor"))
    return tuple(row for row in found if row is not None)


def first_capacitor_of(tube_type: str) -> FirstCapacitor | None:
    """The limit of a type as printed on the glass; None where it is no rectifier or is not in the table."""
    row = _found(tube_type, "first capacitor")
    return (
        None if row is None else FirstCapacitor(row.type, Decimal(row.cells[0]) * MICROFARAD, row.standing, row.source)
    )


def appetite_of(tube_type: str) -> Appetite | None:
    """What a tube typically draws; None where the type is not in the table."""
    row = _found(tube_type, "output", "small")
    if row is None:
        return None
    return Appetite(float(row.cells[0]) / 1000, float(row.cells[1]) / 1000, row.section == "output")


def regulator_volts_of(tube_type: str) -> float | None:
    """The volts that a gas regulator keeps; None where the type is none of the table."""
    row = _found(tube_type, "regulator")
    return None if row is None else float(row.cells[0])


def heater_of(tube_type: str) -> Heater | None:
    """A tube's heater; None where the type is not in the table."""
    row = _found(tube_type, "heater")
    if row is None:
        return None
    volts, milliamperes, *tap = map(float, row.cells)
    return Heater(volts, milliamperes / 1000, *tap)


def _read(row: TypeRow) -> frozenset[str]:
    """The figures of a rectifier that its source has: those that the line names, or all where it names none."""
    if row.standing is Standing.MEMORY:
        return frozenset()
    named = _FIGURES & set(re.findall(r"\w+", row.source))
    return named or _FIGURES


def _said(row: TypeRow) -> str:
    if row.standing is Standing.SOURCE:
        return row.source
    return f"from memory; {row.source}" if row.source else "from memory"


def _found(tube_type: str, *sections: str) -> TypeRow | None:
    return _table().find(tube_type.upper(), *sections)


@cache
def _table() -> TypeTable:
    return table_of("netcheck.electrical", "tube_data.txt")
