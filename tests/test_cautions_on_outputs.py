"""The cautions of a set are on whatever hands are told of it: every command, every kind of file and the screen."""

import html
import re
from pathlib import Path

import pytest
from msgspec.structs import replace

from netcheck.cli import main
from netcheck.core.caution import ANODE, DISCHARGE, Dangers, cautions
from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.joined import joined
from netcheck.core.report import Report
from netcheck.core.sheet import Sheet
from netcheck.reports import FORMATS, SCREENS, SHEETS, Style
from netcheck.sheets import bench, job
from netcheck.system.files import read, reader
from tests.formats import code_quality, sarif

SAMPLES = Path(__file__).parents[1] / "samples"
HOT, TELEVISION, SELENIUM = (cautions(Dangers(**{word: True}))[0] for word in ("hot", "television", "selenium"))
COMMON = cautions(Dangers())[0]
# How every command is called that tells hands of a set; with --help and a wrong ending it says what it writes.
CALLS = {
    "all": "all --settings {settings}",
    "bench": "bench {old} {new}",
    "buy": "buy {new}",
    "check": "check {old}",
    "compare": "compare {old} {new}",
    "draw": "draw {old} {new}",
    "job": "job {old} {new}",
    "lugs": "lugs {new}",
    "lugs --blank": "lugs {new} --blank",
    "record": "record {old} {new}",
    "supply": "supply {new}",
}
# These tell of no set: the manual, completion, and a repository whose own files have a test of their own.
OF_NO_SET = {"completion", "man", "start", "why"}
SHOWN = {"--lines": "--lines", "--json": "--json", "--annotate": "--annotate github"}
# Made for one line of a list each: what is said of every set would be beside every set's findings for ever.
SHORT = (".codequality.json", "--lines", "--annotate github")
# A set off the line, a television off the line, and a set behind a transformer.
SETS = {"skerry": (HOT, COMMON), "marram": (HOT, TELEVISION, COMMON), "harrow-point": (COMMON,)}


def _words(text: str) -> str:
    """Running words of any kind of output: without tags, a graph's boxes, breaks of lines and marks before them."""
    boxed = re.sub(r">> pos=.*\n\s*\w+ \[label=<<", "> <", text)
    plain = html.unescape(re.sub(r"<[^>]*>", " ", boxed)).replace("\n! ", "\n")
    return " ".join(plain.split())


def _call(command: str, folder: str, tmp_path: Path) -> list[str]:
    states = {"old": SAMPLES / folder / "original.netck", "new": SAMPLES / folder / "rewired.netck"}
    settings = tmp_path / "netcheck.toml"
    for state in ("original", "rewired"):
        copied = (SAMPLES / folder / f"{state}.netck").read_text(encoding="utf-8")
        (tmp_path / f"{state}.netck").write_text(copied, encoding="utf-8")
    settings.write_text(f'[chassis.{folder}]\ndrawn = "original.netck"\nrewired = "rewired.netck"\n', "utf-8")
    return CALLS[command].format(**states, settings=settings).split()


