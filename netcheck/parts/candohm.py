"""The candohm: a strip of wire-wound sections in a metal case, one lug more than it has values."""

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import MOUNTINGS, Family, Features, PartKind, Seat, Shape, Terminal, framed, numbered
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]


def _shape(features: Features) -> Shape | Flaw:
    sections = len(features.all_of(Dimension.RESISTANCE))
    if not sections:
        return Flaw("no section of the candohm has a value", f"say the ohms in the order of the lugs: `{KIND.example}`")
    lugs = numbered(sections + 1)
    free = (("1", "2"),) if sections == 1 else ()
    return framed(Shape(tuple(Terminal(lug) for lug in lugs), free=free, ordered=lugs), features)


KIND = PartKind(
    word="candohm",
    family=Family.RESISTOR,
    seat=Seat.TERMINALS,
    example="candohm R20 6.8k 220 ohm 47 ohm",
    shape=_shape,
    principal=Dimension.RESISTANCE,
    rated=(Dimension.POWER,),
    dimensions=frozenset({Dimension.RESISTANCE, Dimension.POWER, Dimension.TOLERANCE}),
    repeated=frozenset({Dimension.RESISTANCE, Dimension.POWER}),
    words=MOUNTINGS,
    letters=("R",),
    notes="lugs 1 to n+1 for n values, in the order of the values",
)
