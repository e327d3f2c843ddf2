"""What recognising parts by structure comes to, as data."""

from dataclasses import dataclass

from netcheck.core.circuit import Part

__all__ = ["Recognised"]


@dataclass(frozen=True, slots=True)
class Recognised:
    """What was recognised.

    ``same`` says that the two states are the same throughout with these pairs, verified end by end;
    ``undecided`` are original parts that could not be told apart within the budget (their pairs are the best guess).
    """

    pairs: tuple[tuple[Part, Part], ...]
    same: bool = False
    undecided: tuple[Part, ...] = ()
