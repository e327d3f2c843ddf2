"""The section of a can: the element between a lug of the can and its common."""

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import Family, Features, PartKind, Seat, Shape, polarised
from netcheck.core.quantity import Dimension

__all__ = ["KIND", "MARKS"]

MARKS = ("half-moon", "square", "triangle", "plain")


def _shape(features: Features) -> Shape | Flaw:
    marks = [mark for mark in MARKS if mark in features.words]
    if len(marks) > 1:
        return Flaw(f"a section has one mark, not `{marks[0]}` and `{marks[1]}`", "the label beside the lugs tells")
    return polarised(features)


KIND = PartKind(
    word="section",
    family=Family.ELECTROLYTIC,
    seat=Seat.IN_CAN,
    example="section C30A 20 mfd 450 V half-moon",
    shape=_shape,
    principal=Dimension.CAPACITANCE,
    rated=(Dimension.VOLTAGE, Dimension.CURRENT),
    dimensions=frozenset({Dimension.CAPACITANCE, Dimension.VOLTAGE, Dimension.CURRENT, Dimension.TOLERANCE}),
    words=frozenset(MARKS),
    arguments=frozenset({"minus"}),
    spoken="electrolytic",
    letters=("C",),
    notes="its name is the can's and a letter; `minus NAME` where the section has a minus lead of its own",
)
