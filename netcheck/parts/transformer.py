"""The transformer, of power, audio or IF: its leads are those of its windings."""

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import MOUNTINGS, Features, PartKind, Shape, framed, wound
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]

_VALUES = frozenset({Dimension.VOLTAGE, Dimension.RESISTANCE, Dimension.CURRENT, Dimension.INDUCTANCE, Dimension.POWER})


def _shape(features: Features) -> Shape | Flaw:
    shape = wound(features)
    return shape if isinstance(shape, Flaw) else framed(shape, features, "shield")


KIND = PartKind(
    word="transformer",
    example="transformer T1 grounded",
    shape=_shape,
    principal=Dimension.VOLTAGE,
    dimensions=_VALUES | {Dimension.FREQUENCY},
    repeated=_VALUES,
    words=MOUNTINGS,
    letters=("T", "L"),
    notes="leads are declared by `winding`; which end of a winding is which matters, so none are free",
)
