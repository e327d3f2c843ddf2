"""Statements about where a thing sits on the chassis."""

from msgspec import Struct

from netcheck.core.source import Place
from netcheck.language.leaves import Word

__all__ = ["Stand"]


class Stand(Struct, frozen=True, eq=False):
    """``place SP1 120 85 mm turned``: how far from the left and from the back edge, as written, each with its unit."""

    place: Place
    name: Word
    right: Word
    right_unit: Word | None
    front: Word
    front_unit: Word | None
    turned: bool
