"""A place with the source line round it, cut to a width, as data that any format can lay out."""

import unicodedata
from collections.abc import Callable

from msgspec import Struct

from netcheck.core.source import Place

__all__ = ["Excerpt", "cells", "excerpt"]

_TAB = "    "


class Excerpt(Struct, frozen=True):
    """The line of a place in three printable pieces; ``marked`` is what to underline.

    ``line`` is 0 where the place is the file as such; ``last_line`` differs where the place goes on over
    several lines, of which only the first is shown.
    """

    name: str
    line: int
    last_line: int
    before: str = ""
    marked: str = ""
    after: str = ""

    @property
    def text(self) -> str:
        """The line as shown."""
        return self.before + self.marked + self.after


def cells(text: str) -> int:
    """How many columns of a terminal the text takes."""
    if text.isascii():
        return len(text)
    return sum(_cells_of(sign) for sign in text)


def excerpt(place: Place, room: int, show: Callable[[str], str], gap: str) -> Excerpt:
    """The place's line in at most ``room`` columns; ``show`` makes a text printable, ``gap`` stands where it is cut."""
    source = place.source
    name = show(source.name)
    if place.start == place.end == 0:
        return Excerpt(name, 0, 0)
    line, last_line = place.line, source.line_of(max(place.start, place.end - 1))
    begin, said = source.line_starts[line - 1], source.line_text(line)
    end = begin + len(said)
    start, stop = min(place.start, end), min(place.end, end)
    if len(said) <= room and said.isascii() and show(said) == said:  # as most lines are
        marked = slice(start - begin, max(stop, start) - begin)
        return Excerpt(name, line, last_line, said[: marked.start], said[marked], said[stop - begin :])
    # Each code point takes at least no column, so the cut is made generously first and exactly after.
    low, high = max(begin, start - room), min(end, start + 2 * room)
    pieces = [_printable(sign, show) for sign in source.text[low:high]]
    left, inner, right = pieces[: start - low], pieces[start - low : max(stop, start) - low], pieces[stop - low :]
    cut = (low > begin, high < end)
    return Excerpt(name, line, last_line, *_window((left, inner, right), room, gap, cut))


def _window(
    parts: tuple[list[str], list[str], list[str]], room: int, gap: str, cut: tuple[bool, bool]
) -> tuple[str, str, str]:
    """The three parts shortened round the middle one so that they fit."""
    left, inner, right = parts
    if not any(cut) and sum(cells(piece) for part in parts for piece in part) <= room:
        return "".join(left), "".join(inner), "".join(right)
    free = max(room - 2 * cells(gap), 1)
    kept = _fitting(inner, free - min(cells("".join(left)), free // 4))
    free -= cells("".join(kept))
    whole = len(kept) == len(inner)
    after = _fitting(right, free // 2) if whole else []
    before = _fitting(left[::-1], free - cells("".join(after)))[::-1]
    if whole and len(before) == len(left):
        after = _fitting(right, free - cells("".join(before)))
    front = gap if len(before) < len(left) or cut[0] else ""
    back = gap if not whole or len(after) < len(right) or cut[1] else ""
    return front + "".join(before), "".join(kept), "".join(after) + back


def _fitting(pieces: list[str], room: int) -> list[str]:
    """The first pieces that fit together."""
    used = 0
    for index, piece in enumerate(pieces):
        used += cells(piece)
        if used > room:
            return pieces[:index]
    return pieces


def _printable(sign: str, show: Callable[[str], str]) -> str:
    return _TAB if sign == "\t" else show(sign)


def _cells_of(sign: str) -> int:
    if unicodedata.combining(sign):
        return 0
    return 2 if unicodedata.east_asian_width(sign) in "WF" else 1
