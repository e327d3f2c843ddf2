"""The electrolytic capacitor with its own two leads, plus and minus."""

from netcheck.core.kind import Family, PartKind, Seat, polarised
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]

KIND = PartKind(
    word="electrolytic",
    family=Family.ELECTROLYTIC,
    seat=Seat.LEADS,
    example="electrolytic C51 22 mfd 500 V",
    shape=polarised,
    principal=Dimension.CAPACITANCE,
    rated=(Dimension.VOLTAGE, Dimension.CURRENT),
    dimensions=frozenset({Dimension.CAPACITANCE, Dimension.VOLTAGE, Dimension.CURRENT, Dimension.TOLERANCE}),
    letters=("C",),
    notes="a current is the ripple current that it is rated for: `22 mfd 500 V 180 mA`",
)
