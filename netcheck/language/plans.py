"""Statements about what is to be: what the drawing would say, had it been drawn with the change."""

from msgspec import Struct

from netcheck.core.source import Place
from netcheck.language.leaves import Word

__all__ = ["Meant"]


class Meant(Struct, frozen=True, eq=False):
    """``meant NET: POINT, POINT``: what the drawing would list under that net, had it been drawn with the change."""

    place: Place
    name: Word
    points: tuple[Word, ...]
