"""Many chassis in one run: what is looked at, what is written, one exit status; no file hides another."""

import json
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from netcheck.cli import main
from tests.formats import junit_schema, page, sarif_schema

ROOT = Path(__file__).parents[1]
CAN = ROOT / "samples/one-can"

BOTH = """
[chassis.good]
drawn = "good/original.netck"
rewired = "good/rewired.netck"

[chassis.bad]
drawn = "bad/original.netck"
rewired = "bad/faulty.netck"
"""


@pytest.fixture(autouse=True)
def _repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("NO_COLOR", "1")
    for name, state in (("good", "rewired"), ("bad", "faulty")):
        Path(name).mkdir()
        for file in ("original.netck", f"{state}.netck"):
            Path(name, file).write_text((CAN / file).read_text(encoding="utf-8"), encoding="utf-8")


def say(text: str) -> None:
    Path("netcheck.toml").write_text(text, encoding="utf-8")


def test_those_to_look_at_are_shown_whole_and_each_has_a_line(capsys: pytest.CaptureFixture[str]) -> None:
    say(BOTH)
    assert main(["all"]) == 1
    out, err = capsys.readouterr()
    assert err == ""
    assert out.startswith("netcheck all bad: bad/original.netck, bad/faulty.netck\n\n1  STOP  C4")
    assert "netcheck all good" not in out
    assert out.endswith(
        "\ngood  1 NOTE  (drawn, rewired)\n"
        "bad   2 STOP, 1 NOTE  (drawn, rewired)\n"
        "NOT CHECKED: something in 2 of 2 chassis; their reports say what, at the end\n"
        "2 chassis: 2 STOP, 2 NOTE\n"
    )


def test_one_can_be_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    say('outputs = ["all.txt", "{chassis}.txt"]\n' + BOTH)
    assert main(["all", "good"]) == 0
    assert capsys.readouterr().out.startswith("netcheck all good: ")
    assert Path("good.txt").exists()
    assert not Path("all.txt").exists()  # it would not hold all
    assert main(["all", "godo"]) == 2
    assert capsys.readouterr().err == "netcheck: there is no chassis `godo`; did you mean `good`?\n"


def test_every_file_asked_for_is_written_and_written_anew() -> None:
    say(
        'outputs = ["out/{chassis}.txt", "out/{chassis}.svg", "out/all.xml", "out/deep/all.sarif"]\n'
        + BOTH
        + 'outputs = ["{chassis}.codequality.json"]\n'
    )
    for _ in range(2):
        assert main(["all", "-o", "more.csv", "-o", "{chassis}.md"]) == 1
    written = sorted(path.as_posix() for path in Path().rglob("*") if path.suffix not in ("", ".netck", ".toml"))
    assert written == [
        "bad.codequality.json", "bad.md", "good.md", "more.csv", "out/all.xml", "out/bad.svg", "out/bad.txt",
        "out/deep/all.sarif", "out/good.svg", "out/good.txt",
    ]  # fmt: skip
    junit_schema().validate("out/all.xml")
    suites = ET.parse("out/all.xml").getroot()  # noqa: S314 - our own text
    assert [(suite.get("name"), suite.get("failures")) for suite in suites] == [
        ("netcheck all good: good/original.netck, good/rewired.netck", "0"),
        ("netcheck all bad: bad/original.netck, bad/faulty.netck", "2"),
    ]
    sarif_schema().validate(json.loads(Path("out/deep/all.sarif").read_text(encoding="utf-8")))


def test_files_that_were_written_are_named_up_to_a_dozen_and_counted_beyond(capsys: pytest.CaptureFixture[str]) -> None:
    endings = ("txt", "json", "md", "csv", "sarif", "xml")
    named = ", ".join(f'"out/{{chassis}}.{ending}"' for ending in endings)
    say(f"outputs = [{named}]\n" + BOTH)
    assert main(["all"]) == 1
    told = capsys.readouterr().out.splitlines()[-12:]
    assert told == [f"out/{name}.{ending} written" for name in ("good", "bad") for ending in endings]
    assert main(["all", "-o", "one/{chassis}.csv"]) == 1
    out = capsys.readouterr().out
    assert out.endswith("\n14 files written\n")
    assert ".csv written" not in out


def test_a_record_of_each_chassis_has_what_the_settings_accept(capsys: pytest.CaptureFixture[str]) -> None:
    alone = '[chassis.alone]\ndrawn = "good/original.netck"\n'
    say('outputs = ["{chassis}.html"]\n' + alone + BOTH + ACCEPT.format("rating-too-low", "C41"))
    assert main(["all"]) == 2
    assert capsys.readouterr().err == (
        "netcheck: alone: a record (.html) is of two states, and only `drawn` is named\n"
    )
    record = Path("bad.html").read_text(encoding="utf-8")
    assert "Do not plug it in: 1 finding to mend first." in record
    assert "the last one in stock" in record
    assert "Do not plug it in" not in Path("good.html").read_text(encoding="utf-8")
    assert not Path("alone.html").exists()


