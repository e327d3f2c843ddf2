"""Parts in one role, as data."""

from msgspec import Struct

from netcheck.core.circuit import Part

__all__ = ["PartPair"]


class PartPair(Struct, frozen=True):
    """Parts in the same role: mostly one and one; several on one side where ``replaces`` says so."""

    old: tuple[Part, ...]
    new: tuple[Part, ...]

    @property
    def is_unchanged(self) -> bool:
        """Whether one part is what the original has, word for word: most are, and nothing of them is held up."""
        if len(self.old) + len(self.new) != 2:
            return False
        old, new = self.old[0], self.new[0]
        return old.kind is new.kind and old.features == new.features
