"""The resistor: two ends, free to change places."""

from netcheck.core.kind import Family, PartKind, Seat, two_ended
from netcheck.core.quantity import Dimension

__all__ = ["KIND"]

KIND = PartKind(
    word="resistor",
    family=Family.RESISTOR,
    seat=Seat.LEADS,
    example="resistor R41 2.7k 1 W 10%",
    shape=two_ended,
    principal=Dimension.RESISTANCE,
    rated=(Dimension.POWER, Dimension.VOLTAGE),
    dimensions=frozenset({Dimension.RESISTANCE, Dimension.POWER, Dimension.TOLERANCE, Dimension.VOLTAGE}),
    words=frozenset({"carbon", "film", "flameproof", "wirewound"}),
    letters=("R",),
    notes="ends 1 and 2, either way round",
)
