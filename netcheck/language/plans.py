"""Statements about what is to be: what the drawing would say, had it been drawn with the change."""

from dataclasses import dataclass

from netcheck.core.source import Place
from netcheck.language.leaves import Word

__all__ = ["Meant"]


@dataclass(frozen=True, eq=False)
class Meant:
    """``meant NET: POINT, POINT``: what the drawing would list under that net, had it been drawn with the change."""

    place: Place
    name: Word
    points: tuple[Word, ...]
