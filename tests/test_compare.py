"""Each folder of ``tests/compare`` is a pair of states, and the lines that its comparison prints, word for word."""

from pathlib import Path

import pytest

from netcheck.reports import SCREENS, Style
from tests.paper import compared

CASES = sorted((Path(__file__).parent / "compare").iterdir())
# What compare.md lists as equal: each has a folder of its own.
EQUAL = {
    "nets-renamed", "another-order", "star-chain-bus", "other-lugs", "ends-swapped", "parallel-parts-exchanged",
    "old-and-new-units", "rectifier-plates", "electrode-or-pin", "heater-ends", "another-pin-of-the-electrode",
    "replaces", "intended-changes",
}  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda path: path.name)
def test_the_comparison_prints_what_is_expected(case: Path) -> None:
    report = compared(*(case.joinpath(f"{name}.netck").read_text(encoding="utf-8") for name in ("original", "rewired")))
    printed = SCREENS["lines"](report, Style())
    assert printed == case.joinpath("expected.txt").read_text(encoding="utf-8")
    assert (printed == "") is case.name.startswith("silent-")


def test_everything_that_is_equal_has_its_case() -> None:
    assert {case.name.removeprefix("silent-") for case in CASES if case.name.startswith("silent-")} >= EQUAL
