"""The plug, socket or jack that leads off the chassis; a mated pair is one plug."""

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import Family, Features, PartKind, Seat, Shape, Terminal, count_of, numbered
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]


def _shape(features: Features) -> Shape | Flaw:
    count = count_of(features, Dimension.PINS)
    if isinstance(count, Flaw):
        return count
    pins = numbered(count)
    bare = next((one for one in features.arguments.get("exposed", "").split() if one not in pins), None)
    if bare is not None:
        return Flaw(f"the plug has no pin `{bare}` that could be exposed", f"its pins are 1 to {count}")
    # What is plugged in expects each circuit on its own pin, so pins are compared like leads, not like lugs.
    return Shape(tuple(Terminal(pin) for pin in pins), ordered=pins)


KIND = PartKind(
    word="plug",
    family=Family.PLUG,
    seat=Seat.PLUG,
    example="plug J1 2 pins",
    shape=_shape,
    principal=Dimension.PINS,
    dimensions=frozenset({Dimension.PINS}),
    arguments=frozenset({"exposed"}),
    place=True,
    letters=("J", "PG"),
    notes="pins 1 to n; unused pins may be left bare; `exposed 2` for the pin that is the shell of a jack",
)
