"""What a run leaves behind: texts on the screen, files by their endings, and the exit status."""

import io
import json
import re
import sys
from pathlib import Path

import pytest

from netcheck.cli import main
from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.errors import UsageFault
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.reports import FORMATS, PICTURES
from netcheck.system.delivery import CLEAN, FINDINGS, Asked, deliver

ROOT = Path(__file__).parents[1]
PAIR = [str(ROOT / "samples/one-can" / f"{state}.netck") for state in ("original", "faulty")]
UNBUILT = "resistor R1 10k\nresister R2 10k\n"


@pytest.fixture(autouse=True)
def _folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def test_one_run_writes_every_kind_that_it_is_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    kinds = ("PNG", *(ending[1:] for ending in (*FORMATS, *PICTURES) if ending != ".png"))
    assert main(["compare", *PAIR, *(word for kind in kinds for word in ("-o", f"sheet.{kind}"))]) == 1
    assert capsys.readouterr().out.splitlines() == [f"sheet.{kind} written: 2 STOP, 1 NOTE" for kind in kinds]
    assert Path("sheet.txt").read_text(encoding="utf-8").startswith("netcheck compare: ")
    assert json.loads(Path("sheet.json").read_text(encoding="utf-8"))["generator"] == "netcheck"
    assert "</svg>" in Path("sheet.svg").read_text(encoding="utf-8")
    assert Path("sheet.PNG").read_bytes().startswith(b"\x89PNG")
    assert json.loads(Path("sheet.codequality.json").read_text(encoding="utf-8"))[0]["engine_name"] == "netcheck"
    assert json.loads(Path("sheet.sarif").read_text(encoding="utf-8"))["version"] == "2.1.0"
    assert main(["compare", *PAIR, *(word for kind in kinds for word in ("-o", f"sheet.{kind}"))]) == 1  # once more
    assert Path("sheet.dot").read_text(encoding="utf-8").startswith("// drawn by netcheck")


def test_a_finding_has_one_number_on_the_screen_and_in_the_document(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", *PAIR, "--json", "-o", "report.txt"]) == 1
    out, err = capsys.readouterr()
    found = json.loads(out)["findings"]
    assert err == "report.txt written: 2 STOP, 1 NOTE\n"  # a program reads standard output, so this goes elsewhere
    text = Path("report.txt").read_text(encoding="utf-8")
    assert [d["number"] for d in found] == [1, 2, 3]
    assert all(f"\n{d['number']}  {d['grade']}  {d['headline']}" in text for d in found)


class Terminal(io.StringIO):
    """Standard output that is a terminal."""

    def isatty(self) -> bool:
        return True

    def fileno(self) -> int:
        raise OSError


def test_where_nothing_is_said_a_terminal_gets_its_colours_and_a_file_none(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("NO_COLOR", "FORCE_COLOR", "CLICOLOR_FORCE"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("TERM", "xterm")
    shown: list[str] = []
    for stream in (Terminal(), io.StringIO()):
        monkeypatch.setattr(sys, "stdout", stream)
        assert deliver(Report("check", "t", ("a.netck",), ()), Asked()) == CLEAN
        shown.append(stream.getvalue())
    assert ["\x1b[" in text for text in shown] == [True, False]


def test_where_nothing_is_said_a_look_is_no_failure_and_no_file_is_replaced() -> None:
    found = Diagnostic("loose-lead", Grade.LOOK, "C1+ is on nothing", (Label(Source("a.netck", "x").whole),))
    report = Report("check", "t", ("a.netck",), (found,))
    assert deliver(report, Asked()) == CLEAN
    assert deliver(report, Asked(strict=True)) == FINDINGS
    Path("notes.txt").write_text("mine\n")
    with pytest.raises(UsageFault, match=r"to replace it, add --overwrite$"):
        deliver(report, Asked((Path("notes.txt"),)))
    assert Path("notes.txt").read_text() == "mine\n"
    assert deliver(report, Asked((Path("notes.txt"),), overwrite=True)) == CLEAN


def test_the_last_word_on_how_to_show_it_counts(capsys: pytest.CaptureFixture[str]) -> None:
    main(["compare", *PAIR, "--json", "--lines"])
    assert len(capsys.readouterr().out.splitlines()) == 3


def test_what_a_runner_turns_into_annotations_stands_alone_on_the_screen(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", *PAIR, "--annotate", "github", "-o", "job.md"]) == 1
    out, err = capsys.readouterr()
    assert [line.partition(" ")[0] for line in out.splitlines()] == [
        "::error",
        "::notice",
        "::error",
        "::notice",
        "::notice",
    ]
    assert err == "job.md written: 2 STOP, 1 NOTE\n"


def test_nothing_is_written_where_one_ending_is_unknown(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", *PAIR, "-o", "a.json", "-o", "b.gif"]) == 2
    assert f"`b.gif` ends in none of {', '.join((*FORMATS, *PICTURES))};" in capsys.readouterr().err
    assert not Path("a.json").exists()


def test_nothing_is_written_where_one_of_the_files_cannot_be_made(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", *PAIR, "-o", "a.json", "-o", "b.png", "--engine", "/nowhere/dot"]) == 2
    assert "named by --engine, is not a program that can be run" in capsys.readouterr().err
    assert not Path("a.json").exists()


@pytest.mark.parametrize(
    ("command", "endings"),
    [
        ("check", ", ".join(FORMATS)),
        ("lugs", ".txt, .json"),
        ("supply", ".txt, .json"),
    ],
)
def test_a_command_without_pictures_says_what_it_writes(
    command: str, endings: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([command, PAIR[0], "-o", "x.svg"]) == 2
    assert f"`x.svg` ends in none of {endings};" in capsys.readouterr().err


@pytest.mark.parametrize("command", [["compare", *PAIR], ["check", PAIR[0]], ["supply", PAIR[0]], ["draw", *PAIR]])
def test_whoever_asks_for_a_page_is_told_which_command_writes_one(
    command: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([*command, "-o", "x.HTML"]) == 2
    assert "what to write; the page of a set is written by `netcheck record`\n" in capsys.readouterr().err
    assert main([*command, "-o", "x.gif"]) == 2
    assert capsys.readouterr().err.endswith("the ending says what to write\n")


def test_the_whole_circuit_is_laid_out_for_the_paper_that_is_said_and_else_for_a_poster() -> None:
    argv = ["draw", str(ROOT / "samples/harrow-point/original.netck"), "--whole"]
    for name, words in (("usual", ()), ("poster", ("--paper", "poster")), ("a4", ("--paper", "a4"))):
        assert main([*argv, *words, "-o", f"{name}.svg"]) == 0
    usual, poster, a4 = (Path(f"{name}.svg").read_text(encoding="utf-8") for name in ("usual", "poster", "a4"))
    assert usual == poster
    assert re.findall(r'<svg[^>]* width="([^"]*)"', a4) == ["595.28pt"]  # 210 mm
    assert re.findall(r'<svg[^>]* width="([^"]*)"', poster) != ["595.28pt"]


def test_a_netlist_that_cannot_be_built_gives_its_messages_and_no_picture(capsys: pytest.CaptureFixture[str]) -> None:
    Path("bad.netck").write_text(UNBUILT)
    assert main(["compare", PAIR[0], "bad.netck", "-o", "a.json", "-o", "a.svg"]) == 2
    assert "1  STOP  no statement begins with `resister`" in capsys.readouterr().err
    assert json.loads(Path("a.json").read_text(encoding="utf-8"))["built"] is False
    assert not Path("a.svg").exists()
