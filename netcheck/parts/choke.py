"""The iron-cored choke or field coil: two ends, or the leads of its declared windings, and its frame."""

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import MOUNTINGS, Family, Features, PartKind, Seat, Shape, framed, two_ended, wound
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]


def _shape(features: Features) -> Shape | Flaw:
    return framed(wound(features) if features.windings else two_ended(features), features)


KIND = PartKind(
    word="choke",
    family=Family.INDUCTOR,
    seat=Seat.MOUNTED,
    example="choke L3 12 H 80 mA 350 ohm",
    shape=_shape,
    principal=Dimension.INDUCTANCE,
    rated=(Dimension.CURRENT,),
    dimensions=frozenset({Dimension.INDUCTANCE, Dimension.RESISTANCE, Dimension.CURRENT, Dimension.TOLERANCE}),
    words=MOUNTINGS | {"exposed"},
    iron=True,
    letters=("L", "CH"),
    notes="a field coil too; ends 1 and 2, or the leads of its `winding`; `grounded` or `insulated` adds `.frame`",
)
