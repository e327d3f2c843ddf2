"""The formats that services take in: each by its published schema, with names that mean harm, with lines that move."""

import re
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from netcheck import api
from netcheck.core.diagnostic import Diagnostic, Grade, Label, Touched
from netcheck.core.mend import Put
from netcheck.core.report import Accepted, Report
from netcheck.core.source import Source
from netcheck.reports import FORMATS, SCREENS, Style
from netcheck.system.signature import is_signed
from tests.formats import READ_BACK, code_quality, page, rows, sarif, written

ROOT = Path(__file__).parents[1]
NEW = ("sarif", "xml", "md", "csv", "codequality.json")
FAULTY = Source("one-can/faulty.netck", (ROOT / "samples/one-can/faulty.netck").read_text(encoding="utf-8"))
DRAWN = Source("one-can/original.netck", (ROOT / "samples/one-can/original.netck").read_text(encoding="utf-8"))

HARM = (
    '=HYPERLINK("http://x.example","y")', "@SUM(1)", "+1+1", "-2+3", "\N{FULLWIDTH EQUALS SIGN}1", '"quoted", twice',
    "]]></failure><x>", "<script>alert(1)</script>", "&lt;b&gt; &amp;", "| a | b |", "[x](https://x.example)",
    "![x](https://x.example/p.png)", "www.x.example", "https://x.example/a,b:c", "see @someone and #7", ":x:", "$a$",
    "`code` **bold** ~~no~~", "# heading", "- point", "\\", "\033[2J\033]0;x\007", "a\r\n::error::gone",
    "%0A::stop-commands::x", "\u202ereversed", "\ufffe", "\ud800",
)  # fmt: skip


def compared(rewired: Source = FAULTY, original: Source = DRAWN) -> Report:
    return api.compare(original, rewired, lambda _asking, _written: original)


@pytest.fixture(scope="module")
def report() -> Report:
    return compared()


def harmful(text: str, reason: str = "") -> Report:
    """A report in which a text of a user's stands wherever one can."""
    source = Source(f"sets/{text}.netck", f"# {text}\nat SP1.2: C52-\n")
    found = Diagnostic(
        "lead-on-wrong-net",
        Grade.STOP,
        text,
        (Label(source.between(0, 3), text), Label(source.between(2, len(source.text)), text)),
        why=text,
        do=text,
        touched=Touched((text,), (text,), (text,)),
        mends=((Put(text, text),),),
    )
    names = (source.name, source.name)
    return Report("compare", text, names, (found,), (Accepted(found, reason or text),), (text,), cautions=(text,))


def unbuilt() -> Report:
    slip = Diagnostic("syntax", Grade.STOP, "a comma is missing", (Label(FAULTY.whole),))
    return Report("compare", "", ("a.netck", "b.netck"), (slip,), built=False)


def reports() -> list[Report]:
    whole = compared()
    bare = Diagnostic("unreadable", Grade.LOOK, "no place at all", ())
    accepted = replace(whole, diagnostics=(bare,), accepted=(Accepted(whole.diagnostics[0], "one in stock"),))
    return [whole, replace(whole, diagnostics=()), accepted, unbuilt(), *map(harmful, HARM)]


@pytest.mark.parametrize("report", reports(), ids=lambda one: ascii(one.title))
def test_every_report_fits_the_schemas(report: Report) -> None:
    for read in READ_BACK.values():
        read(report)
    found = rows(report)
    assert {len(row) for row in found} == {16}
    assert len(found) == 1 + len(report.cautions) + len(report.diagnostics) + len(report.accepted)


def test_every_format_is_read_back() -> None:
    assert READ_BACK.keys() == FORMATS.keys() - {".txt"}, "what reads a format, best a schema, stands in formats.py"


@pytest.mark.parametrize("report", reports(), ids=lambda one: ascii(one.title))
def test_what_netcheck_wrote_is_known_as_its_own(report: Report) -> None:
    for ending in FORMATS:
        text = written(report, ending).encode("utf-8", "backslashreplace")
        assert is_signed(text), f"how a {ending} begins is said in system/signature.py"


@pytest.mark.parametrize("text", ["[]", "[\n  1\n]\n", '{\n  "version": "2.1.0"\n}\n', "number,grade\n", "# x\n"])
def test_what_another_program_wrote_is_not(text: str) -> None:
    assert not is_signed(text.encode())


