"""Parts in one role, as data."""

from dataclasses import dataclass

from netcheck.core.circuit import Part

__all__ = ["PartPair"]


@dataclass(frozen=True, slots=True)
class PartPair:
    """Parts in the same role: mostly one and one; several on one side where ``replaces`` says so."""

    old: tuple[Part, ...]
    new: tuple[Part, ...]
