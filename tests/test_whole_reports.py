"""What is told of a chassis with several things wrong, word for word: each finding in its order, and the last lines."""

from collections.abc import Iterator

import pytest
from msgspec import Struct

from netcheck.core.diagnostic import Grade
from tests.paper import ORIGINAL, REWIRED, compared
from tests.whole import cases, said

CASES = list(cases())
NAMES = [f"{file}: {title}" for file, title, *_ in CASES]


@pytest.mark.parametrize(("original", "rewired", "told"), [case[2:] for case in CASES], ids=NAMES)
def test_a_whole_report_says_what_it_is_marked_with(original: str, rewired: str, told: str) -> None:
    assert said(original, rewired) == told


@pytest.mark.parametrize(("original", "rewired"), [case[2:4] for case in CASES], ids=NAMES)
def test_what_is_told_is_of_the_two_files_and_only_a_stop_burns(original: str, rewired: str) -> None:
    told = compared(original, rewired).diagnostics
    assert {label.place.source.name for d in told for label in d.labels} <= {ORIGINAL, REWIRED}
    assert {d.grade for d in told if d.burns} <= {Grade.STOP}


def test_no_two_cases_are_of_one_chassis() -> None:
    assert len({case[2:4] for case in CASES}) == len(CASES)
    assert len({case[:2] for case in CASES}) == len(CASES)


def test_what_the_comparison_hands_on_can_be_changed_by_nobody() -> None:
    """Stages share their records: one that changed hers would change what an earlier one has told."""
    original, rewired = CASES[0][2:4]
    said(original, rewired)
    records = [found for found in _records(Struct) if found.__module__.startswith("netcheck.compare.")]
    assert records
    assert [found.__qualname__ for found in records if not found.__struct_config__.frozen] == []


def _records(kind: type[Struct]) -> Iterator[type[Struct]]:
    for inner in kind.__subclasses__():
        yield inner
        yield from _records(inner)
