"""The potentiometer: ends named by the way its shaft turns, which is the same from above and below."""

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import MOUNTINGS, Family, Features, PartKind, Seat, Shape, Terminal, framed
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]

_MIRRORED = (
    "it is mirrored when seen from below: write `.ccw` (where the wiper stands with the shaft turned fully left), "
    "`.wiper` or `.cw`"
)


def _shape(features: Features) -> Shape | Flaw:
    tap = (Terminal("tap"),) if "tapped" in features.words else ()
    return framed(Shape((Terminal("ccw"), Terminal("wiper"), Terminal("cw"), *tap)), features)


KIND = PartKind(
    word="pot",
    family=Family.CONTROL,
    seat=Seat.TERMINALS,
    example="pot RV1 500k",
    shape=_shape,
    principal=Dimension.RESISTANCE,
    rated=(Dimension.POWER,),
    dimensions=frozenset({Dimension.RESISTANCE, Dimension.POWER, Dimension.TOLERANCE}),
    words=MOUNTINGS | {"exposed", "tapped", "linear", "audio", "wirewound"},
    spoken="control",
    divides=True,
    letters=("RV", "VR", "R", "P"),
    refused=dict.fromkeys(("1", "2", "3", "left", "right"), _MIRRORED),
    notes="`tapped` adds `.tap`; `grounded` or `insulated` adds `.frame`; `exposed` where a hand can touch that",
)
