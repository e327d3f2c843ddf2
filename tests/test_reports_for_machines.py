"""The concise and the JSON report."""

import json
from dataclasses import replace
from typing import Any

import pytest

from netcheck.core.diagnostic import Diagnostic, Label, Severity, Touched
from netcheck.core.report import Allowed, Report
from netcheck.core.source import Place, Source
from netcheck.reports import FORMATS, Style

DRAWN = Source("sets/original.netck", "net B-: C52-\n")
REWIRED = Source("sets/rewired.netck", "\nat SP1.2: C52-,\n  R7.2\n")

WRONG = Diagnostic(
    "return-on-wrong-common",
    Severity.ERROR,
    "C52- is on SP1.2 (chassis); belongs on SP1.3 (B−)",  # noqa: RUF001 - a pasted minus sign
    (Label(Place(REWIRED, 11, 15), "here"), Label(Place(DRAWN, 8, 12))),
    "why",
    "move it",
    Touched(("C52-",), ("C52",), ("B-", "chassis")),
)
SLIP = Diagnostic("syntax", Severity.ERROR, "a comma is missing", (Label(Place(REWIRED, 1, 23)),))
NOTE = Diagnostic("not-compared", Severity.NOTE, "3 parts are not covered", (Label(DRAWN.whole),))
REPORT = Report("compare", "t", ("sets/original.netck", "sets/rewired.netck"), (NOTE, WRONG, SLIP))


def document(report: Report) -> dict[str, Any]:
    loaded: dict[str, Any] = json.loads(FORMATS["json"](report, Style()))
    return loaded


def fingerprint(diagnostic: Diagnostic) -> str:
    (found,) = document(replace(REPORT, diagnostics=(diagnostic,)))["diagnostics"]
    return str(found["fingerprint"])


def test_concise_is_a_line_a_finding() -> None:
    assert FORMATS["concise"](REPORT, Style(width=20, unicode=False)) == (
        "sets/original.netck:1:1: note: 3 parts are not covered [not-compared]\n"
        "sets/rewired.netck:2:11: error: C52- is on SP1.2 (chassis); belongs on SP1.3 (B-) [return-on-wrong-common]\n"
        "sets/rewired.netck:2:1: error: a comma is missing [syntax]\n"
    )


def test_concise_without_findings_is_empty() -> None:
    assert FORMATS["concise"](replace(REPORT, diagnostics=()), Style()) == ""


def test_json_holds_everything_in_total_order() -> None:
    text = FORMATS["json"](REPORT, Style())
    assert text.endswith("}\n")
    whole = json.loads(text)
    found = whole.pop("diagnostics")
    assert whole == {
        "generator": "netcheck",
        "version": 1,
        "command": "compare",
        "title": "t",
        "files": ["sets/original.netck", "sets/rewired.netck"],
        "built": True,
        "counts": {"error": 2, "warning": 0, "note": 1, "allowed": 0},
        "allowed": [],
        "closing": [],
    }
    assert [d["rule"] for d in found] == ["syntax", "return-on-wrong-common", "not-compared"]
    assert found[1] == {
        "rule": "return-on-wrong-common",
        "severity": "error",
        "headline": WRONG.headline,
        "why": "why",
        "do": "move it",
        "places": [
            {"file": REWIRED.name, "line": 2, "column": 11, "end_line": 2, "end_column": 15, "text": "here"},
            {"file": DRAWN.name, "line": 1, "column": 9, "end_line": 1, "end_column": 13, "text": ""},
        ],
        "leads": ["C52-"],
        "parts": ["C52"],
        "nets": ["B-", "chassis"],
        "fingerprint": found[1]["fingerprint"],
    }
    assert found[0]["places"][0]["end_line"] == 3


def test_order_given_changes_no_byte() -> None:
    turned = replace(REPORT, diagnostics=REPORT.diagnostics[::-1])
    assert FORMATS["json"](turned, Style()) == FORMATS["json"](REPORT, Style())


def moved(diagnostic: Diagnostic, *, lines: int = 0, folder: str = "sets") -> Diagnostic:
    """The same finding in files with more lines on top, or elsewhere."""
    labels = []
    for label in diagnostic.labels:
        source = label.place.source
        below = Source(source.name.replace("sets", folder), "\n" * lines + source.text)
        labels.append(Label(Place(below, label.place.start + lines, label.place.end + lines), label.text))
    return replace(diagnostic, labels=tuple(labels))


@pytest.mark.parametrize("diagnostic", [WRONG, SLIP])
def test_fingerprint_stays_when_lines_files_and_words_move(diagnostic: Diagnostic) -> None:
    same = fingerprint(diagnostic)
    assert fingerprint(moved(diagnostic, lines=7)) == same
    assert fingerprint(moved(diagnostic, folder="/elsewhere")) == same
    assert fingerprint(replace(diagnostic, headline="in other words", why="", do="")) == same


def test_fingerprint_tells_findings_apart() -> None:
    other = replace(WRONG, touched=Touched(("C53-",), ("C53",), ("B-", "chassis")))
    twins = document(replace(REPORT, diagnostics=(SLIP, SLIP, WRONG, other, replace(WRONG, rule="x"))))["diagnostics"]
    assert len({d["fingerprint"] for d in twins}) == 5


def test_allowed_findings_carry_their_reason() -> None:
    allowed = document(replace(REPORT, allowed=(Allowed(WRONG, "for the test"),)))["allowed"]
    assert [(d["rule"], d["reason"]) for d in allowed] == [("return-on-wrong-common", "for the test")]


def test_json_in_ascii_says_the_same() -> None:
    plain = FORMATS["json"](REPORT, Style(unicode=False))
    assert plain.isascii()
    assert json.loads(plain) == document(REPORT)
