"""What recognising parts by structure comes to, as data."""

from msgspec import Struct

from netcheck.core.circuit import Part

__all__ = ["Recognised"]


class Recognised(Struct, frozen=True):
    """What was recognised.

    ``same`` says that the two states are the same throughout with these pairs, verified end by end;
    ``undecided`` are original parts that could not be told apart within the budget (their pairs are the best guess).
    """

    pairs: tuple[tuple[Part, Part], ...]
    same: bool = False
    undecided: tuple[Part, ...] = ()
