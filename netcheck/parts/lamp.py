"""The lamp: a pilot lamp, a ballast or a neon."""

from netcheck.core.kind import Family, PartKind, Seat, two_ended
from netcheck.core.quantity import Dimension, Quantity
from netcheck.parts.lamp_types import lamp_type_of

__all__ = ["KIND"]


def _of_type(name: str) -> tuple[Quantity, ...]:
    known = lamp_type_of(name)
    if known is None:
        return ()
    return (
        Quantity((known.volts,), Dimension.VOLTAGE, f"{known.volts} V"),
        Quantity((known.amperes,), Dimension.CURRENT, f"{known.amperes} A"),
    )


KIND = PartKind(
    word="lamp",
    family=Family.LAMP,
    seat=Seat.LEADS,
    example="lamp LM1 6.3 V 150 mA",
    shape=two_ended,
    principal=Dimension.VOLTAGE,
    dimensions=frozenset({Dimension.VOLTAGE, Dimension.CURRENT, Dimension.POWER, Dimension.RESISTANCE}),
    of_type=_of_type,
    words=frozenset({"ballast", "neon"}),
    letters=("LM", "PL"),
    notes="ends 1 and 2; of the usual types (47, 44, 1847) volts and amperes are known",
)
