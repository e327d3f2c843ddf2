"""The terminal strip: lugs in a row, seen from below; its foot is a lug on the chassis."""

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import (
    MOUNTINGS,
    Family,
    Features,
    PartKind,
    Role,
    Seat,
    Shape,
    Terminal,
    count_of,
    mounting_of,
    numbered,
)
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]


def _shape(features: Features) -> Shape | Flaw:
    count = count_of(features, Dimension.LUGS)
    if isinstance(count, Flaw):
        return count
    mounting = mounting_of(features)
    if isinstance(mounting, Flaw):
        return mounting
    lugs, foot = numbered(count), features.arguments.get("foot")
    if foot is None and mounting == "grounded":
        return Flaw("which lug of the strip is grounded is not stated", "say which one is on the chassis: `foot 3`")
    if foot is not None and foot not in lugs:
        return Flaw(f"the strip has no lug `{foot}` that could be its foot", f"its lugs are 1 to {count}")
    bare = next((one for one in features.arguments.get("exposed", "").split() if one not in lugs), None)
    if bare is not None:
        return Flaw(f"the strip has no lug `{bare}` that could be exposed", f"its lugs are 1 to {count}")
    terminals = tuple(Terminal(lug, Role.LUG, ("foot",) if lug == foot else ()) for lug in lugs)
    bonded = (foot,) if foot is not None and mounting != "insulated" else ()
    return Shape(terminals, bonded=bonded, ordered=lugs)


KIND = PartKind(
    word="strip",
    family=Family.PLACE,
    seat=Seat.STRIP,
    example="strip SP1 5 lugs foot 3",
    shape=_shape,
    principal=Dimension.LUGS,
    dimensions=frozenset({Dimension.LUGS}),
    words=MOUNTINGS,
    arguments=frozenset({"foot", "exposed"}),
    place=True,
    letters=("SP", "TS", "TB"),
    notes="lugs 1 to n, left to right seen from below; the foot is on the chassis unless the strip is `insulated`; "
    "`exposed 1` for a lug that a hand can touch, `exposed 1 2` for two",
)