def test_sarif_says_what_the_report_says(report: Report) -> None:
    (run,) = sarif(report)["runs"]
    results = run["results"]
    numbered = {diagnostic.rule: number for number, diagnostic in report.numbered}
    assert {one["ruleId"]: (one["level"], one["properties"]["number"]) for one in results} == {
        "rating-too-low": ("error", numbered["rating-too-low"]),
        "lead-on-wrong-net": ("error", numbered["lead-on-wrong-net"]),
        "not-compared": ("note", numbered["not-compared"]),
    }
    (wrong,) = (one for one in results if one["ruleId"] == "lead-on-wrong-net")
    assert wrong["properties"]["mend"] == ["move C42+ to SP1.2"]
    here, there = wrong["locations"][0]["physicalLocation"], wrong["relatedLocations"][0]["physicalLocation"]
    assert here["artifactLocation"]["uri"] == "one-can/faulty.netck"
    assert there["artifactLocation"]["uri"] == "one-can/original.netck"
    for place, source in ((here, FAULTY), (there, DRAWN)):
        region = place["region"]
        line = source.text.split("\n")[region["startLine"] - 1]
        assert line[region["startColumn"] - 1 : region["endColumn"] - 1] in ("SP1.1", "C20B+")
    assert {rule["id"] for rule in run["tool"]["driver"]["rules"]} == {one["ruleId"] for one in results}
    assert [one["executionSuccessful"] for one in run["invocations"]] == [True]
    assert sarif(unbuilt())["runs"][0]["invocations"] == [{"executionSuccessful": False}]


def test_sarif_names_a_file_so_that_it_is_found() -> None:
    source = Source("my sets/50% done#2.netck", "x\n")
    outside = Source("/elsewhere/é.netck", "x\n")
    found = Diagnostic("r", Grade.LOOK, "h", (Label(source.whole), Label(outside.whole)))
    (result,) = sarif(Report("check", "", (source.name,), (found,)))["runs"][0]["results"]
    uris = [
        place["physicalLocation"]["artifactLocation"]["uri"]
        for place in (*result["locations"], *result["relatedLocations"])
    ]
    assert uris == ["my%20sets/50%25%20done%232.netck", "file:///elsewhere/%C3%A9.netck"]
    assert result["level"] == "warning"


def test_what_is_accepted_is_suppressed_with_its_reason_and_skipped() -> None:
    accepted = reports()[2]
    standing, waived = sarif(accepted)["runs"][0]["results"]
    assert "suppressions" not in standing
    assert waived["suppressions"] == [{"kind": "inSource", "justification": "one in stock"}]
    suite = ET.fromstring(written(accepted, ".xml"))[0]  # noqa: S314 - our own text
    assert [one.get("message") for one in suite.iter("skipped")] == ["one in stock"]
    assert [row[-1] for row in rows(accepted)][-2:] == ["", "one in stock"]
    assert [entry["check_name"] for entry in code_quality(accepted)] == ["unreadable"]


@pytest.mark.parametrize(("strict", "failures"), [(False, "1"), (True, "2")])
def test_a_test_fails_where_it_makes_the_run_fail(*, strict: bool, failures: str) -> None:
    found = tuple(Diagnostic(f"r{grade.rank}", grade, grade.value, (Label(FAULTY.whole),)) for grade in Grade)
    suite = ET.fromstring(written(Report("check", "", ("a",), found, strict=strict), ".xml"))[0]  # noqa: S314
    assert (suite.get("tests"), suite.get("failures"), suite.get("errors")) == ("3", failures, "0")
    assert len([*suite.iter("failure")]) == int(failures)
    broken = ET.fromstring(written(unbuilt(), ".xml"))[0]  # noqa: S314
    assert (broken.get("failures"), broken.get("errors")) == ("0", "1")


def test_a_clean_run_has_one_test_that_passed(report: Report) -> None:
    suite = ET.fromstring(written(replace(report, diagnostics=()), ".xml"))[0]  # noqa: S314
    (case,) = suite.iter("testcase")
    assert list(case) == []


def test_severities_of_code_quality() -> None:
    found = tuple(Diagnostic("r", grade, grade.value, (Label(FAULTY.whole),)) for grade in Grade)
    entries = code_quality(Report("check", "", ("a",), found))
    assert [entry["severity"] for entry in entries] == ["blocker", "minor", "info"]


