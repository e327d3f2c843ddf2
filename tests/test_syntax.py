"""Every malformed text of ``tests/syntax`` gives exactly the messages that stand below it."""

import re
from pathlib import Path

import pytest

from netcheck.core.source import Source
from netcheck.language.parser import parse
from netcheck.language.syntax_errors import MISTAKES
from tests.malformed import MALFORMED

CASE = re.compile(r"^## (.+)\n\n```netck\n((?:.*\n)*?)```\n\n```told\n((?:.*\n)*?)```$", re.MULTILINE)
FILES = sorted((Path(__file__).parent / "syntax").glob("*.md"))


def _cases() -> list[tuple[str, str, str]]:
    found: list[tuple[str, str, str]] = []
    for path in FILES:
        text = path.read_text(encoding="utf-8")
        cases = CASE.findall(text)
        assert len(cases) == text.count("## "), f"{path.name} has a case that is not of the form of the others"
        found.extend((f"{path.stem}: {title}", _with_characters(body), told) for title, body, told in cases)
    return found


def _with_characters(body: str) -> str:
    """The text of a case: characters that no editor shows are written as ``<U+001B>``."""
    return re.sub(r"<U\+([0-9A-F]{4,6})>", lambda m: chr(int(m[1], 16)), body.removesuffix("\n"))


CASES = _cases()


@pytest.mark.parametrize(("text", "told"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_the_messages_are_those_of_the_case(text: str, told: str) -> None:
    _, diagnostics = parse(Source("case.netck", text))
    lines = []
    for found in diagnostics:
        place = found.labels[0].place
        lines.append(f"{place.line}:{place.column} {found.rule}: {found.headline}\n    {found.do}\n")
    assert "".join(lines) == told


def test_no_two_cases_are_the_same_text() -> None:
    texts = [text for _, text, _ in CASES]
    assert len(texts) == len(set(texts))


LINES = [(headline, line) for headline, lines in MALFORMED for line in lines]


@pytest.mark.parametrize(("headline", "line"), LINES, ids=[line for _, line in LINES])
def test_each_malformed_line_is_told_by_its_own_row(headline: str, line: str) -> None:
    _, diagnostics = parse(Source("example.netck", line))
    pattern = re.sub(r"\\\{\w+\\\}", ".+", re.escape(headline))
    near = r"`.+` does not belong here" if "did you mean" in diagnostics[0].do else pattern
    assert [bool(re.fullmatch(near, d.headline)) for d in diagnostics] == [True]


def test_every_row_has_a_malformed_line() -> None:
    assert [headline for headline, _ in MALFORMED] == [row.headline for row in MISTAKES]


@pytest.mark.parametrize(
    "case",
    [case for case in CASES if re.search("^    write `[^`]+`$", case[2], re.MULTILINE)],
    ids=lambda case: case[0],
)
def test_what_a_message_says_to_write_can_be_read(case: tuple[str, str, str]) -> None:
    """Where the whole line is proposed, the proposal itself has no mistake of form."""
    for proposal in re.findall("^    write `([^`]+)`$", case[2], re.MULTILINE):
        if case[1].split()[0][:2] == proposal[:2]:
            assert parse(Source("proposal.netck", proposal))[1] == ()


@pytest.mark.parametrize(
    "case", [case for case in CASES if case[0].startswith("other-words")], ids=lambda case: case[0]
)
def test_a_line_in_other_words_is_proposed_as_one_that_is_read(case: tuple[str, str, str]) -> None:
    advice = "".join(line for line in case[2].splitlines() if line.startswith("    "))
    for proposal in (piece for piece in re.findall("`([^`]+)`", advice) if " " in piece):
        assert parse(Source("proposal.netck", proposal))[1] == (), proposal
