"""Which characters a netlist is written with, and how they are read."""

import re

__all__ = ["has_suspects", "legible"]

_ODD = re.compile(r"[^\t\n\x20-\x7e]")

_READ_AS = (("\u2212", "-"), ("\u03bc", "\u00b5"), ("\u2126", "\u03a9"))


def legible(text: str) -> str:
    """The text as the grammar reads it, character for character: one minus, one micro, one ohm sign."""
    if text.isascii():
        return text
    for written, read in _READ_AS:
        text = text.replace(written, read)
    return " " + text[1:] if text[0] == "\ufeff" else text


def has_suspects(text: str) -> bool:
    """Whether any character needs a second look."""
    return _ODD.search(text) is not None
