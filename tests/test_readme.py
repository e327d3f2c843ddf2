"""The README shows what the program really says and does."""

import re
from pathlib import Path

import pytest

from netcheck.cli import main
from netcheck.reports import FORMATS, PICTURES, SHEETS

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```(\w+)\n(.*?)```", README, flags=re.DOTALL)
NETCK = [text for kind, text in BLOCKS if kind == "netck"]
TEXT = [text for kind, text in BLOCKS if kind == "text"]
BEFORE, AFTER, DRAWN, DONE, LANGUAGE, READINGS = NETCK
CAN, TOUR, SUPPLY, EXPLAINED, VOLTS = TEXT
SAMPLE = "netcheck compare samples/one-can/original.netck samples/one-can/faulty.netck"


@pytest.fixture(autouse=True)
def _at_the_top(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)


def test_the_tour_shows_the_real_report(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([*SAMPLE.split()[1:], "--color", "never"]) == 1
    assert TOUR.strip() in capsys.readouterr().out


def test_the_tour_shows_the_real_supply(capsys: pytest.CaptureFixture[str]) -> None:
    main(["supply", "samples/skerry/original.netck", "--swap", "SE1=silicon", "--color", "never"])
    printed = set(capsys.readouterr().out.splitlines())
    assert len(SUPPLY.splitlines()) > 20
    assert set(SUPPLY.splitlines()) <= printed


def test_the_tour_shows_the_sample() -> None:
    sample = (ROOT / "samples" / "one-can" / "original.netck").read_text(encoding="utf-8")
    faulty = (ROOT / "samples" / "one-can" / "faulty.netck").read_text(encoding="utf-8").splitlines()
    assert sample == DRAWN
    assert set(DONE.splitlines()) <= set(faulty)


def test_the_first_can_has_ten_lines_and_finds_its_fault(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("before.netck").write_text(BEFORE, encoding="utf-8")
    Path("after.netck").write_text(AFTER, encoding="utf-8")
    assert len((BEFORE + AFTER).splitlines()) == 10
    assert main(["compare", "before.netck", "after.netck", "--color", "never"]) == 1
    printed = capsys.readouterr().out
    assert CAN.strip() in printed
    assert printed.endswith("\n1 STOP\n")
    Path("after.netck").write_text(AFTER.replace("C52 22 mfd 450 V plus C1.A", "C52 22 mfd 450 V plus C1.B"))
    capsys.readouterr()
    assert main(["compare", "before.netck", "after.netck", "--strict", "-o", "sheet.svg"]) == 0
    assert "STOP" not in capsys.readouterr().out
    assert Path("sheet.svg").exists()
    main(["compare", "before.netck", "after.netck"])
    assert "NOT CHECKED" in capsys.readouterr().out


def test_the_set_up_ends_with_the_line_that_it_says(capsys: pytest.CaptureFixture[str]) -> None:
    main(SAMPLE.split()[1:])
    last = capsys.readouterr().out.splitlines()[-1]
    assert f"ends with `{last}`" in " ".join(README.partition("## Your first can")[0].split())


@pytest.mark.parametrize("text", [LANGUAGE, READINGS])
def test_the_language_reads_without_a_syntax_message(text: str) -> None:
    from netcheck.core.source import Source
    from netcheck.language.parser import parse

    _, problems = parse(Source("README", text))
    assert problems == ()


def test_whoever_types_the_language_in_short_finds_nothing_wrong_in_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "short.netck").write_text(LANGUAGE, encoding="utf-8")
    assert main(["check", str(tmp_path / "short.netck"), "--lines"]) == 0
    assert "STOP" not in capsys.readouterr().out


@pytest.mark.parametrize("system", ["Windows", "macOS", "Linux"])
def test_each_system_has_a_way_of_its_own_that_ends_in_a_command_that_is_found(system: str) -> None:
    way = README.partition(f". **{system}.**")[2]
    lines = [line.strip() for line in way.partition("```")[2].partition("```")[0].splitlines()[1:]]
    folder = r".venv\Scripts" if system == "Windows" else ".venv/bin"
    assert len(lines) == 5 - 1 + (lines[-1] == "")
    made, installed, activated, run = [line for line in lines if line]
    assert made in ("py -m venv .venv", "python3 -m venv .venv")
    assert installed.startswith(folder)
    assert "&&" not in "".join(lines)  # the older shell of Windows knows none
    assert activated.endswith("activate")
    assert run == SAMPLE


def test_one_line_does_the_main_job_and_one_passes_the_tests() -> None:
    whole = [line for kind, text in BLOCKS if kind == "sh" for line in text.splitlines() if " && " in line]
    assert [line.rpartition(" && ")[2].split()[0] for line in whole] == [".venv/bin/netcheck", ".venv/bin/python"]
    ci = (ROOT / ".ci/run").read_text(encoding="utf-8")
    assert whole[1] in ci
    assert main([*whole[0].rpartition(" && ")[2].split()[1:], "--lines"]) == 1


@pytest.mark.parametrize("ending", sorted({*FORMATS, *PICTURES, *SHEETS}))
def test_every_kind_of_file_is_in_the_table_and_in_the_help(ending: str, capsys: pytest.CaptureFixture[str]) -> None:
    table = README.partition("| ending | for |")[2].partition("\n\n")[0]
    assert f"`{ending}`" in table
    main(["compare", "--help"])
    assert ending in SHEETS or re.search(rf"(?<![\w.]){re.escape(ending)}(?!\w)", capsys.readouterr().out)


def test_every_command_of_the_program_is_in_the_table(capsys: pytest.CaptureFixture[str]) -> None:
    main(["--help"])
    names = re.findall(r"^  (\w+)  ", capsys.readouterr().out.partition("Commands:")[2], flags=re.MULTILINE)
    assert len(names) >= 5
    for name in names:
        assert f"`netcheck {name}" in README


def test_the_settings_it_shows_can_be_read() -> None:
    from netcheck.core.source import Source
    from netcheck.settings.reader import settings

    (text,) = [text for kind, text in BLOCKS if kind == "toml"]
    said, problems = settings(Source("netcheck.toml", text))
    assert problems == ()
    assert said is not None


def test_every_option_that_it_names_is_one_of_the_program(capsys: pytest.CaptureFixture[str]) -> None:
    known = set()
    for command in ("record", "start", "all", "compare", "check", "supply", "bench"):
        main([command, "--help"])
        known |= set(re.findall(r"--[a-z-]+", capsys.readouterr().out))
    assert set(re.findall(r"`(--[a-z-]+)", README)) <= known


def test_the_picture_is_drawn_from_the_sample(tmp_path: Path) -> None:
    drawn = tmp_path / "faulty.svg"
    pair = [f"samples/harrow-point/{state}.netck" for state in ("original", "faulty")]
    main(["compare", *pair, "-o", str(drawn)])
    words = set(re.findall(r">([^<>]{3,})</text>", drawn.read_text(encoding="utf-8")))
    picture = (ROOT / "samples/harrow-point/faulty.svg").read_text(encoding="utf-8")
    kept = set(re.findall(r">([^<>]{3,})</text>", picture))
    assert words == kept


def test_it_says_what_is_dangerous() -> None:
    caution = " ".join(README.partition("## Caution")[2].partition("## For machines")[0].split())
    for words in (
        "Pull the plug, discharge every filter capacitor (10 kilohm, 5 W, on insulated clips, 30 s a section",
        "one hand in your pocket",
        "Run the set, not the instruments",
        "pull the plug, then leave the room and air it",
        "Discharge its anode to its own outer coating",
        "PCB",
        "asbestos",
    ):
        assert words in caution


def test_words_of_computers_stand_in_one_section_at_the_end() -> None:
    before = README.partition("## For machines")[0]
    words = r"JSON|CI|commit|exit status|repository|DOT|Graphviz|SARIF|JUnit|toml|netlist|graph|grammar|statement"
    assert not re.search(rf"\b({words})\b", before)


def test_the_readings_it_explains_are_a_case_that_is_explained_so() -> None:
    from netcheck.core.mend import Cut, spoken
    from tests.test_bench_explain import FAULTS

    words, mend = EXPLAINED.strip().splitlines()[-1].removeprefix("[ ] ").split("  ")
    parted = Cut("SP2.1", "SP2.2")
    assert FAULTS[words][0] == parted.line
    assert spoken((parted,)) == (mend,)


def test_the_tour_explains_real_voltages(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    read = {"V7.8": "285", "C30.B": "240", "SP1.4": "215", "SP1.5": "0", "C30.can": "-18"}
    rows = "".join(f"{point},chassis,{volts},volts\n" for point, volts in read.items())
    (tmp_path / "plan.csv").write_text(f"red,black,reading,table\n{rows}", encoding="utf-8")
    command = ["bench", "samples/harrow-point/rewired.netck", "--readings", str(tmp_path / "plan.csv")]
    assert main([*command, "--color", "never"]) == 1
    assert VOLTS.strip() in capsys.readouterr().out
