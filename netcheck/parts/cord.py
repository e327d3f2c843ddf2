"""The line cord: two wires alike, two that are told apart by the plug, or three."""

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import Family, Features, PartKind, Seat, Shape, Terminal, two_ended
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]


_EARTHED = 3


def _shape(features: Features) -> Shape | Flaw:
    said = features.first(Dimension.WIRES)
    if said is not None and said.amount not in (2, _EARTHED):
        return Flaw(f"a line cord can't have `{said.written}`", "write `2 wires` or `3 wires`")
    if said is not None and said.amount == _EARTHED:
        return Shape((Terminal("hot"), Terminal("neutral"), Terminal("earth")))
    if "polarized" in features.words:
        return Shape((Terminal("hot"), Terminal("neutral")))
    # A plug without a wide blade goes in either way round, so its wires can't be told apart.
    return two_ended(features)


KIND = PartKind(
    word="cord",
    family=Family.CORD,
    seat=Seat.TERMINALS,
    example="cord P1 polarized",
    shape=_shape,
    rated=(Dimension.CURRENT, Dimension.VOLTAGE),
    dimensions=frozenset({Dimension.WIRES, Dimension.GAUGE, Dimension.VOLTAGE, Dimension.CURRENT}),
    words=frozenset({"polarized"}),
    letters=("P", "W"),
    notes="`.1 .2`; `polarized`: `.hot .neutral`, neutral on the wide blade; `3 wires`: `.earth` too",
)
