"""The transformer, of power, audio or IF: its leads are those of its windings."""

from decimal import Decimal, InvalidOperation

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import MOUNTINGS, Family, Features, PartKind, Seat, Shape, framed, wound
from netcheck.core.quantity import Dimension

__all__ = ["KIND", "rise_of"]

_VALUES = frozenset({Dimension.VOLTAGE, Dimension.RESISTANCE, Dimension.CURRENT, Dimension.INDUCTANCE, Dimension.POWER})


_MOST_RISE = Decimal(50)  # percent; a winding that falls by a third under its load is no power transformer's


def rise_of(features: Features) -> Decimal | None:
    """By how much the windings give more volts without a load, as 0.08 for `rise 8%`; None where unsaid."""
    said = features.arguments.get("rise")
    return None if said is None else _percent(said)


def _percent(said: str) -> Decimal | None:
    number = said.removesuffix("%").rstrip()
    try:
        percent = Decimal(number)
    except InvalidOperation:
        return None
    within = number != said and percent.is_finite() and 0 <= percent <= _MOST_RISE
    return percent / 100 if within else None


def _shape(features: Features) -> Shape | Flaw:
    if "rise" in features.arguments and rise_of(features) is None:
        wrong = f"the rise without a load can't be `{features.arguments['rise']}`"
        return Flaw(wrong, f"in percent from 0 to {_MOST_RISE}, like this: `rise 8%`")
    return framed(wound(features), features, "shield")


KIND = PartKind(
    word="transformer",
    family=Family.TRANSFORMER,
    seat=Seat.TERMINALS,
    example="transformer T1 grounded",
    shape=_shape,
    principal=Dimension.VOLTAGE,
    rated=(Dimension.POWER,),
    dimensions=_VALUES | {Dimension.FREQUENCY},
    repeated=_VALUES,
    words=MOUNTINGS | {"exposed"},
    arguments=frozenset({"rise"}),
    letters=("T", "L"),
    notes="leads are declared by `winding`; which end of a winding is which matters, so none may change places; "
    "`rise 8%` is how much more its windings give without a load",
)
