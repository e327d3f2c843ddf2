"""Where in a TOML text each key stands, since the library that reads it does not say.

A key inside an inline table has the place of its line.
"""

import re
from collections.abc import Mapping

from msgspec import Struct

from netcheck.core.source import Place, Source

__all__ = ["KeyPath", "KeyPlaces", "spots"]

KeyPath = tuple[str | int, ...]
"""The keys from the top down; of an array of tables the index too."""

_BARE = r"""(?:[A-Za-z0-9_-]+|"[^"\n]*"|'[^'\n]*')"""
_DOTTED = rf"{_BARE}(?:\s*\.\s*{_BARE})*"
_HEADER = re.compile(rf"\s*(\[\[?)\s*({_DOTTED})\s*\]")
_PAIR = re.compile(rf"\s*({_DOTTED})\s*=\s*(.*?)\s*(?:#[^\"']*)?$")
_LONG = re.compile(r'"""|\'\'\'')


class KeyPlaces(Struct, frozen=True):
    """The places of a key and of the first line of its value; of a table its heading is both."""

    key: Place
    value: Place


def spots(source: Source) -> Mapping[KeyPath, KeyPlaces]:
    """The places of the tables and keys that begin a line of their own."""
    found: dict[KeyPath, KeyPlaces] = {}
    counts: dict[KeyPath, int] = {}
    table: KeyPath = ()
    in_long_text = False
    for number, start in enumerate(source.line_starts, 1):
        line = source.line_text(number)
        marks = len(_LONG.findall(line))
        if in_long_text:
            in_long_text = marks % 2 == 0
            continue
        in_long_text = marks % 2 == 1
        if head := _HEADER.match(line):
            table = _opened(head, counts)
            place = source.between(start + head.start(2), start + head.end(2))
            found[table] = KeyPlaces(place, place)
        elif pair := _PAIR.match(line):
            key, value = (source.between(start + pair.start(n), start + pair.end(n)) for n in (1, 2))
            found.setdefault((*table, *_keys(pair.group(1))), KeyPlaces(key, value))
    return found


def _opened(head: re.Match[str], counts: dict[KeyPath, int]) -> KeyPath:
    path = _keys(head.group(2))
    if head.group(1) == "[":
        return path
    counts[path] = counts.get(path, -1) + 1
    return (*path, counts[path])


def _keys(dotted: str) -> KeyPath:
    return tuple(part.strip("\"'") for part in re.findall(_BARE, dotted))
