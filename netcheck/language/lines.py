"""A text split into logical lines, each of which is parsed by itself."""

import re
from collections.abc import Collection, Iterator

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.diagnostic import Flaw
from netcheck.language.characters import has_suspects
from netcheck.language.near import near
from netcheck.language.slip import CHARACTER, PlacedFlaw, clipped

__all__ = ["LAMP", "LAMP_NUMBER", "LONGEST", "LogicalLine", "split"]

LONGEST = 20_000
"""Characters of a logical line; longer ones are refused before anything else looks at them."""

_BLANKS = re.compile(r"[ \t\r]*")
_CODE = re.compile(r'[^"#\n]*+(?:"[^"\n]*+"[^"#\n]*+)*+')
LAMP_NUMBER = re.compile(r"#[0-9]{2,4}[A-Z]{0,2}(?![^ \t\r\n,])")
"""The number on a lamp's base."""
LAMP = re.compile(rf"(?:lamp[ \t]+[^\s#]+|change[ \t]+[^\s#]+[ \t]+lamp)[ \t]+{LAMP_NUMBER.pattern}")
"""A lamp with its number, which would read as a comment."""
_UNKNOWN = re.compile(rf"([^\s,:\"#]+)(?:[ \t]+[^\s,:\"#]+)?[ \t]+{LAMP_NUMBER.pattern}")
"""A line with such a number whose first word may be meant for a lamp's."""
_INSIDE_A_WORD = re.compile(r"[^\s,:\"#]+#[^\s,:\"#]+")
"""A word that goes on behind its `#`."""
_FIRST = re.compile(r"[^ \t\r\n,:\"#]+")
_PLAIN = re.compile(r"([!$-~][\t !$-~]{0,1000}+)(?<![\t ,])\r?(?:\n|\Z)")
"""A line of ASCII from the margin on, with neither text nor comment, that does not go on: what most lines are."""


class LogicalLine(Struct, frozen=True):
    """A logical line from its first word to its last, in offsets; or what is wrong with it already."""

    start: int
    end: int
    slip: PlacedFlaw | None = None


class _Row(Struct, frozen=True):
    """A physical line: ``start`` is its first mark, ``end`` the end of what is neither comment nor blank."""

    begin: int
    start: int
    end: int
    comma: bool = False
    remark: bool = False
    slip: PlacedFlaw | None = None

    @property
    def empty(self) -> bool:
        return self.start == self.end

    @property
    def blank(self) -> bool:
        return self.empty and not self.remark

    @property
    def indented(self) -> bool:
        return self.start > self.begin


def split(text: str, first_words: Collection[str]) -> Iterator[LogicalLine]:
    """The logical lines that say something or have a refused character; blank ones and comments are left out."""
    known, suspects = frozenset(first_words), has_suspects(text)
    begin, size = 0, len(text)
    while begin < size:
        if plain := _PLAIN.match(text, begin):
            yield LogicalLine(begin, plain.end(1))
            begin = plain.end()
        else:
            line, begin = _line_at(text, begin, known, suspects=suspects)
            if line is not None:
                yield line


def _line_at(text: str, begin: int, known: frozenset[str], *, suspects: bool) -> tuple[LogicalLine | None, int]:
    """The logical line that begins there, None where nothing does, and where the next one may begin."""
    held: list[_Row] = []
    while begin < len(text):
        eol = text.find("\n", begin)
        eol = len(text) if eol < 0 else eol
        row = _row(text, begin, eol, known)
        if suspects:
            row = _without_refused(text, row, eol)
        if held and not row.empty and not _goes_on(text, row, held[-1], known):
            return _dangling(held), begin
        begin = eol + 1
        if row.empty and row.slip is None and not held:
            return None, begin
        waits = row.comma or (row.empty and bool(held))
        held.append(row)
        if not waits:
            return _whole(held), begin
    return _dangling(held), begin


