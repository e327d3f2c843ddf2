"""The report a line a finding, and the document."""

import json
from typing import Any

import pytest
from msgspec.structs import replace

from netcheck.core.diagnostic import Diagnostic, Grade, Label, Touched
from netcheck.core.mend import Cut, Put, Wire
from netcheck.core.report import Accepted, Report
from netcheck.core.source import Source
from netcheck.reports import FORMATS, SCREENS, Style

DRAWN = Source("sets/original.netck", "net B-: C52-\n")
REWIRED = Source("sets/rewired.netck", "\nat SP1.2: C52-,\n  R7.2\n")

WRONG = Diagnostic(
    "return-on-wrong-common",
    Grade.STOP,
    "C52- is on SP1.2 (chassis); belongs on SP1.3 (B−)",  # noqa: RUF001 - a pasted minus sign
    (Label(REWIRED.between(11, 15), "here"), Label(DRAWN.between(8, 12))),
    why="why",
    do="move it",
    touched=Touched(("C52-",), ("C52",), ("B-", "chassis")),
    mends=((Put("C52-", "SP1.3"),), (Cut("SP1.2", "SP1.4"), Wire("SP1.2", "SP1.3"))),
)
SLIP = Diagnostic("syntax", Grade.STOP, "a comma is missing", (Label(REWIRED.between(1, 23)),))
NOTE = Diagnostic("not-compared", Grade.NOTE, "3 parts are not covered", (Label(DRAWN.whole),))
REPORT = Report("compare", "t", ("sets/original.netck", "sets/rewired.netck"), (NOTE, WRONG, SLIP))


def document(report: Report) -> dict[str, Any]:
    loaded: dict[str, Any] = json.loads(FORMATS[".json"](report, Style()))
    return loaded


def key(diagnostic: Diagnostic) -> str:
    (found,) = document(replace(REPORT, diagnostics=(diagnostic,)))["findings"]
    return str(found["key"])


def test_lines_are_a_line_a_finding() -> None:
    assert SCREENS["lines"](REPORT, Style(width=20, unicode=False)) == (
        "sets/rewired.netck:2:1: STOP: a comma is missing [syntax]\n"
        "sets/rewired.netck:2:11: STOP: C52- is on SP1.2 (chassis); belongs on SP1.3 (B-) [return-on-wrong-common]\n"
        "sets/original.netck:1:1: NOTE: 3 parts are not covered [not-compared]\n"
    )


def test_lines_without_findings_is_empty() -> None:
    assert SCREENS["lines"](replace(REPORT, diagnostics=()), Style()) == ""


def test_json_holds_everything_in_total_order() -> None:
    text = FORMATS[".json"](REPORT, Style())
    assert text.endswith("}\n")
    whole = json.loads(text)
    found = whole.pop("findings")
    assert whole == {
        "generator": "netcheck",
        "version": 1,
        "command": "compare",
        "title": "t",
        "files": ["sets/original.netck", "sets/rewired.netck"],
        "built": True,
        "counts": {"STOP": 2, "LOOK": 0, "NOTE": 1, "accepted": 0},
        "accepted": [],
        "closing": [],
        "cautions": [],
    }
    assert [d["rule"] for d in found] == ["syntax", "return-on-wrong-common", "not-compared"]
    assert [d["number"] for d in found] == [1, 2, 3]
    assert found[1] == {
        "number": 2,
        "rule": "return-on-wrong-common",
        "grade": "STOP",
        "headline": WRONG.headline,
        "why": "why",
        "do": "move it",
        "mend": ["move C52- to SP1.3"],
        "alternatives": [["cut SP1.2 to SP1.4", "wire SP1.2 to SP1.3"]],
        "places": [
            {"file": REWIRED.name, "line": 2, "column": 11, "to_line": 2, "to_column": 15, "text": "here"},
            {"file": DRAWN.name, "line": 1, "column": 9, "to_line": 1, "to_column": 13, "text": ""},
        ],
        "leads": ["C52-"],
        "parts": ["C52"],
        "nets": ["B-", "chassis"],
        "key": found[1]["key"],
    }
    assert (found[0]["mend"], found[0]["alternatives"]) == ([], [])
    assert found[0]["places"][0]["to_line"] == 3


def test_order_given_changes_no_byte() -> None:
    turned = replace(REPORT, diagnostics=REPORT.diagnostics[::-1])
    assert FORMATS[".json"](turned, Style()) == FORMATS[".json"](REPORT, Style())


def moved(diagnostic: Diagnostic, *, lines: int = 0, folder: str = "sets") -> Diagnostic:
    """The same finding in files with more lines on top, or elsewhere."""
    labels = []
    for label in diagnostic.labels:
        source = label.place.source
        below = Source(source.name.replace("sets", folder), "\n" * lines + source.text)
        labels.append(Label(below.between(label.place.start + lines, label.place.end + lines), label.text))
    return replace(diagnostic, labels=tuple(labels))


@pytest.mark.parametrize("diagnostic", [WRONG, SLIP])
def test_key_stays_when_lines_files_and_words_move(diagnostic: Diagnostic) -> None:
    same = key(diagnostic)
    assert key(moved(diagnostic, lines=7)) == same
    assert key(moved(diagnostic, folder="/elsewhere")) == same
    assert key(replace(diagnostic, headline="in other words", why="", do="")) == same


def test_key_tells_findings_apart() -> None:
    other = replace(WRONG, touched=Touched(("C53-",), ("C53",), ("B-", "chassis")))
    twins = document(replace(REPORT, diagnostics=(SLIP, SLIP, WRONG, other, replace(WRONG, rule="x"))))["findings"]
    assert len({d["key"] for d in twins}) == 5


def test_accepted_findings_carry_their_reason() -> None:
    accepted = document(replace(REPORT, accepted=(Accepted(WRONG, "for the test"),)))["accepted"]
    assert [(d["rule"], d["reason"]) for d in accepted] == [("return-on-wrong-common", "for the test")]


def test_json_in_ascii_says_the_same() -> None:
    plain = FORMATS[".json"](REPORT, Style(unicode=False))
    assert plain.isascii()
    assert json.loads(plain) == document(REPORT)
