"""Good netlists to start from: the samples, the trials, the cases of the rules."""

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

__all__ = ["NAMES", "State", "known", "words_of"]

ROOT = Path(__file__).parents[2]
NAMES = ("original.netck", "rewired.netck")

State = dict[str, str]
"""Files by their names: one is ``original.netck``; with a second, that is ``rewired.netck``."""

_FENCE = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_BASE = re.compile(r'^((?:start|parts) from) "[^"]*"', re.MULTILINE)
_TOKEN = re.compile(r'"[^"\n]*"|#[^\n]*|[^\s,:"]+|[,:]')


@cache
def known() -> tuple[State, ...]:
    """Every set, in an order that is the same on every machine."""
    return (*_samples(), *_trials(), *_cases())


@cache
def words_of() -> tuple[str, ...]:
    """What their lines are made of, each once, in the order of their text."""
    texts = (text for files in known() for text in files.values())
    return tuple(sorted({word for text in texts for word in _TOKEN.findall(text)}))


def _samples() -> Iterator[State]:
    for folder in sorted((ROOT / "samples").iterdir()):
        if folder.is_dir():
            original = _read(folder / "original.netck")
            for state in sorted(folder.glob("*.netck")):
                yield {NAMES[0]: original} if state.stem == "original" else _pair(original, _read(state))


def _trials() -> Iterator[State]:
    texts = {path.name: _read(path) for path in sorted((ROOT / "tests/trials").glob("*.netck"))}
    for text in texts.values():
        base = re.search(r'^(?:start|parts) from "([^"]*)"', text, re.MULTILINE)
        yield _pair(texts[base[1]], text) if base and base[1] in texts else {NAMES[0]: text}


def _cases() -> Iterator[State]:
    for path in sorted((ROOT / "tests/rules").glob("*.md")):
        for section in _read(path).split("\n## ")[1:]:
            blocks = dict(_FENCE.findall(section))
            if "state" in blocks:
                yield {NAMES[0]: blocks["state"]}
            elif "original" in blocks:
                yield _pair(blocks["original"], blocks["rewired"])


def _pair(original: str, rewired: str) -> State:
    """The second file starts from the first by the name that the first has here."""
    return {NAMES[0]: original, NAMES[1]: _BASE.sub(rf'\1 "{NAMES[0]}"', rewired)}


def _read(path: Path) -> str:
    return path.read_text(encoding="utf-8")
