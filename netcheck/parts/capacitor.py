"""The capacitor without polarity: two ends, free to change places; ``outer`` tells which is the outer foil."""

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import Family, Features, PartKind, Seat, Shape, two_ended
from netcheck.core.quantity import Dimension

__all__ = ["ADJUSTABLE", "CLASSES", "DIELECTRICS", "KIND"]

CLASSES = ("X1", "X2", "Y1", "Y2")
"""Of safety, by IEC 60384-14: X for across the line, Y for from the line to what is touched."""

DIELECTRICS = ("paper", "film", "mica", "ceramic", "oil")
ADJUSTABLE = ("variable", "trimmer", "padder")
"""Set by hand, in air or mica: no maker prints volts or a class on these."""


def _shape(features: Features) -> Shape | Flaw:
    outer = features.arguments.get("outer", "1")
    if outer not in ("1", "2"):
        return Flaw(f"no end `{outer}` can be the outer foil", "a capacitor has the ends 1 and 2: `outer 2`")
    return two_ended(features)


KIND = PartKind(
    word="capacitor",
    family=Family.CAPACITOR,
    seat=Seat.LEADS,
    example="capacitor C14 .01 mfd 400 V paper",
    shape=_shape,
    principal=Dimension.CAPACITANCE,
    rated=(Dimension.VOLTAGE,),
    dimensions=frozenset({Dimension.CAPACITANCE, Dimension.VOLTAGE, Dimension.TOLERANCE}),
    words=frozenset({*DIELECTRICS, *ADJUSTABLE, *CLASSES}),
    arguments=frozenset({"outer"}),
    letters=("C",),
    notes="`outer 2` says that end 2 is the outer foil; the ends stay free to change places",
)