def test_the_summary_of_all_has_a_line_for_each_and_folds_the_rest() -> None:
    good = '[chassis.clean]\ndrawn = "good/original.netck"\n'
    say('outputs = ["all.md"]\n' + good + BOTH)
    assert main(["all"]) == 1
    text = Path("all.md").read_text(encoding="utf-8")
    shown = page(text)
    lines = [line for line in text.splitlines() if line.startswith("- ")]
    assert lines[0].endswith(": 1 NOTE")
    assert lines[1].endswith(": 2 STOP, 1 NOTE")
    assert lines[2] == "- no findings in 1 of 3"
    folded = shown.partition("<details><summary>What was looked at, and what was not</summary>")[2]
    assert "<li>bad: NOT CHECKED: 2 parts outside `covers`</li>" in folded.partition("</details>")[0]
    assert "Pull the plug" in folded.partition("</details>")[2]


def test_two_processes_do_what_one_does(capsys: pytest.CaptureFixture[str]) -> None:
    say('outputs = ["{chassis}.json", "all.json"]\n' + BOTH)
    told = []
    for processes in ("1", "2"):
        assert main(["all", "--processes", processes]) == 1
        files = [Path(name).read_bytes() for name in ("good.json", "bad.json", "all.json")]
        told.append((capsys.readouterr(), files))
    assert told[0] == told[1]


WRONG = {
    "no such file": ('[chassis.gone]\ndrawn = "good/orignal.netck"\n', "did you mean `original.netck`?"),
    "not to be built": ('[chassis.gone]\ndrawn = "broken.netck"\n', "no statement begins with `resister`"),
    "wrong order": (
        '[chassis.gone]\ndrawn = "bad/faulty.netck"\nrewired = "bad/original.netck"\n',
        "bad/faulty.netck starts from bad/original.netck",
    ),
    "in UTF-16": ('[chassis.gone]\ndrawn = "wide.netck"\n', "wide.netck:1:1: the file is in UTF-16"),
}


@pytest.mark.parametrize("case", WRONG)
def test_one_wrong_file_hides_no_other(case: str, capsys: pytest.CaptureFixture[str]) -> None:
    Path("broken.netck").write_text("resister R1 1k\n")
    Path("wide.netck").write_text("resistor R1 1k\n", encoding="utf-16")
    text, message = WRONG[case]
    say('outputs = ["{chassis}.txt", "all.md"]\n' + text + BOTH)
    assert main(["all"]) == 2
    out = capsys.readouterr().out
    assert message in " ".join(out.split())
    assert "  STOP  C41 (in place of C20A) is rated 350 V" in out
    assert "gone  1 STOP, not built" in out
    assert all(Path(f"{name}.txt").exists() for name in ("gone", "good", "bad"))
    assert "1 of 3 chassis could not be looked at" in Path("all.md").read_text(encoding="utf-8")


def test_a_file_that_cannot_be_written_hides_no_other(capsys: pytest.CaptureFixture[str]) -> None:
    say('outputs = ["{chassis}.txt"]\n' + BOTH)
    Path("good.txt").write_text("my own notes\n")
    assert main(["all"]) == 2
    err = capsys.readouterr().err
    assert err.startswith("netcheck: good: `good.txt` is there already and netcheck did not write it")
    assert Path("good.txt").read_text() == "my own notes\n"
    assert Path("bad.txt").exists()