def _goes_on(text: str, row: _Row, before: _Row, known: frozenset[str]) -> bool:
    """Whether the line goes on with what the comma before it announced, be it in a wrong way.

    An unindented line that begins like no statement is taken too, so that a forgotten indent is told once.
    """
    first = _FIRST.match(text, row.start, min(row.end, row.start + LONGEST))
    word = first[0] if first else ""
    if word in known:
        return False
    return row.indented or not (before.blank or near(word, known))


def _whole(rows: list[_Row]) -> LogicalLine:
    start, end = rows[0].start, rows[-1].end
    if len(rows) == 1:  # which has been measured
        return LogicalLine(start, end, rows[0].slip)
    slip = next((row.slip for row in rows if row.slip), None)
    if slip is None and any(row.blank or not (row.indented or row.remark) for row in rows[1:]):
        slip = _comma_slip(rows[0])
    if slip is None and end - start > LONGEST:
        slip = _too_long(start)
    return LogicalLine(start, end, slip)


def _dangling(rows: list[_Row]) -> LogicalLine:
    slip = next((row.slip for row in rows if row.slip), None)
    last = next(row for row in reversed(rows) if row.comma)
    return LogicalLine(rows[0].start, last.end, slip or _comma_slip(last))


def _comma_slip(row: _Row) -> PlacedFlaw:
    headline = "the line ends in a comma, but the next line does not go on with it"
    return PlacedFlaw(row.end - 1, row.end, Flaw(headline, "indent the next line, or take the comma away"))


def _too_long(start: int) -> PlacedFlaw:
    headline = f"a line of more than {LONGEST:,} characters can't be read"
    return PlacedFlaw(start, start + 1, Flaw(headline, "split it: a net or a place may be named on several lines"))


def _without_refused(text: str, row: _Row, eol: int) -> _Row:
    """The row, or what is wrong with it where a character of it can't be read."""
    from netcheck.language.refused import first_refused, refusal  # most files are plain ASCII

    at = first_refused(text, row.begin, eol)
    return row if at < 0 else replace(row, slip=PlacedFlaw(at, at + 1, refusal(text[at]), CHARACTER))


def _row(text: str, begin: int, eol: int, known: frozenset[str]) -> _Row:
    blank = _BLANKS.match(text, begin, eol)
    start = blank.end() if blank else begin
    if start == eol or text[start] == "#":
        return _Row(begin, start, start, remark=start < eol)
    if eol - start > LONGEST:
        return _Row(begin, start, eol, slip=_too_long(start))
    lamp = LAMP.match(text, start, eol) or _unknown(text, start, eol, known)
    code = _CODE.match(text, lamp.end() if lamp else start, eol)
    end = code.end() if code else eol
    if end < eol and text[end] == '"':
        flaw = Flaw("the quote is not closed on this line", 'write a second " where the text ends')
        return _Row(begin, start, start + len(text[start:eol].rstrip()), slip=PlacedFlaw(end, end + 1, flaw))
    slip = _comment_in_a_word(text, start, end, eol) if end < eol else None
    end = start + len(text[start:end].rstrip(" \t\r"))
    return _Row(begin, start, end, comma=text[end - 1] == ",", slip=slip)


def _unknown(text: str, start: int, eol: int, known: frozenset[str]) -> re.Match[str] | None:
    found = _UNKNOWN.match(text, start, eol)
    return None if found is None or found[1] in known else found


def _comment_in_a_word(text: str, start: int, end: int, eol: int) -> PlacedFlaw | None:
    """A comment that begins within a word takes half of it away, and nobody would see it."""
    word = max(text.rfind(sign, start, end) for sign in ' \t,:"') + 1
    inside = _INSIDE_A_WORD.match(text, max(word, start), eol)
    if inside is None:
        return None
    flaw = Flaw(
        f"{clipped(inside[0])} has a # in it, where a comment begins",
        "leave the # out of a name; before a comment, put a blank",
    )
    return PlacedFlaw(inside.start(), inside.end(), flaw)
