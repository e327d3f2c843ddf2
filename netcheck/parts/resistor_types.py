"""The volts that small resistors stand, whatever their heat: their length sets them, and that goes with their watts."""

from decimal import Decimal

__all__ = ["most_volts"]

# Watts | volts of continuous working: carbon composition, studylib.net/doc/18037366; 2 W from memory (MIL-R-11).
_VOLTS = ((Decimal("0.25"), 250), (Decimal("0.5"), 350), (Decimal(1), 500), (Decimal(2), 750))


def most_volts(watts: Decimal) -> int | None:
    """The volts that a resistor of so many watts stands; None above 2 W, where makers differ."""
    return next((volts for rated, volts in _VOLTS if watts <= rated), None)
