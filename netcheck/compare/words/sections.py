"""Whether an exchange is one of two sections of a can."""

from netcheck.compare.pair import Pair
from netcheck.core.circuit import Part
from netcheck.core.difference import Rearranged, Way

__all__ = ["sections_of"]


def sections_of(pair: Pair, fault: Rearranged) -> tuple[Part, ...]:
    """The two sections of one can that took each other's place; empty for any other exchange."""
    parts = tuple(pair.as_shown.circuit.parts[name] for name in fault.parts if name in pair.as_shown.circuit.parts)
    same_can = len(parts) == 2 and bool(parts[0].host) and parts[0].host == parts[1].host
    return parts if same_can and fault.way in (Way.PARTS, Way.LEADS) else ()
