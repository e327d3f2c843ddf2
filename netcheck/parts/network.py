"""The network (couplate): the leads of a moulded unit; the parts inside are declared on their own."""

from netcheck.core.diagnostic import Flaw
from netcheck.core.kind import Family, Features, PartKind, Role, Seat, Shape, Terminal, count_of, numbered
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]


def _shape(features: Features) -> Shape | Flaw:
    count = count_of(features, Dimension.PINS)
    if isinstance(count, Flaw):
        return count
    pins = numbered(count)
    return Shape(tuple(Terminal(pin, Role.LUG) for pin in pins), ordered=pins)


KIND = PartKind(
    word="network",
    family=Family.NETWORK,
    seat=Seat.TERMINALS,
    example="network PC1 4 pins",
    shape=_shape,
    principal=Dimension.PINS,
    dimensions=frozenset({Dimension.PINS}),
    place=True,
    letters=("PC", "N"),
    notes="inner parts are parts of their own: `resistor PC1a 470k from PC1.1 to PC1.2`",
)
