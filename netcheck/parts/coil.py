"""The coil: two ends, or the leads of its declared windings."""

from netcheck.core.kind import Family, Features, PartKind, Seat, Shape, two_ended, wound
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]


def _shape(features: Features) -> Shape:
    return wound(features) if features.windings else two_ended(features)


KIND = PartKind(
    word="coil",
    family=Family.INDUCTOR,
    seat=Seat.LEADS,
    example="coil L5 2.5 mH 40 ohm",
    shape=_shape,
    principal=Dimension.INDUCTANCE,
    rated=(Dimension.CURRENT,),
    dimensions=frozenset({Dimension.INDUCTANCE, Dimension.RESISTANCE, Dimension.CURRENT, Dimension.TOLERANCE}),
    iron=False,
    letters=("L",),
    notes="ends 1 and 2, or the leads of its `winding`",
)
