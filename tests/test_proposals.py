"""What a message proposes to write is a line that is read: no advice leads to the next message."""

import re
from pathlib import Path

import pytest

from netcheck.core.diagnostic import Diagnostic
from netcheck.core.source import Source
from netcheck.language.examples import EXAMPLES
from netcheck.language.parser import parse
from tests.grammar_words import STATEMENT_WORDS
from tests.malformed import MALFORMED
from tests.paper import built, checked, compared
from tests.test_model_refusals import CASES as REFUSALS
from tests.test_rules import CASES, run_case
from tests.test_syntax import CASES as SLIPS

QUOTED = re.compile(r"`([^`]+)`")
SAMPLES = Path(__file__).parents[1] / "samples"


def proposals(told: Diagnostic) -> list[str]:
    """The back-quoted pieces of its advice that begin like a statement and say more than its first word."""
    pieces = QUOTED.findall(told.do)
    return [piece for piece in pieces if piece.split()[0] in STATEMENT_WORDS and len(piece.split()) > 1]


def unread(told: Diagnostic) -> list[str]:
    """Those that are not read; a blank before a unit (``... V``) is filled in with what the meter shows."""
    return [line for line in proposals(told) if parse(Source("proposal", line.replace("... ", "1 ")))[1]]


@pytest.mark.parametrize(("rule", "fences"), [(c[0], c[2]) for c in CASES], ids=[f"{c[0]}: {c[1]}" for c in CASES])
def test_what_a_rule_proposes_is_read(rule: str, fences: list[tuple[str, str]]) -> None:
    report = run_case(dict(fences))
    assert [line for told in report.diagnostics for line in unread(told)] == [], rule


@pytest.mark.parametrize("line", sorted({line for _, lines in MALFORMED for line in lines}))
def test_what_a_mistake_of_form_proposes_is_read(line: str) -> None:
    assert [text for told in parse(Source("x", line))[1] for text in unread(told)] == []


@pytest.mark.parametrize("text", [case[1] for case in SLIPS], ids=[case[0] for case in SLIPS])
def test_what_a_slip_proposes_is_read(text: str) -> None:
    assert [line for told in parse(Source("x", text))[1] for line in unread(told)] == []


@pytest.mark.parametrize(("text", "base"), [case[1:3] for case in REFUSALS], ids=[case[0] for case in REFUSALS])
def test_what_a_refused_line_proposes_is_read(text: str, base: str) -> None:
    _, problems = built(text, base=base)
    assert [text for told in problems for text in unread(told)] == []


WORDS = sorted(set(EXAMPLES))


@pytest.mark.parametrize("word", WORDS)
def test_what_is_said_of_half_a_line_is_read(word: str) -> None:
    pieces = EXAMPLES[word].split()
    halves = [" ".join(pieces[:n]) for n in range(1, len(pieces))]
    for half in halves:
        problems = parse(Source("x", half))[1] or built(f"{half}\n")[1]
        assert [text for told in problems for text in unread(told)] == [], half


@pytest.mark.parametrize("path", sorted(SAMPLES.glob("*/*.netck")), ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_what_is_said_of_a_sample_is_read(path: Path) -> None:
    original = (path.parent / "original.netck").read_text("utf-8")
    text = path.read_text("utf-8")
    report = checked(original) if path.stem == "original" else compared(original, text)
    assert [line for told in report.diagnostics for line in unread(told)] == []
