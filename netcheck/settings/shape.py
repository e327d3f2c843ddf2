"""The keys that settings have, and what each may hold; `netcheck.schema.json` says the same to editors."""

import re
from collections.abc import Callable, Mapping

from msgspec import Struct

from netcheck.core.settings import MARK, STATES

__all__ = ["ACCEPT", "CHASSIS", "NAME", "TOP", "Key"]

NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*")
"""A chassis's name becomes part of file names."""

_INSIDE = re.compile(r"(?:(?!\.{1,2}/)[^/\\:]+/)*(?!\.{1,2}$)[^/\\:]+")


class Key(Struct, frozen=True):
    """What a key may hold, in words and as a test."""

    words: str
    fits: Callable[[object], bool]
    needed: bool = False


def _is_path(value: object) -> bool:
    """Whether a path leads to a file inside of the settings' folder, as it is written."""
    return isinstance(value, str) and value.isprintable() and _INSIDE.fullmatch(value) is not None


def _are_paths(value: object) -> bool:
    return isinstance(value, list) and all(map(_is_path, value))


def _are_own_paths(value: object) -> bool:
    return isinstance(value, list) and all(_is_path(path) and MARK in path for path in value)


def _is_text(value: object) -> bool:
    return isinstance(value, str) and value.strip() != ""


_PATH = Key("a path from this folder, with / between folder and file", _is_path)
_STRICT = Key("true or false", lambda value: isinstance(value, bool))

TOP: Mapping[str, Key] = {
    "strict": _STRICT,
    "outputs": Key("a list of files to write, inside of this folder", _are_paths),
    "chassis": Key("tables, one a chassis: `[chassis.NAME]`", lambda value: isinstance(value, dict), needed=True),
}
CHASSIS: Mapping[str, Key] = {
    **dict.fromkeys(STATES, _PATH),
    "strict": _STRICT,
    "outputs": Key(f"a list of files to write, each with `{MARK}` in its path", _are_own_paths),
    "accept": Key("tables, one a finding: `[[chassis.NAME.accept]]`", lambda value: isinstance(value, list)),
}
ACCEPT: Mapping[str, Key] = {
    "rule": Key("the rule of a finding, as it stands in brackets behind it", _is_text, needed=True),
    "name": Key("the part, lead or net that the finding names", _is_text, needed=True),
    "reason": Key("why it is all right", _is_text, needed=True),
}
