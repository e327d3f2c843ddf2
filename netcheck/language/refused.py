"""Characters that can't be read: where they are, and what to say of them."""

import re
import unicodedata

from netcheck.core.diagnostic import Flaw

__all__ = ["first_refused", "refusal"]

# Line separators, direction overrides and lone surrogates deceive wherever they stand, in comments too.
_NOWHERE = re.compile(
    r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufeff\ufffe\uffff]"
    r"|\r(?!\n|\Z)"
)
# Outside of texts and comments: ASCII, Latin letters as in a grammar's NAME, and what values are written with.
_OUTSIDE = re.compile(
    r'"[^"\n]*"|#[^\n]*'
    r"|([^\t\r\n\x20-\x7e\u00c0-\u00d6\u00d8-\u00f6\u00f8-\u017e\u00b5\u03a9\u00bd\u00bc\u00be])"
)

_REMEDIES = (
    ("\u201c\u201d\u201e\u201f\u00ab\u00bb\u2018\u2019\u201a\u201b\u2032\u2033", 'use the straight " key'),
    ("\u2010\u2011\u2012\u2013\u2014\u2015", "use the - key"),
    ("\u1680", "use the space bar"),
)
_CONTROLS = {
    0x00: "null", 0x07: "bell", 0x08: "backspace", 0x0B: "vertical tab", 0x0C: "form feed",
    0x0D: "carriage return", 0x1A: "substitute", 0x1B: "escape", 0x7F: "delete", 0x85: "next line",
}  # fmt: skip


def first_refused(text: str, start: int, end: int) -> int:
    """The offset of the first refused character of a physical line; -1 where there is none.

    ``end`` is the offset of the line's ending, which is looked at too: a carriage return may stand before it.
    """
    nowhere = _NOWHERE.search(text, start, end + 1)
    outside = next((m for m in _OUTSIDE.finditer(text, start, end) if m[1]), None)
    return min((m.start() for m in (nowhere, outside) if m), default=-1)


def refusal(character: str) -> Flaw:
    """What is said of a refused character: its number and name, and the key to press instead."""
    code = ord(character)
    name = unicodedata.name(character, "").lower() or _CONTROLS.get(code, "control character")
    if 0xD800 <= code <= 0xDFFF:  # the surrogates
        name = "half of a character"
    return Flaw(f"`U+{code:04X} {name}` can't be read here", _remedy(character))


def _remedy(character: str) -> str:
    for family, remedy in _REMEDIES:
        if character in family:
            return remedy
    plain = unicodedata.normalize("NFKC", character)
    if unicodedata.category(character)[0] in "CZ":
        return "use the space bar" if plain == " " else "delete it; most editors can show it"
    if len(plain) == 1 and plain.isascii() and plain != character:
        return f"use the {plain} key"
    names = "names are made of Latin letters, digits and . + - / _"
    return names if character.isascii() else f"{names}; other writing can stand in quotes or in a comment"
