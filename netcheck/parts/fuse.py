"""The fuse: two ends, free to change places."""

from netcheck.core.kind import Family, PartKind, Seat, two_ended
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]

KIND = PartKind(
    word="fuse",
    family=Family.FUSE,
    seat=Seat.MOUNTED,
    example="fuse F1 1 A slow",
    shape=two_ended,
    principal=Dimension.CURRENT,
    rated=(Dimension.VOLTAGE,),
    dimensions=frozenset({Dimension.CURRENT, Dimension.VOLTAGE, Dimension.RESISTANCE}),
    words=frozenset({"slow", "fast"}),
    letters=("F",),
    notes="ends 1 and 2; `fast` or `slow`",
)
