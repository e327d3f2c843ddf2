"""Text in a picture: shortened, and wrapped by its width in Arial."""

import re
import unicodedata
from collections.abc import Collection, Iterator, Sequence

from netcheck.core.visible import visible

__all__ = [
    "LONGEST_NAME",
    "MINUS",
    "NAME",
    "SMALL",
    "advance",
    "brief",
    "label",
    "leading",
    "natural",
    "spoken",
    "wrapped",
]

LONGEST_NAME = 26
NAME, SMALL = 11.0, 9.0  # sizes in points: of the names of parts, and of what stands at their lugs and leads
MINUS = "\N{MINUS SIGN}"

# Advance widths of Arial in thousandths of the size, from U+0020 to U+007E, plain and bold (its `hmtx` table;
# Helvetica and the metric-compatible fonts agree). The test compares them with what the engine measures.
_ADVANCES = (
    *(278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278),
    *(556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556),
    *(1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778),
    *(667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556),
    *(333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556),
    *(556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584),
)
_BOLD_ADVANCES = (
    *(278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278),
    *(556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611),
    *(975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778),
    *(667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556),
    *(333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611),
    *(611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584),
)
# Engines measure with the fonts they find; a table that is too small for its text draws a warning.
_MARGIN = 1.06
# Other signs are guessed to be wide: letters with accents, Greek; then symbols and Chinese characters.
_LETTER = 750
_WIDEST = 1020
_PUNCTUATION = 0x2000


def natural(text: str, size: float, *, bold: bool = False) -> float:
    """How wide Arial sets a text, in points; a picture's words are given this length whatever the font."""
    table = _BOLD_ADVANCES if bold else _ADVANCES
    return sum(_thousandths(sign, table) for sign in text) * size / 1000


def advance(text: str, size: float, *, bold: bool = False) -> float:
    """The width to allow for a text, in points."""
    return natural(text, size, bold=bold) * _MARGIN


def leading(size: float) -> float:
    """From base line to base line, in points."""
    return round(size * 1.32, 1)


def _thousandths(sign: str, table: Sequence[int]) -> int:
    place = ord(sign) - ord(" ")
    if 0 <= place < len(table):
        return table[place]
    if unicodedata.combining(sign):
        return 0
    return _LETTER if ord(sign) < _PUNCTUATION or sign == MINUS else _WIDEST


def label(text: str) -> str:
    """A lead's or lug's label: the minus as long as the plus."""
    return MINUS if text == "-" else brief(text)


def brief(text: str, most: int = LONGEST_NAME) -> str:
    """A name as it stands in a picture: what can't be seen made visible, a long one shortened in its middle."""
    seen = visible(text)
    if len(seen) <= most:
        return seen
    kept = most - 1
    return f"{seen[: kept // 2]}…{seen[-(kept - kept // 2) :]}"


def spoken(text: str, names: Collection[str] = ()) -> str:
    """A message as a sentence of the picture: no backticks, and a capital unless it begins with a user's word.

    ``names`` are the user's words that stand without backticks.
    """
    plain = text.replace("`", "")
    own = text.startswith("`") or any(plain.startswith(f"{name} ") for name in names)
    return plain if own else plain[:1].upper() + plain[1:]


def wrapped(text: str, width: float, size: float, *, bold: bool = False, most: int = 6) -> tuple[str, ...]:
    """The text in lines of at most ``width`` points; what does not go into ``most`` lines ends in an ellipsis."""
    lines: list[str] = []
    for word in _pieces(visible(text), width, size, bold=bold):
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and advance(joined, size, bold=bold) <= width:
            lines[-1] = joined
        else:
            lines.append(word)
    if len(lines) > most:
        lines = [*lines[: most - 1], f"{lines[most - 1][:-1]}…"]
    return tuple(lines)


def _pieces(text: str, width: float, size: float, *, bold: bool) -> Iterator[str]:
    """The words, those wider than a line cut into such as are not."""
    for word in re.split(r"\s+", text.strip()):
        piece = ""
        for sign in word:
            if piece and advance(piece + sign, size, bold=bold) > width:
                yield piece
                piece = ""
            piece += sign
        if piece:
            yield piece
