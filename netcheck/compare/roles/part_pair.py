"""Parts in one role, and what recognising them by structure comes to, as data."""

from msgspec import Struct

from netcheck.core.circuit import Part

__all__ = ["PartPair", "Recognised"]


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


class Recognised(Struct, frozen=True):
    """What was recognised.

    ``same`` says that the two states are the same throughout with these pairs, verified end by end;
    ``undecided`` are original parts that could not be told apart within the budget (their pairs are the best guess).
    """

    pairs: tuple[tuple[Part, Part], ...]
    same: bool = False
    undecided: tuple[Part, ...] = ()
