"""A line that does not parse, as the table of mistakes looks at it."""

import re
from collections.abc import Iterable
from functools import cached_property
from itertools import pairwise

from msgspec import Struct

from netcheck.language.lines import LAMP

__all__ = ["LineToken", "Situation"]

_MARK = re.compile(r'"[^"\n]*"|[,:]|[^ \t\r\n,:"]+')
_COMMENT = re.compile(r'"[^"\n]*"|(#[^\n]*|")')
_WIDEST = 100


class LineToken(Struct, frozen=True):
    """A word, a text, a comma or a colon of the line, by offsets in it; an empty one is the line's end."""

    text: str
    start: int
    end: int

    @property
    def is_word(self) -> bool:
        """Neither a text nor punctuation nor the end."""
        return self.text[:1] not in ("", '"', ",", ":")

    @property
    def is_number(self) -> bool:
        """A word that begins like a number."""
        return self.text.lstrip("+-.")[:1].isdigit()


class Situation(Struct, frozen=True, dict=True):
    """The line's text, where the parser stopped in it, and the terminals that it could have gone on with."""

    text: str
    at: int
    expected: frozenset[str]

    @cached_property
    def marks(self) -> tuple[LineToken, ...]:
        """The words and signs of the line without its comments."""
        return tuple(LineToken(m[0], m.start(), m.end()) for m in _MARK.finditer(_uncommented(self.text)))

    @cached_property
    def index(self) -> int:
        """Which mark the parser stopped at; one past the last at the end of the line."""
        return next((i for i, mark in enumerate(self.marks) if mark.end > self.at), len(self.marks))

    @property
    def first(self) -> str:
        """The first word."""
        return self.marks[0].text

    @property
    def here(self) -> LineToken:
        """The mark that does not fit."""
        return self._mark(self.index)

    @property
    def before(self) -> LineToken:
        """The mark before the one that does not fit."""
        return self._mark(max(self.index - 1, 0))

    @property
    def after(self) -> LineToken:
        """The mark after the one that does not fit."""
        return self._mark(self.index + 1)

    def last_of(self, words: Iterable[str]) -> LineToken | None:
        """The last of some words before the place where the parser stopped."""
        wanted = frozenset(words)
        return next((mark for mark in reversed(self.marks[: self.index]) if mark.text in wanted), None)

    def with_inserted(self, at: int, addition: str, until: int | None = None) -> str:
        """The line with an addition (in place of what stands ``until`` there), fit for a message."""
        return _tidy(self.text[:at] + addition + self.text[at if until is None else until :])

    def with_commas(self, clause_words: Iterable[str]) -> str:
        """The line with each comma that is missing between names from here on, fit for a message."""
        stops = frozenset(clause_words)
        changed = self.text
        for left, right in reversed(tuple(pairwise(self.marks[self.index - 1 :]))):
            if left.is_word and right.is_word and not stops & {left.text, right.text}:
                changed = f"{changed[: left.end]},{changed[left.end :]}"
        return _tidy(changed)

    def _mark(self, index: int) -> LineToken:
        end = len(self.text)
        return self.marks[index] if index < len(self.marks) else LineToken("", end, end)


def _tidy(text: str) -> str:
    """A statement on one line without comments; empty where it is too long for a message."""
    line = " ".join(_uncommented(text).split())
    return line if len(line) <= _WIDEST else ""


def _uncommented(text: str) -> str:
    """The line with blanks for its comments, and for a quote that is not closed; a lamp's number begins none."""
    lamp = LAMP.match(text)
    begin = lamp.end() if lamp else 0
    return text[:begin] + _COMMENT.sub(lambda m: " " * len(m[0]) if m[1] else m[0], text[begin:])
