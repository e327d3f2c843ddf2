"""The page for `man`, in the macros of man(7)."""

import inspect
from collections.abc import Iterator, Sequence

from msgspec import Struct

__all__ = ["AS_IT_IS", "Entry", "man_page"]

AS_IT_IS = "\b"
"""Begins a paragraph whose lines no help and no page breaks, for a line to copy; click's sign for it."""


class Entry(Struct, frozen=True):
    """A command: how it is called, what it does, and its options with what each is for."""

    usage: str
    text: str
    options: tuple[tuple[str, str], ...]


_FILES = (
    ("netcheck.toml", "The chassis of a repository, looked for in the working folder and above."),
    ("*.netck", "A list: a circuit as drawn, or a chassis as it is. `netcheck why language` has all of it."),
)
_ENVIRONMENT = (
    ("NETCHECK_ENGINE", "The drawing engine for .png."),
    ("CLICOLOR_FORCE, FORCE_COLOR, NO_COLOR", "Whether text is coloured, the strongest first."),
)


def man_page(version: str, text: str, entries: Sequence[Entry]) -> str:
    """The page, without a date: the same program gives the same page."""
    return "\n".join(_lines(version, text, entries)) + "\n"


def _lines(version: str, text: str, entries: Sequence[Entry]) -> Iterator[str]:
    yield f'.TH NETCHECK 1 "" "netcheck {version}" "User Commands"'
    yield from (".SH NAME", "netcheck \\- compares two lists of a tube set, as drawn and as rewired")
    yield from (".SH SYNOPSIS", ".B netcheck", ".I command", "[options] [files]")
    yield from (".SH DESCRIPTION", *_paragraphs(text))
    yield ".SH COMMANDS"
    for entry in entries:
        yield from (f".SS netcheck {_safe(entry.usage)}", *_paragraphs(entry.text), *_points(entry.options))
    yield from (".SH FILES", *_points(_FILES), ".SH ENVIRONMENT", *_points(_ENVIRONMENT))


def _paragraphs(text: str) -> Iterator[str]:
    for number, block in enumerate(inspect.cleandoc(text).split("\n\n")):
        if number:
            yield ".PP"
        if block.startswith(AS_IT_IS):
            yield from (".nf", *map(_safe, block.removeprefix(AS_IT_IS).strip("\n").split("\n")), ".fi")
        else:
            yield _safe(" ".join(block.split()))


def _points(rows: Sequence[tuple[str, str]]) -> Iterator[str]:
    for name, text in rows:
        yield from (".TP", f".B {_safe(name)}", _safe(" ".join(text.split())))


def _safe(text: str) -> str:
    """Words that are no macro, with the hyphens of options as they are typed."""
    plain = text.replace("\\", "\\e").replace("-", "\\-")
    return f"\\&{plain}" if plain.startswith((".", "'")) else plain
