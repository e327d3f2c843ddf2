"""The selenium stack: a single one, a bridge, a doubler or a centre-tapped one; plus is the cathode end."""

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import Family, Features, Junction, PartKind, Seat, Shape, Terminal
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]

_TAPPED = ("doubler", "centre-tapped", "center-tapped")


def _shape(features: Features) -> Shape | Flaw:
    makes = [word for word in ("bridge", *_TAPPED) if word in features.words]
    if len(makes) > 1:
        return Flaw(f"a stack is either `{makes[0]}` or `{makes[1]}`", "keep the word that fits its terminals")
    ends = (Terminal("+"), Terminal("-"))
    if "bridge" in makes:
        inputs = (Terminal("ac-1"), Terminal("ac-2"))
        return Shape((*ends, *inputs), free=(("ac-1", "ac-2"),), polarity=("+", "-"))
    return Shape((*ends, Terminal("ac")) if makes else ends, polarity=("+", "-"))


KIND = PartKind(
    word="selenium",
    family=Family.RECTIFIER,
    seat=Seat.LEADS,
    example="selenium CR1 130 V 100 mA 5 plates",
    shape=_shape,
    principal=Dimension.CURRENT,
    rated=(Dimension.VOLTAGE, Dimension.CURRENT),
    dimensions=frozenset({Dimension.CURRENT, Dimension.VOLTAGE, Dimension.PLATES}),
    words=frozenset({"bridge", *_TAPPED}),
    junction=Junction.SELENIUM,
    letters=("CR", "SR", "D"),
    notes="`+` is the cathode end: it feeds the plus of the filter capacitor, the alternating side is `-`; `ac` is "
    "between the two arms of a doubler or centre-tapped stack, which are in series from `-` to `+`; two arms with a "
    "common plus are two stacks",
)
