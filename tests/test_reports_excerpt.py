"""Excerpts: a long line is cut round its place, whatever stands in it."""

import time
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from netcheck.core.source import Source
from netcheck.core.visible import visible
from netcheck.reports.excerpt import Excerpt, cells, excerpt

LONG = "net B-: " + ", ".join(f"R{n}.2" for n in range(100))


def cut(text: str, start: int, end: int, room: int = 40) -> Excerpt:
    return excerpt(Source("x", text).between(start, end), room, visible, "…")


@pytest.mark.parametrize(
    ("start", "end", "expected"),
    [
        (4, 6, ("net ", "B-", ": R0.2, R1.2, R2.2, R3.2, R4.2, …")),
        (LONG.index("R50.2"), LONG.index("R50.2") + 5, ("…2, R48.2, R49.2, ", "R50.2", ", R51.2, R52.2, …")),
        (len(LONG) - 5, len(LONG), ("…4.2, R95.2, R96.2, R97.2, R98.2, ", "R99.2", "")),
        (4, 200, ("net ", "B-: R0.2, R1.2, R2.2, R3.2, R4.2, ", "…")),
        (300, 350, ("… R42.2, R", "43.2, R44.2, R45.2, R46.2, R4", "…")),
    ],
)
def test_window(start: int, end: int, expected: tuple[str, str, str]) -> None:
    piece = cut(LONG, start, end)
    assert (piece.before, piece.marked, piece.after) == expected
    assert cells(piece.text) <= 40


@given(st.text(st.characters(exclude_characters="\n"), min_size=1, max_size=300), st.data(), st.integers(20, 60))
def test_any_line_fits_and_marks_what_it_should(text: str, data: st.DataObject, room: int) -> None:
    start = data.draw(st.integers(0, len(text) - 1))
    piece = excerpt(Source("x", "\n" + text).between(start + 1, start + 2), room, visible, "…")
    assert cells(piece.text) <= room
    assert visible(piece.text) == piece.text
    line_end = len(text.rstrip("\r"))
    expected = "" if start >= line_end else "    " if text[start] == "\t" else visible(text[start])
    assert piece.marked == expected


@given(st.text(st.characters(min_codepoint=32, max_codepoint=126), min_size=1, max_size=60), st.data())
def test_a_plain_line_that_fits_is_shown_as_it_is(text: str, data: st.DataObject) -> None:
    start = data.draw(st.integers(0, len(text)))
    stop = data.draw(st.integers(start, len(text)))
    piece = excerpt(Source("x", f"\n{text}\nmore").between(start + 1, stop + 1), 60, visible, "…")
    assert (piece.before, piece.marked, piece.after) == (text[:start], text[start:stop], text[stop:])


def test_wide_and_combining_signs_take_their_columns() -> None:
    assert cells("真空管") == 6
    assert cells("\N{FULLWIDTH LATIN CAPITAL LETTER A}b") == 3
    assert cells(unicodedata.normalize("NFD", "é")) == 1


def test_a_very_long_line_costs_no_time() -> None:
    text = "x" * 5_000_000
    before = time.process_time()
    assert cut(text, 2_500_000, 2_500_003).marked == "xxx"
    assert time.process_time() - before < 5, "the whole line was laid out"
