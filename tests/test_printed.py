"""What is printed and written of whole small sets, word for word, in every format and by every command."""

import re
from pathlib import Path

import pytest

from netcheck.reports import FORMATS
from tests.printed import Case, cases, printed

CASES = list(cases())


@pytest.mark.parametrize("case", CASES, ids=[case.name for case in CASES])
def test_a_call_prints_what_it_is_marked_with(case: Case, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for name in ("CLICOLOR_FORCE", "FORCE_COLOR", "NO_COLOR"):
        monkeypatch.delenv(name, raising=False)
    for name, text in case.files:
        (tmp_path / name).write_text(text, encoding="utf-8")
    assert printed(case.call, tmp_path) == case.wanted


@pytest.mark.parametrize("case", CASES, ids=[case.name for case in CASES])
def test_what_is_not_known_is_no_number(case: Case) -> None:
    assert not re.search(r"\b(nan|inf|None)\b", case.wanted)


def test_no_call_is_kept_twice() -> None:
    assert len({case.name for case in CASES}) == len(CASES)


def test_every_format_is_written_by_a_call() -> None:
    """The text and the document for programs are what calls print; all others go to a file."""
    written = {word.partition(".")[2] for case in CASES for word in case.call.split()}
    assert {ending[1:] for ending in FORMATS} - {"txt", "json"} <= written
