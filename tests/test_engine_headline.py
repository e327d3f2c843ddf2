"""A headline fits its line: the first way to say it that does, and the last one cut where none does."""

import pytest

from netcheck.engine.headline import HEADLINE, fitting


@pytest.mark.parametrize("length", [1, HEADLINE - 1, HEADLINE])
def test_what_fits_is_said_whole_and_first(length: int) -> None:
    assert fitting("x" * length, "short") == "x" * length


def test_the_next_way_is_taken_where_the_first_is_too_long() -> None:
    assert fitting("x" * (HEADLINE + 1), "y" * (HEADLINE + 1), "z" * HEADLINE, "short") == "z" * HEADLINE


@pytest.mark.parametrize("length", [HEADLINE + 1, 200])
def test_where_no_way_fits_the_last_keeps_its_beginning_and_its_end(length: int) -> None:
    last = "".join(chr(0x4E00 + at) for at in range(length))
    said = fitting("x" * 300, last)
    begin, gap, end = said.partition("...")
    assert gap
    assert last.startswith(begin)
    assert last.endswith(end)
    assert len(begin) == len(end)
    assert HEADLINE - 2 <= len(said) <= HEADLINE
