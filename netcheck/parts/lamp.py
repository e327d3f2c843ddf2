"""The lamp: a pilot lamp, a ballast or a neon."""

from netcheck.core.kind import PartKind, two_ended
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]

KIND = PartKind(
    word="lamp",
    example="lamp LM1 6.3 V 150 mA",
    shape=two_ended,
    principal=Dimension.VOLTAGE,
    dimensions=frozenset({Dimension.VOLTAGE, Dimension.CURRENT, Dimension.POWER, Dimension.RESISTANCE}),
    words=frozenset({"ballast", "neon"}),
    letters=("LM", "PL"),
)
