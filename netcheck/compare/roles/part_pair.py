"""Parts in one role, as data."""

from netcheck.core.circuit import Part
from netcheck.core.lazy_dataclass import dataclass

__all__ = ["PartPair"]


@dataclass(frozen=True, slots=True)
class PartPair:
    """Parts in the same role: mostly one and one; several on one side where ``replaces`` says so."""

    old: tuple[Part, ...]
    new: tuple[Part, ...]