def test_no_file_is_written_outside_of_the_settings_folder(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("inside").mkdir()
    outside = tmp_path / "outside"
    outside.mkdir()
    Path("inside/reports").symlink_to(outside)
    Path("inside/netcheck.toml").write_text(
        'outputs = ["reports/{chassis}.txt"]\n[chassis.a]\ndrawn = "a.netck"\n', encoding="utf-8"
    )
    Path("inside/a.netck").write_text((CAN / "original.netck").read_text(encoding="utf-8"))
    assert main(["all", "--settings", "inside/netcheck.toml"]) == 2
    assert "leads out of the folder of the settings" in capsys.readouterr().err
    assert not list(outside.iterdir())


ACCEPT = '[[chassis.bad.accept]]\nrule = "{}"\nname = "{}"\nreason = "the last one in stock"\n'


def test_what_is_accepted_counts_no_more_and_keeps_its_reason(capsys: pytest.CaptureFixture[str]) -> None:
    accepted = ACCEPT.format("rating-too-low", "C41") + ACCEPT.format("lead-on-wrong-net", "C42+")
    say(BOTH + accepted)
    assert main(["all", "--strict"]) == 0
    assert '[lead-on-wrong-net] "the last one in stock"' in " ".join(_shown("bad", capsys).split())


def _shown(name: str, capsys: pytest.CaptureFixture[str]) -> str:
    capsys.readouterr()
    main(["all", name])
    return capsys.readouterr().out


def test_what_accepts_nothing_is_told_at_its_line(capsys: pytest.CaptureFixture[str]) -> None:
    say(BOTH + ACCEPT.format("rating-too-low", "C42"))
    assert main(["all", "--lines"]) == 1
    line = len(BOTH.splitlines()) + 1
    assert f"netcheck.toml:{line}:3: LOOK: this line accepts nothing: no rating-too-low" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (ACCEPT.format("rating-to-low", "C41"), "there is no rule `rating-to-low`"),
        (ACCEPT.format("rating-to-low", "C41"), "do: did you mean `rating-too-low`?"),
        (ACCEPT.format("xyz", "C41"), "do: `netcheck why` lists the rules"),
        ('outputs = ["{chassis}.gif"]\n', "`{chassis}.gif` ends in none of .txt, .json,"),
        ("strickt = true\n", "there is no key `strickt` in chassis `bad`"),
    ],
)
def test_settings_that_cannot_be_followed_stop_the_run(
    text: str, told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    say(BOTH + text)
    assert main(["all"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert told in " ".join(err.split())


def test_a_picture_of_all_is_no_picture(capsys: pytest.CaptureFixture[str]) -> None:
    say('outputs = ["all.svg"]\n' + BOTH)
    assert main(["all"]) == 2
    assert "pictures and records are of one chassis, with `{chassis}` in its path" in " ".join(
        capsys.readouterr().err.split()
    )


@pytest.mark.parametrize(
    ("everywhere", "here", "option", "status"),
    [("", "", "", 0), ("true", "", "", 1), ("", "true", "", 1), ("true", "false", "", 0), ("", "", "--strict", 1)],
)
def test_strictness(everywhere: str, here: str, option: str, status: int) -> None:
    loose = "state drawn\nresistor R1 1k\nresistor R2 1k\nplug P1 2 pins\nnet a: P1.1, R1.1\nnet b: P1.2, R1.2, R2.1\n"
    Path("loose.netck").write_text(loose)
    head = f"strict = {everywhere}\n" if everywhere else ""
    own = f"strict = {here}\n" if here else ""
    say(f'{head}[chassis.a]\ndrawn = "loose.netck"\n{own}')
    assert main(["all", *option.split()]) == status


def test_the_settings_are_found_in_a_folder_above(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    say(BOTH)
    monkeypatch.chdir("bad")
    assert main(["all", "good"]) == 0
    monkeypatch.chdir("/")
    assert main(["all"]) == 2
    assert capsys.readouterr().err == (
        "netcheck: there is no netcheck.toml in this folder or above;"
        " `netcheck start DIRECTORY` makes one to begin with\n"
    )


def test_annotations_of_all_stand_alone(capsys: pytest.CaptureFixture[str]) -> None:
    say('outputs = ["{chassis}.txt"]\n' + BOTH)
    assert main(["all", "--annotate", "github"]) == 1
    lines = capsys.readouterr().out.splitlines()
    assert len([line for line in lines if line.startswith("::error file=bad/faulty.netck,")]) == 2
    assert all(line.startswith("::") for line in lines)


def test_mistakes_in_settings_are_annotations_too(capsys: pytest.CaptureFixture[str]) -> None:
    say(BOTH + "strickt = true\n")
    assert main(["all", "--annotate", "github"]) == 2
    out, err = capsys.readouterr()
    assert out.startswith("::error file=netcheck.toml,line=9,endLine=9,col=1,endColumn=7,title=1 STOP settings::")
    assert err == ""


def test_the_schema_can_be_had(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["all", "--schema"]) == 0
    assert json.loads(capsys.readouterr().out)["title"] == "netcheck.toml"


@pytest.mark.parametrize("output", ["{chassis}.txt", "all.txt"])
def test_a_netlist_by_another_name_is_never_replaced(capsys: pytest.CaptureFixture[str], output: str) -> None:
    say(f'outputs = ["{output}"]\n' + BOTH)
    netlist = Path("bad/original.netck")
    typed = netlist.read_bytes()
    Path(output.format(chassis="bad")).symlink_to(netlist)
    assert main(["all", "--overwrite"]) == 2
    assert "bad/original.netck`, which this run reads; name another file to write" in capsys.readouterr().err
    assert netlist.read_bytes() == typed
