"""The single lug or mounting screw, which stands by its own name."""

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import MOUNTINGS, Family, Features, PartKind, Role, Seat, Shape, Terminal, mounting_of

__all__ = ["KIND"]


def _shape(features: Features) -> Shape | Flaw:
    mounting = mounting_of(features)
    if isinstance(mounting, Flaw):
        return mounting
    if not mounting:
        return Flaw(
            "a lug is `grounded` or `insulated`; the line says neither",
            "a lug under a bare screw is `grounded`, a stud in a fibre washer is `insulated`",
        )
    return Shape((Terminal("lug", Role.LUG, suffix=""),), bonded=("lug",) if mounting == "grounded" else ())


KIND = PartKind(
    word="lug",
    family=Family.PLACE,
    seat=Seat.LUG,
    example="lug G1 grounded",
    shape=_shape,
    words=MOUNTINGS | {"exposed"},
    place=True,
    letters=("G", "E"),
    notes="its name alone is the point: `at G1: R4.2`; `exposed` where a hand can touch it",
)