def _endings(call: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> list[str]:
    """What a command writes, by its own word; a PNG is drawn from what the DOT file has."""
    capsys.readouterr()
    main([*call, "-o", str(tmp_path / "paper.of-no-kind")])
    told = re.search(r"ends in none of (.*?);", capsys.readouterr().err)
    assert told is not None
    return [ending for ending in told[1].split(", ") if ending != ".png"]


def _said(folder: str, kind: str) -> list[str]:
    return [line for line in SETS[folder] if line != COMMON or kind not in SHORT]


def _found(text: str) -> list[str]:
    words = _words(text)
    return [line for line in (HOT, TELEVISION, COMMON) if line in words]


def test_every_command_is_looked_at(capsys: pytest.CaptureFixture[str]) -> None:
    main(["--help"])
    commands = re.findall(r"^  ([a-z]+)  ", capsys.readouterr().out.partition("Commands:")[2], re.MULTILINE)
    assert set(commands) == {call.split()[0] for call in CALLS} | OF_NO_SET


@pytest.mark.parametrize("command", CALLS)
@pytest.mark.parametrize("folder", SETS)
def test_every_file_of_a_set_has_its_cautions(
    command: str, folder: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    call = _call(command, folder, tmp_path)
    papers = {ending: tmp_path / f"paper{ending}" for ending in _endings(call, tmp_path, capsys)}
    main([*call, *(word for paper in papers.values() for word in ("-o", str(paper)))])
    for ending, paper in papers.items():
        assert _found(paper.read_text(encoding="utf-8")) == _said(folder, ending), ending


@pytest.mark.parametrize("command", [name for name in CALLS if name not in ("draw", "record")])
@pytest.mark.parametrize("folder", SETS)
def test_the_screen_has_them_as_well(
    command: str, folder: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    call = _call(command, folder, tmp_path)
    main([call[0], "--help"])
    offered = set(re.findall(r"--[a-z]+", capsys.readouterr().out)) - ({"--json"} if "--blank" in call else set())
    for way in ("", *(asked for option, asked in SHOWN.items() if option in offered)):
        main([*call, *way.split()])
        assert _found(capsys.readouterr().out) == _said(folder, way), way


def test_no_format_is_left_out() -> None:
    """A format that is new has the cautions of its report, one by one, wherever it is written."""
    report = Report("check", "t", ("a.netck",), (), cautions=cautions(Dangers(hot=True, television=True)))
    for name, render in ({**FORMATS, **SCREENS}).items():
        found = _found(render(report, Style()))
        assert found == [HOT, TELEVISION, *([] if name in (".codequality.json", *SCREENS) else [COMMON])], name
    sheet = Sheet("job", "t", "rewired", ("a.netck",), (), report.cautions)
    for name, draw in SHEETS.items():
        assert _found(draw(sheet, Style())) == [HOT, TELEVISION, COMMON], name


def test_a_caution_has_the_same_key_whatever_is_found() -> None:
    texts = cautions(Dangers(hot=True, television=True))
    found = Diagnostic("r", Grade.LOOK, "h", ())
    keys = []
    for diagnostics in ((), (found,)):
        report = Report("check", "t", ("sets/a.netck",), diagnostics, cautions=texts)
        entries = [one for one in code_quality(report) if one["check_name"] == "caution"]
        assert {one["severity"] for one in entries} == {"info"}
        keys.append([one["fingerprint"] for one in entries])
    assert keys[0] == keys[1]
    assert len(set(keys[0])) == 2


def test_of_several_chassis_each_caution_stands_at_its_own_file() -> None:
    parts = tuple(
        Report("compare", name, (f"{name}/rewired.netck",), (), cautions=cautions(Dangers(hot=name == "b")))
        for name in ("a", "b")
    )
    whole = replace(joined(parts, ("a", "b")), parts=parts)
    assert SCREENS["lines"](whole, Style()) == f"b/rewired.netck:1:1: NOTE: {HOT} [caution]\n"


def test_sarif_has_them_with_the_run_and_not_among_the_results() -> None:
    texts = cautions(Dangers(hot=True))
    (run,) = sarif(Report("check", "t", ("a.netck",), (), cautions=texts))["runs"]
    (invocation,) = run["invocations"]
    told = [one["message"]["text"] for one in invocation["toolExecutionNotifications"]]
    assert told == [HOT, COMMON]
    assert run["results"] == []


def test_hands_that_take_a_selenium_stack_out_are_told_of_it() -> None:
    old, new = (read(SAMPLES / "marram" / f"{state}.netck") for state in ("original", "rewired"))
    sheet = job(old, new, read=reader(old, new))[1]
    assert sheet is not None
    assert sheet.cautions == (HOT, TELEVISION, SELENIUM, COMMON)


def _power_up(folder: str) -> dict[str, str]:
    """The tables of the power-up of a rewired sample, each as its words."""
    source = read(SAMPLES / folder / "rewired.netck")
    sheet = bench(source, read=reader(source))[1]
    assert sheet is not None
    return {t.heading: " ".join((*t.before, *(cell for row in t.rows for cell in row.cells))) for t in sheet.tables}


def test_the_power_up_begins_with_the_isolation_transformer_where_metal_may_be_live() -> None:
    first = {folder: _power_up(folder)["Power-up: first"] for folder in SETS}
    for folder in ("skerry", "marram"):
        assert first[folder].startswith("Run the set, not the instruments, from a 1:1 isolation transformer; instru")
        assert "Antenna and ground off" in first[folder]
    assert "isolation" not in first["harrow-point"]


def test_a_television_is_not_kept_at_half_line_and_its_tube_is_discharged() -> None:
    said = {folder: _power_up(folder) for folder in SETS}
    after = "Afterwards, plug out: discharge"
    for folder, tables in said.items():
        television = TELEVISION in SETS[folder]
        assert ("only as long as the supply's readings take" in tables["Power-up: first"]) == television
        assert ("with the lamp, all readings" in tables["Power-up: first"]) != television
        assert (ANODE in tables[after]) == television
        assert DISCHARGE in tables[after]
