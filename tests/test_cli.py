"""The command line in process: streams, files and exit status; what the api finds is played by a stand-in."""

import json
from dataclasses import dataclass, field
from pathlib import Path
from types import SimpleNamespace

import pytest
from msgspec.structs import replace

import netcheck
from netcheck.cli import main
from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.errors import UsageFault
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.reports import FORMATS


@dataclass
class StandIn:
    """An api that reports what it is told, on the files that it is given."""

    grades: tuple[Grade, ...] = ()
    built: bool = True
    fault: str = ""
    seen: list[Source] = field(default_factory=list)

    def check(self, source: Source, _: object) -> Report:
        return self.report("check", source)

    def compare(self, original: Source, rewired: Source, _: object) -> Report:
        if self.fault:
            raise UsageFault(self.fault)
        return self.report("compare", original, rewired)

    def report(self, command: str, *sources: Source) -> Report:
        self.seen += sources
        found = tuple(
            Diagnostic("loose-lead", grade, f"{grade.value} here", (Label(sources[-1].whole),)) for grade in self.grades
        )
        return Report(command, "a set", tuple(s.name for s in sources), found, closing=("looked",), built=self.built)


@pytest.fixture
def api(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> StandIn:
    """A stand-in, and two netlists in the working folder."""
    monkeypatch.chdir(tmp_path)
    for name in ("FORCE_COLOR", "CLICOLOR_FORCE", "NO_COLOR"):
        monkeypatch.delenv(name, raising=False)
    for name in ("a.netck", "b.netck"):
        Path(name).write_text(f"# {name}\n")
    stand_in = StandIn()
    told = SimpleNamespace(
        check=stand_in.check,
        compare=stand_in.compare,
        why=lambda rule: f"the page of {rule}\n",
        rule_names=lambda: ("floating-ground", "loose-lead"),
    )
    monkeypatch.setitem(__import__("sys").modules, "netcheck.api", told)
    monkeypatch.setattr(netcheck, "api", told, raising=False)
    return stand_in


E, W, N = Grade.STOP, Grade.LOOK, Grade.NOTE


@pytest.mark.parametrize("command", ["check b.netck", "compare a.netck b.netck"])
@pytest.mark.parametrize(
    ("grades", "options", "status"),
    [
        ((), "", 0),
        ((N,), "--strict", 0),
        ((W, N), "", 0),
        ((W, N), "--strict", 1),
        ((E, W), "", 1),
        ((E,), "--strict", 1),
    ],
)
def test_exit_status(api: StandIn, command: str, grades: tuple[Grade, ...], options: str, status: int) -> None:
    api.grades = grades
    assert main([*command.split(), *options.split()]) == status


@pytest.mark.parametrize("command", ["check b.netck", "compare a.netck b.netck"])
def test_a_netlist_that_cannot_be_built(api: StandIn, command: str, capsys: pytest.CaptureFixture[str]) -> None:
    api.grades, api.built = (E, W), False
    assert main(command.split()) == 2
    out, err = capsys.readouterr()
    assert "STOP  STOP here" in out
    assert "LOOK  LOOK here" in out
    assert err == ""


def test_a_report_goes_to_standard_output(api: StandIn, capsys: pytest.CaptureFixture[str]) -> None:
    api.grades = (E,)
    main(["compare", "a.netck", "b.netck", "--lines"])
    assert capsys.readouterr() == ("b.netck:1:1: STOP: STOP here [loose-lead]\n", "")
    assert [s.text for s in api.seen] == ["# a.netck\n", "# b.netck\n"]


def test_a_report_goes_to_a_file(api: StandIn, capsys: pytest.CaptureFixture[str]) -> None:
    api.grades = (E, N)
    for _ in range(2):
        assert main(["compare", "a.netck", "b.netck", "-o", "r.json"]) == 1
        assert capsys.readouterr() == ("r.json written: 1 STOP, 1 NOTE\n", "")
    assert json.loads(Path("r.json").read_text())["command"] == "compare"


def test_a_netlist_is_not_overwritten_by_a_slip(api: StandIn, capsys: pytest.CaptureFixture[str]) -> None:
    Path("a.txt").write_text("# a.netck\n")
    assert main(["check", "b.netck", "-o", "a.txt"]) == 2
    assert capsys.readouterr().err == (
        "netcheck: `a.txt` is there already and netcheck did not write it; to replace it, add --overwrite\n"
    )
    assert Path("a.txt").read_text() == "# a.netck\n"
    assert main(["check", "b.netck", "-o", "a.txt", "--overwrite"]) == 0
    assert Path("a.txt").read_text().startswith("netcheck check: b.netck\n")
    assert api.seen


def test_colour_in_a_file_is_asked_for_by_the_flag_alone(api: StandIn, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FORCE_COLOR", "1")
    api.grades = (E,)
    main(["check", "b.netck", "-o", "r.txt"])
    assert "\033" not in Path("r.txt").read_text()
    main(["check", "b.netck", "-o", "c.txt", "--color", "always"])
    assert "\033" in Path("c.txt").read_text()


def test_several_files_make_one_report(api: StandIn, capsys: pytest.CaptureFixture[str]) -> None:
    api.grades = (W, E)
    assert main(["check", "a.netck", "b.netck", "./a.netck"]) == 1
    text = capsys.readouterr().out
    assert text.startswith("netcheck check: a.netck, b.netck\n")
    assert text.endswith("\nlooked\n\n2 STOP, 2 LOOK\n")
    assert text.index("1  STOP") < text.index("2  STOP") < text.index("3  LOOK") < text.index("4  LOOK")


def test_why(api: StandIn, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["why", "floating-ground"]) == 0
    assert main(["why"]) == 0
    assert capsys.readouterr() == ("the page of floating-ground\nfloating-ground\nloose-lead\n", "")
    assert not api.seen


def test_draw_says_why_nothing_was_drawn(api: StandIn, capsys: pytest.CaptureFixture[str]) -> None:
    api.grades, api.built = (E,), False
    assert main(["draw", "a.netck", "b.netck", "-o", "x.svg"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "STOP  STOP here" in err
    assert not Path("x.svg").exists()


@pytest.mark.parametrize(
    ("options", "width"), [((), "595.28pt"), (("--paper", "letter"), "612pt"), (("--narrow",), "270pt")]
)
@pytest.mark.parametrize("command", ["draw", "compare"])
def test_a_picture_is_laid_out_for_the_paper_asked_for(
    command: str, options: tuple[str, ...], width: str, api: StandIn
) -> None:
    api.grades = ()
    assert main([command, "a.netck", "b.netck", "-o", "x.svg", *options]) == 0
    assert f'width="{width}"' in Path("x.svg").read_text(encoding="utf-8")


MISUSED = {
    "no such command": (("comparre",), "no such command 'comparre'"),
    "no such option": (("compare", "a.netck", "b.netck", "--output-formt"), "no such option"),
    "one file": (("compare", "a.netck"), "name two files, the original and the rewired one"),
    "no such format": (
        ("check", "a.netck", "-o", "x.gif"),
        f"`x.gif` ends in none of {', '.join(FORMATS)};",
    ),
    "picture": (("draw", "a.netck", "b.netck", "-o", "x.gif"), "`x.gif` ends in none of .svg, .png, .dot"),
    "picture without a file": (("draw", "a.netck", "b.netck"), "say where the picture goes: `-o faulty.svg`"),
    "missing": (("compare", "a.netck", "c.netck"), "there is no file `c.netck`"),
    "folder": (("check", "."), "`.` is a folder, not a netlist; in it are `a.netck`, `b.netck`"),
    "hostile name": (("check", "\033[2J"), "there is no file `<U+001B>[2J`"),
    "no folder": (("check", "a.netck", "-o", "no/x.txt"), "`no/x.txt` can't be written: there is no folder `no`"),
}


@pytest.mark.parametrize(("argv", "message"), MISUSED.values(), ids=MISUSED)
@pytest.mark.usefixtures("api")
def test_a_call_that_cannot_work(
    argv: tuple[str, ...], message: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LC_ALL", "C")
    assert main(argv) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith(f"netcheck: {message}")
    assert err.count("\n") == 1


def test_files_in_the_wrong_order(api: StandIn, capsys: pytest.CaptureFixture[str]) -> None:
    api.fault = "`a.netck` is the rewired state"
    assert main(["compare", "a.netck", "b.netck"]) == 2
    assert capsys.readouterr() == ("", "netcheck: `a.netck` is the rewired state\n")


def test_help_and_version(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--version"]) == 0
    assert capsys.readouterr().out == f"netcheck {netcheck.__version__}\n"
    assert main(["--help"]) == 0
    assert "compare" in capsys.readouterr().out
    assert main([]) == 2
    assert "compare" in capsys.readouterr().err


def test_stand_in_reports_are_reports() -> None:
    """The stand-in's value is what a renderer takes, so that these tests can't drift from the real shape."""
    report = StandIn((E,)).report("check", Source("x", ""))
    assert replace(report, built=False).count(E) == 1
