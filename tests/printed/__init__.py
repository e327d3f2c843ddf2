"""Whole outputs: what a call prints of a small set, word for word, as somebody at the bench read it and found it right.

A file is one set: its netlists under their names, then calls, each with all that it prints and writes, and its status.
"""

import io
import re
from collections.abc import Iterator
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path

from msgspec import Struct

from netcheck import __version__
from netcheck.cli import main

__all__ = ["FENCE", "FOLDER", "Case", "cases", "printed"]

FOLDER = Path(__file__).parent
FENCE = re.compile(r"^~~~(\S+)\n(.*?)^~~~$", re.MULTILINE | re.DOTALL)
_CALL, _PRINTED = "call", "printed"


class Case(Struct, frozen=True):
    """One call of a set: its files by name, its words, and what it is to print."""

    name: str
    files: tuple[tuple[str, str], ...]
    call: str
    wanted: str


def cases(folder: Path = FOLDER) -> Iterator[Case]:
    """Every call of every set; a set's files come before its calls."""
    for path in sorted(folder.glob("*.md")):
        files: list[tuple[str, str]] = []
        call = ""
        for kind, text in FENCE.findall(path.read_text(encoding="utf-8")):
            if kind == _CALL:
                call = text.strip()
            elif kind == _PRINTED:
                yield Case(f"{path.stem}: {call}", tuple(files), call, text)
            else:
                files.append((kind, text))


def printed(call: str, folder: Path) -> str:
    """What a call says and writes in a folder, where its set's files are, and its status."""
    said = io.TextIOWrapper(io.BytesIO(), encoding="utf-8", newline="\n")
    words = call.split()
    before = _files(folder)
    with redirect_stdout(said), redirect_stderr(said):
        status = main(words)
    said.flush()
    out = said.buffer
    assert isinstance(out, io.BytesIO)
    text = out.getvalue().decode("utf-8")
    for path in sorted(_files(folder) - before):
        text += f"--- {path.relative_to(folder).as_posix()}\n{path.read_text(encoding='utf-8')}"
    return _steady(f"{text}=== {status}\n")


def _files(folder: Path) -> set[Path]:
    return {path for path in folder.rglob("*") if path.is_file()}


def _steady(text: str) -> str:
    """Without what another release, a style sheet or another machine's last digits change."""
    text = re.sub(r"(?<=sha256-)[\w+/]+=", "", text.replace(__version__, "VERSION"))
    text = re.sub(r"\n(\* \{|:root).*?(?=</style>)", "", text, flags=re.DOTALL)
    text = re.sub(r"(?<=<script>).*?(?=</script>)", "", text, flags=re.DOTALL)
    return re.sub(r"\d+\.\d{5,}(e-?\d+)?", lambda number: f"{float(number[0]):.4g}", text)
