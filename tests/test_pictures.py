"""Each picture looks as it did when it was looked at: every thing of it, where it is and in which ink."""

import pytest

from tests.pictures import kept, made, titles

KEPT, TITLES = kept(), [*titles()]


@pytest.mark.parametrize("title", TITLES)
def test_a_picture_looks_as_it_is_kept(title: str) -> None:
    assert made(title) == KEPT[title]


def test_nothing_is_kept_of_what_is_not_drawn() -> None:
    assert [*KEPT] == TITLES
