"""The cautions of a set are on whatever hands are told of it: every command, every kind of file and the screen."""

import html
import re
from pathlib import Path

import pytest

from netcheck.cli import main
from netcheck.core.caution import ANODE, DISCHARGE, Dangers, cautions
from netcheck.sheets import bench, job
from netcheck.system.files import read, reader

SAMPLES = Path(__file__).parents[1] / "samples"
HOT, TELEVISION, SELENIUM = (cautions(Dangers(**{word: True}))[0] for word in ("hot", "television", "selenium"))
COMMON = cautions(Dangers())[0]
# A command, and the endings of all files that it writes in words.
OUTPUTS = [
    ("check {old}", "txt json"),
    ("compare {old} {new}", "txt json svg dot"),
    ("draw {old} {new}", "svg dot"),
    ("lugs {new}", "txt json"),
    ("lugs {new} --blank", "txt html csv"),
    ("supply {new}", "txt json"),
    ("bench {old} {new}", "txt html csv"),
    ("job {old} {new}", "txt html csv"),
    ("buy {new}", "txt html csv"),
]
# A set off the line, a television off the line, and a set behind a transformer.
SETS = {"skerry": (HOT, COMMON), "marram": (HOT, TELEVISION, COMMON), "harrow-point": (COMMON,)}


def _words(text: str) -> str:
    """Running words of any kind of output: without tags, a graph's boxes, breaks of lines and marks before them."""
    boxed = re.sub(r">> pos=.*\n\s*\w+ \[label=<<", "> <", text)
    plain = html.unescape(re.sub(r"<[^>]*>", " ", boxed)).replace("\n! ", "\n")
    return " ".join(plain.split())


def _command(command: str, folder: str) -> list[str]:
    names = {"old": SAMPLES / folder / "original.netck", "new": SAMPLES / folder / "rewired.netck"}
    return command.format(**names).split()


@pytest.mark.parametrize(("command", "kinds"), OUTPUTS)
@pytest.mark.parametrize("folder", SETS)
def test_every_file_of_a_set_has_its_cautions(command: str, kinds: str, folder: str, tmp_path: Path) -> None:
    papers = [tmp_path / f"paper.{kind}" for kind in kinds.split()]
    main([*_command(command, folder), *(word for paper in papers for word in ("-o", str(paper)))])
    for paper in papers:
        words = _words(paper.read_text(encoding="utf-8"))
        said = [line for line in (HOT, TELEVISION, COMMON) if line in words]
        assert said == list(SETS[folder]), paper.suffix


@pytest.mark.parametrize("command", [command for command, _ in OUTPUTS if not command.startswith("draw")])
def test_the_screen_has_them_as_well(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    main(_command(command, "marram"))
    words = _words(capsys.readouterr().out)
    assert all(line in words for line in SETS["marram"])


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
        assert ("no longer than the supply's readings take" in tables["Power-up: first"]) == television
        assert ("with the lamp, all readings" in tables["Power-up: first"]) != television
        assert (ANODE in tables[after]) == television
        assert DISCHARGE in tables[after]
