"""One finding on a sheet: its number, its words, its picture beside or below them."""

from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.panel import Panel
from netcheck.reports.drawing.block import Block, paragraph, stacked
from netcheck.reports.drawing.lettering import spoken
from netcheck.reports.drawing.marks import FAINT, GREY
from netcheck.reports.drawing.panel import Drawn, drawn_panel
from netcheck.reports.drawing.scene import Box, Thing, Words, moved

__all__ = ["NUMBER", "finding_block", "has_picture", "number_square", "small_number"]

NUMBER = 22.0
_INSIDE = 7.0
_HEADLINE = 11.0
_BODY = 10.0
_WORDS = 160.0
_BETWEEN = 12.0
_LEAST_BESIDE = 460.0  # a narrower sheet has the picture below the words


def has_picture(panel: Panel | None) -> bool:
    """Whether a panel has more to show than values, which stand in the table."""
    return panel is not None and bool(panel.cards or panel.rows)


def finding_block(diagnostic: Diagnostic, number: int, room: float) -> Block:
    """The finding in a frame of the room's width."""
    inner = room - 2 * _INSIDE
    panel = diagnostic.panel
    column = NUMBER + 8
    if panel is None or not has_picture(panel):
        words = _words(diagnostic, inner - column)
        return _framed(number, _inner(diagnostic, number, words, (), words.height), room)
    below = _picture_below(diagnostic, number, panel, room)
    if room < _LEAST_BESIDE:
        return below
    space = inner - column - _WORDS - _BETWEEN
    drawn = drawn_panel(panel, space)
    if drawn.is_table or drawn.width > space:
        return below
    beside = _side_by_side(diagnostic, number, drawn, room)
    return beside if beside.height <= below.height else below


def _picture_below(diagnostic: Diagnostic, number: int, panel: Panel, room: float) -> Block:
    inner = room - 2 * _INSIDE
    drawn = drawn_panel(panel, inner)
    words = _words(diagnostic, inner - NUMBER - 8)
    top = max(words.height, NUMBER + 12) + 6
    left = 0.0 if drawn.is_table else max(0.0, (inner - drawn.width) / 2)
    picture = moved(drawn.things, left, top)
    return _framed(number, _inner(diagnostic, number, words, picture, top + drawn.height), room)


def _side_by_side(diagnostic: Diagnostic, number: int, drawn: Drawn, room: float) -> Block:
    words = _words(diagnostic, _WORDS)
    left = NUMBER + 8 + _WORDS + _BETWEEN
    space = room - 2 * _INSIDE - left
    height = max(words.height, NUMBER + 12, drawn.height)
    picture = moved(drawn.things, left + (space - drawn.width) / 2, (height - drawn.height) / 2)
    return _framed(number, _inner(diagnostic, number, words, picture, height), room)


def _inner(diagnostic: Diagnostic, number: int, words: Block, picture: tuple[Thing, ...], height: float) -> Block:
    square = number_square(number, diagnostic.grade)
    return Block(height, (*square, *moved(words.things, NUMBER + 8, 0.0), *picture))


def _words(diagnostic: Diagnostic, room: float) -> Block:
    headline = paragraph(spoken(diagnostic.headline, diagnostic.touched.nets), room, _HEADLINE, bold=True)
    return stacked([headline, paragraph(spoken(diagnostic.do), room, _BODY, colour="#222222")], gap=2.0)


def _framed(number: int, inner: Block, room: float) -> Block:
    height = max(inner.height, NUMBER + 12)
    frame = Box(0.5, 0.5, room - 1, height + 2 * _INSIDE - 1, "", FAINT, 0.8)
    return Block(height + 2 * _INSIDE, (frame, *moved(inner.things, _INSIDE, _INSIDE)), 7.0, number)


def number_square(number: int, grade: Grade) -> tuple[Thing, ...]:
    """The finding's number: white on black where the set must not be plugged in, black on white for what is less."""
    grave = grade.rank == 0
    ink = "white" if grave else "black"
    size = 12.0 if number < 100 else 9.0
    return (
        Box(0.5, 0.5, NUMBER - 1, NUMBER - 1, "black" if grave else "white", "black", 1.2),
        Words(NUMBER / 2, NUMBER / 2 + size * 0.36, str(number), size, bold=True, colour=ink, anchor="middle"),
        Words(NUMBER / 2, NUMBER + 9.5, grade.value, 9.0, colour=GREY, anchor="middle"),
    )


def small_number(number: int, grade: Grade) -> tuple[Thing, ...]:
    """The number and the grade in one line, for a row of a table."""
    grave = grade.rank == 0
    ink = "white" if grave else "black"
    wide = 15.0 if number < 100 else 20.0
    return (
        Box(0.5, 0.5, wide - 1, 14, "black" if grave else "white", "black", 1),
        Words(wide / 2, 11, str(number), 9.5, bold=True, colour=ink, anchor="middle"),
        Words(wide + 5, 11, grade.value, 9.0, colour=GREY),
    )
