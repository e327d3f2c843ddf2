"""Computed amounts in the trade's spelling; what a file says is shown as the file writes it."""

from collections.abc import Mapping
from decimal import Context, Decimal

from netcheck.core.quantity import Dimension

__all__ = ["spelled"]

_UNITS: tuple[tuple[Dimension, tuple[tuple[str, Decimal | int], ...]], ...] = (
    (Dimension.RESISTANCE, (("meg", 1_000_000), ("k", 1_000), (" ohm", 1))),
    (Dimension.CAPACITANCE, ((" mfd", Decimal("0.000000001")), (" mmfd", Decimal("0.000000000001")))),
    (Dimension.INDUCTANCE, ((" H", Decimal("0.1")), (" mH", Decimal("0.001")))),
    (Dimension.VOLTAGE, ((" V", 1),)),
    (Dimension.CURRENT, ((" A", 1), (" mA", Decimal("0.001")))),
    (Dimension.POWER, ((" W", 1),)),
)
_SCALE: Mapping[str, Decimal | int] = {" mfd": Decimal("0.000001"), " H": 1}


def spelled(amount: Decimal, dimension: Dimension) -> str:
    """An amount in the dimension's unit, with three figures: ``137 mfd``, ``4.7k``, ``2.2 meg``."""
    for known, units in _UNITS:
        if known is not dimension:
            continue
        for unit, least in units:
            if amount >= least or unit == units[-1][0]:
                scaled = amount / _SCALE.get(unit, least)
                rounded = scaled.quantize(Decimal(1)) if scaled >= 100 else Context(prec=3).plus(scaled)
                return f"{rounded.normalize():f}{' ' if unit == 'meg' else ''}{unit}"
    return f"{amount.normalize():f} {dimension.value}"
