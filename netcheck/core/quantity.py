"""Exact values with units, as data; the text forms are read in ``language.values``."""

from collections.abc import Iterable
from decimal import Decimal
from enum import Enum

from msgspec import Struct

__all__ = ["MICROFARAD", "Current", "Dimension", "Quantity", "first_of"]

MICROFARAD = Decimal("0.000001")  # in farads: the unit that sheets and capacitors are marked in


class Dimension(Enum):
    """What is measured; the value names the unit that numbers are kept in."""

    RESISTANCE = "ohm"
    CAPACITANCE = "farad"
    INDUCTANCE = "henry"
    VOLTAGE = "volt"
    CURRENT = "ampere"
    POWER = "watt"
    FREQUENCY = "hertz"
    SENSITIVITY = "ohm/volt"
    TOLERANCE = "percent"
    GAUGE = "AWG"
    LUGS = "lugs"
    PINS = "pins"
    WIRES = "wires"
    PLATES = "plates"


class Current(Enum):
    """Whether volts are said to be alternating or direct; most are said without."""

    UNSAID = ""
    AC = "AC"
    DC = "DC"


class Quantity(Struct, frozen=True, gc=False):
    """One value as printed on a part: ``amounts`` are in the dimension's unit, several for ``310-0-310 V``.

    ``written`` is the text of the file, so that messages never re-spell a value.
    """

    amounts: tuple[Decimal, ...]
    dimension: Dimension
    written: str
    current: Current = Current.UNSAID

    @property
    def amount(self) -> Decimal:
        """The first amount, in the dimension's unit."""
        return self.amounts[0]


def first_of(values: Iterable[Quantity], dimension: Dimension) -> Quantity | None:
    """The first value of a dimension; None without."""
    return next((each for each in values if each.dimension is dimension), None)
