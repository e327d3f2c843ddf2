"""Parts in one role, as data."""

from msgspec import Struct

from netcheck.core.circuit import Part

__all__ = ["PartPair"]


class PartPair(Struct, frozen=True):
    """Parts in the same role: mostly one and one; several on one side where ``replaces`` says so."""

    old: tuple[Part, ...]
    new: tuple[Part, ...]
