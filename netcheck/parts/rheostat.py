"""The rheostat: one end and the wiper."""

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import MOUNTINGS, Family, Features, PartKind, Seat, Shape, Terminal, framed
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]


def _shape(features: Features) -> Shape | Flaw:
    return framed(Shape((Terminal("1"), Terminal("wiper")), free=(("1", "wiper"),)), features)


KIND = PartKind(
    word="rheostat",
    family=Family.CONTROL,
    seat=Seat.TERMINALS,
    example="rheostat R30 10 ohm",
    shape=_shape,
    principal=Dimension.RESISTANCE,
    rated=(Dimension.POWER,),
    dimensions=frozenset({Dimension.RESISTANCE, Dimension.POWER, Dimension.TOLERANCE}),
    words=MOUNTINGS | {"wirewound"},
    letters=("R", "RV"),
    notes="ends 1 and wiper, either way round",
)
