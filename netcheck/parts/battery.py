"""The battery: plus and minus."""

from netcheck.core.kind import Family, PartKind, Seat, polarised
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]

KIND = PartKind(
    word="battery",
    family=Family.BATTERY,
    seat=Seat.MOUNTED,
    example="battery B1 67.5 V",
    shape=polarised,
    principal=Dimension.VOLTAGE,
    dimensions=frozenset({Dimension.VOLTAGE, Dimension.CURRENT}),
    letters=("B", "BT"),
    notes="its leads are `+` and `-`",
)
