"""What is told of a chassis with several things wrong, word for word: each finding in its order, and the last lines."""

import pytest

from tests.whole import cases, said

CASES = list(cases())
NAMES = [f"{file}: {title}" for file, title, *_ in CASES]


@pytest.mark.parametrize(("original", "rewired", "told"), [case[2:] for case in CASES], ids=NAMES)
def test_a_whole_report_says_what_it_is_marked_with(original: str, rewired: str, told: str) -> None:
    assert said(original, rewired) == told


def test_no_two_cases_are_of_one_chassis() -> None:
    assert len({case[2:4] for case in CASES}) == len(CASES)
    assert len({case[:2] for case in CASES}) == len(CASES)
