"""Slips in a text: of bytes, of words and of lines."""

import re
from collections.abc import Callable, Sequence
from random import Random

from tests.fuzz.extremes import NAMES, NUMBERS, QUANTITIES, SIGNS, TEXTS

__all__ = ["slipped"]

_PIECE = re.compile(r'"[^"\n]*"|[^\s,:"]+|[,:]|\s+')
_NUMBER = re.compile(r"(?<=\s)-?\.?[0-9][0-9.]*(?= ?[a-zA-Z%])")
_Slip = Callable[[str, Sequence[str], Random], str]

_MOST = 6
"""Slips in one text."""

_REPEATS = (2, 8, 60)


def slipped(text: str, words: Sequence[str], dice: Random) -> str:
    """The text with a few slips in it; ``words`` are what else may stand there."""
    for _ in range(dice.choice((1, 1, 1, 2, 3, _MOST))):
        slip: _Slip = dice.choice(_SLIPS)
        text = slip(text, words, dice)
    return text


def _sign(text: str, _: Sequence[str], dice: Random) -> str:
    at = dice.randint(0, len(text))
    return text[:at] + dice.choice(SIGNS) + text[at + dice.choice((0, 0, 1)) :]


def _lost(text: str, _: Sequence[str], dice: Random) -> str:
    at = dice.randint(0, len(text))
    return text[:at] + text[at + dice.choice((1, 1, 2, 10)) :]


def _byte(text: str, _: Sequence[str], dice: Random) -> str:
    data = bytearray(text.encode("utf-8", "surrogateescape") or b" ")
    data[dice.randrange(len(data))] = dice.randrange(256)
    return bytes(data).decode("utf-8", "surrogateescape")


def _word(text: str, words: Sequence[str], dice: Random) -> str:
    pieces = _PIECE.findall(text) or [""]
    at = dice.randrange(len(pieces))
    pieces[at] = _other(pieces, words, dice)
    return "".join(pieces)


def _other(pieces: Sequence[str], words: Sequence[str], dice: Random) -> str:
    every: tuple[Sequence[str], ...] = (words, NAMES, QUANTITIES, TEXTS, pieces, pieces)
    return dice.choice(dice.choice(every))


def _number(text: str, _: Sequence[str], dice: Random) -> str:
    """Another number before the same unit."""
    found = list(_NUMBER.finditer(text))
    if not found:
        return text
    hit = dice.choice(found)
    return text[: hit.start()] + dice.choice(NUMBERS) + text[hit.end() :]


def _exchanged(text: str, _: Sequence[str], dice: Random) -> str:
    pieces = _PIECE.findall(text) or [""]
    one, other = dice.randrange(len(pieces)), dice.randrange(len(pieces))
    pieces[one], pieces[other] = pieces[other], pieces[one]
    return "".join(pieces)


def _line_again(text: str, _: Sequence[str], dice: Random) -> str:
    lines = text.split("\n")
    at = dice.randrange(len(lines))
    lines[at:at] = [lines[dice.randrange(len(lines))]] * dice.choice(_REPEATS)
    return "\n".join(lines)


def _line_lost(text: str, _: Sequence[str], dice: Random) -> str:
    lines = text.split("\n")
    del lines[dice.randrange(len(lines))]
    return "\n".join(lines)


def _line_moved(text: str, _: Sequence[str], dice: Random) -> str:
    lines = text.split("\n")
    line = lines.pop(dice.randrange(len(lines)))
    lines.insert(dice.randint(0, len(lines)), line)
    return "\n".join(lines)


def _lines_joined(text: str, _: Sequence[str], dice: Random) -> str:
    lines = text.split("\n")
    at = dice.randrange(len(lines))
    lines[at : at + 2] = [dice.choice((" ", ",\n  ", "\r", "")).join(lines[at : at + 2])]
    return "\n".join(lines)


_SLIPS: tuple[_Slip, ...] = (
    _sign, _lost, _byte, _word, _word, _word, _number, _number, _exchanged, _line_again, _line_lost,
    _line_moved, _lines_joined,
)  # fmt: skip
