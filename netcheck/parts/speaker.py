"""The speaker's voice coil; a field coil is a choke of its own."""

from netcheck.core.kind import Family, PartKind, Seat, two_ended
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]

KIND = PartKind(
    word="speaker",
    family=Family.SPEAKER,
    seat=Seat.MOUNTED,
    example="speaker LS1 3.2 ohm",
    shape=two_ended,
    principal=Dimension.RESISTANCE,
    rated=(Dimension.POWER,),
    dimensions=frozenset({Dimension.RESISTANCE, Dimension.POWER}),
    letters=("LS",),
    notes="the voice coil; declare a field coil as a choke",
)
