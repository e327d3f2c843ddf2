"""The kinds of part, one module each, which is loaded by the kind's word; a new kind takes its place here."""

from collections.abc import Iterator, Mapping
from functools import cache
from importlib import import_module

from netcheck.core.kind import PartKind
from netcheck.parts.tube import SOCKET

__all__ = ["KINDS", "SOCKET"]

# In the order of the language's manual page.
_WORDS = (
    "resistor",
    "candohm",
    "capacitor",
    "electrolytic",
    "can",
    "section",
    "coil",
    "choke",
    "transformer",
    "selenium",
    "diode",
    "tube",
    "pot",
    "rheostat",
    "switch",
    "lamp",
    "fuse",
    "battery",
    "speaker",
    "cord",
    "strip",
    "lug",
    "plug",
    "network",
)


class _Kinds(Mapping[str, PartKind]):
    """Every kind by its word. A file has parts of few kinds: what is not asked for is not loaded."""

    def __getitem__(self, word: str) -> PartKind:
        if word not in _WORDS:
            raise KeyError(word)
        return _kind(word)

    def __iter__(self) -> Iterator[str]:
        return iter(_WORDS)

    def __len__(self) -> int:
        return len(_WORDS)


@cache
def _kind(word: str) -> PartKind:
    kind: PartKind = import_module(f"{__name__}.{word}").KIND
    return kind


KINDS = _Kinds()