@pytest.mark.parametrize("text", HARM, ids=ascii)
def test_no_cell_is_a_formula(text: str) -> None:
    for row in rows(harmful(text)):
        assert not any(value.startswith(tuple("=+-@\uff1d\uff0b\uff0d\uff20\t\r")) for value in row)
        assert not {sign for value in row for sign in value if not sign.isprintable()}


class Tags(HTMLParser):
    """The tags of a page, and its text."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        assert not [name for name, _ in attrs if name != "style"]

    def handle_data(self, data: str) -> None:
        self.text += data


OURS = {"h2", "p", "strong", "table", "thead", "tbody", "tr", "th", "td", "br", "ul", "li", "sub", "span"}


@pytest.mark.parametrize("text", HARM, ids=ascii)
def test_a_summary_shows_words_as_words(text: str) -> None:
    from netcheck.core.visible import visible

    markdown = written(harmful(text), ".md")
    seen = Tags()
    seen.feed(page(markdown))
    assert seen.tags <= OURS
    assert " ".join(visible(text).split()) in " ".join(seen.text.split())
    assert len(re.findall(r"^\| 1 \|", markdown, re.MULTILINE)) == 1
    # Nobody is called, and no task is named: the page looks for these after the tags are made.
    assert not re.search(r"[@#]\w", re.sub(r"<!-- -->", "\0", markdown))


@pytest.mark.parametrize("text", HARM, ids=ascii)
def test_annotations_are_commands_and_no_text_is_one(text: str) -> None:
    lines = SCREENS["github"](harmful(text), Style()).split("\n")
    assert lines.pop() == ""
    assert len(lines) == 2
    for line, word in zip(lines, ("error", "notice"), strict=True):
        assert re.fullmatch(rf"::{word} [^:\r\n]*::[^\r\n]*", line)
        named = [pair.partition("=")[0] for pair in line.split("::")[1].partition(" ")[2].split(",")]
        assert named[:3] == ["file", "line", "endLine"]
        assert set(named) <= {"file", "line", "endLine", "col", "endColumn", "title"}


def test_annotations_stand_at_the_lines_of_both_files(report: Report) -> None:
    lines = SCREENS["github"](report, Style()).splitlines()
    (number,) = (number for number, found in report.numbered if found.rule == "lead-on-wrong-net")
    wanted = (
        f"::error file=one-can/faulty.netck,line=13,endLine=13,col=37,endColumn=41,title={number} STOP "
        "lead-on-wrong-net::C42+ is on B+1 (SP1.1); it belongs on B+2%0Amove C42+ from SP1.1 to SP1.2 (B+2), "
        "the lug beside it"
    )
    assert wanted in lines
    assert lines[lines.index(wanted) + 1].startswith(
        "::notice file=one-can/original.netck,line=13,endLine=13,col=20,endColumn=24,"
    )


def test_the_order_given_changes_no_byte(report: Report) -> None:
    turned = replace(report, diagnostics=report.diagnostics[::-1])
    for ending in FORMATS:
        assert written(turned, ending) == written(report, ending)


def keys(report: Report) -> list[list[str]]:
    """The fingerprints in every format that has them."""
    results = sarif(report)["runs"][0]["results"]
    heading, *cells = rows(report)
    table = [dict(zip(heading, row, strict=True)) for row in cells]
    return [
        [one["partialFingerprints"]["netcheck/v1"] for one in results],
        [one["fingerprint"] for one in code_quality(report)],
        [row["key"] for row in table if row["rule"] != "caution"],
    ]


EXTRA = st.lists(st.sampled_from(["", "# a remark", "    # indented", 'note "more"']), min_size=1, max_size=9)


@settings(max_examples=12, deadline=None)
@given(extra=EXTRA, at=st.integers(0, 12), drawn=st.booleans())
def test_fingerprints_stay_when_lines_move(extra: list[str], at: int, *, drawn: bool) -> None:
    def longer(source: Source) -> Source:
        lines = source.text.split("\n")
        return Source(source.name, "\n".join((*lines[:at], *extra, *lines[at:])))

    before = compared()
    after = compared(FAULTY, longer(DRAWN)) if drawn else compared(longer(FAULTY))
    assert keys(after) == keys(before)
    assert len(set(keys(before)[0])) == 3
