"""The pages of what keeps a netlist from being read: as they were read last, and their examples are what they say."""

import re
from pathlib import Path

import pytest

from netcheck.api import why
from netcheck.engine.mistakes import PAGES
from netcheck.reports.manual_page import MOST, manual_page
from tests.paper import built

WITH_EXAMPLES = [name for name, page in PAGES.items() if "\nWrong:\n" in page]


def test_they_are_printed_as_they_were_read_last() -> None:
    """Pages stand below their names; after a change put ``netcheck why NAME`` there and read it."""
    last = (Path(__file__).parent / "pages" / "mistakes.txt").read_text(encoding="utf-8")
    assert "\n".join(f"== {name}\n{manual_page(why(name), MOST).rstrip()}\n" for name in PAGES) == last


@pytest.mark.parametrize("name", WITH_EXAMPLES)
def test_the_wrong_example_is_told_by_this_name_and_the_right_one_is_read(name: str) -> None:
    wrong, right = re.findall(r"^(?:Wrong|Right):\n\n((?:    .+\n)+)", PAGES[name], re.MULTILINE)
    rules = [problem.rule for problem in built(re.sub(r"^ {4}", "", wrong, flags=re.MULTILINE))[1]]
    assert rules == [name]
    assert name not in [problem.rule for problem in built(re.sub(r"^ {4}", "", right, flags=re.MULTILINE))[1]]
