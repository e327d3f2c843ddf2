"""Whether two parts are the same to the circuit: kind, values, ratings and material."""

from collections.abc import Hashable

from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.parts.section import MARKS

__all__ = ["alike", "facts"]


# What is worked or plugged in from outside: the knob marked volume is not the one marked tone.
_OUTSIDE = (Family.CORD, Family.PLUG, Family.CONTROL, Family.SPEAKER, Family.SWITCH)


def alike(one: Part, other: Part) -> bool:
    """Whether either could stand in the other's place without anyone noticing."""
    return one.kind is other.kind and one.kind.family not in _OUTSIDE and facts(one) == facts(other)


def facts(part: Part) -> tuple[Hashable, ...]:
    """All that is said of a part but its name, place and mark of a lug: equal facts of one kind are equal parts."""
    values = tuple(sorted((q.dimension.value, q.amounts, q.current.value) for q in part.features.quantities))
    return values, part.features.type, frozenset(part.features.words).difference(MARKS)
