"""Each sample with a conversion: told as it is meant it is silent, and any end of a new part elsewhere is not."""

import re
from pathlib import Path

import pytest

from netcheck.core.diagnostic import Grade
from netcheck.core.report import Report
from tests.paper import compared

SAMPLES = Path(__file__).parents[1] / "samples"
FOLDERS = sorted(path.name for path in SAMPLES.iterdir())
TEXTS = {folder: (SAMPLES / folder / "converted.netck").read_text(encoding="utf-8") for folder in FOLDERS}
DIODES = sorted(
    (folder, line) for folder, text in TEXTS.items() for line in re.findall(r"^diode .*$", text, re.MULTILINE)
)
MEANT = sorted(
    (folder, line) for folder, text in TEXTS.items() for line in re.findall(r"^meant .*$", text, re.MULTILINE)
)
STRAY = "SP91.1"


def report_of(folder: str, text: str) -> Report:
    return compared((SAMPLES / folder / "original.netck").read_text(encoding="utf-8"), text)


def graver(report: Report) -> list[tuple[Grade, str]]:
    return [(d.grade, d.rule) for d in report.diagnostics if d.grade is not Grade.NOTE]


@pytest.mark.parametrize("folder", FOLDERS)
def test_a_conversion_says_where_what_it_adds_is_meant_to_be(folder: str) -> None:
    text = TEXTS[folder]
    assert graver(report_of(folder, text)) == []
    added = re.findall(r"^(\w+) (\w+)\b.* added \"", text, re.MULTILINE)
    leads = {lead for _, line in MEANT if line in text for lead in re.findall(r"\b(\w+)[.+-]", line.split(":")[1])}
    assert {name for _, name in added} == leads != set()


def test_a_diode_stands_for_one_plate_of_a_tube_or_for_a_stack() -> None:
    claims = {re.sub(r".*replaces ", "", line) for _, line in DIODES}
    assert claims == {"V7.plate-1", "V7.plate-2", "V6.plate-1", "V6.plate-2", "SE1", "SE2", "CR1"}


@pytest.mark.parametrize(("folder", "line"), DIODES)
def test_a_diode_turned_round_is_a_stop_that_names_it(folder: str, line: str) -> None:
    turned = re.sub(r"anode (\S+) cathode (\S+)", r"anode \2 cathode \1", line)
    assert turned != line
    report = report_of(folder, TEXTS[folder].replace(line, turned))
    stops = [d for d in report.diagnostics if d.grade is Grade.STOP]
    assert any(line.split()[1] in d.touched.parts for d in stops), [d.headline for d in stops]


@pytest.mark.parametrize(("folder", "line"), DIODES)
def test_a_diode_with_an_end_on_an_empty_lug_is_a_stop(folder: str, line: str) -> None:
    strayed = re.sub(r"cathode \S+", f"cathode {STRAY}", line)
    report = report_of(folder, TEXTS[folder].replace(line, strayed) + "strip SP91 3 lugs\n")
    assert Grade.STOP in [grade for grade, _ in graver(report)]


@pytest.mark.parametrize(("folder", "line"), MEANT)
def test_what_is_added_is_looked_for_where_it_is_meant_and_asked_for_where_nothing_is_said(
    folder: str, line: str
) -> None:
    lead = line.split(":")[1].split(",", maxsplit=1)[0].strip()
    part, text = lead.split(".")[0], TEXTS[folder]
    assert (Grade.LOOK, "part-added") in graver(report_of(folder, text.replace(line, "")))
    place = {"1": "from", "2": "to"}.get(lead[-1])
    if place is None:
        return  # a cord's lead is put to its place by a line of its own
    moved = re.sub(rf"^(resistor {part} .*{place} )\S+", rf"\g<1>{STRAY}", text, count=1, flags=re.MULTILINE)
    assert moved != text
    assert Grade.STOP in [grade for grade, _ in graver(report_of(folder, moved + "strip SP91 3 lugs\n"))]


@pytest.mark.parametrize("folder", ["skerry", "marram"])
def test_hot_and_neutral_exchanged_is_a_stop(folder: str) -> None:
    other = {"hot": "neutral", "neutral": "hot"}
    lines = (
        line if line.startswith("meant") else re.sub(r"P2\.(hot|neutral)", lambda m: f"P2.{other[m[1]]}", line)
        for line in TEXTS[folder].splitlines()
    )
    assert Grade.STOP in [grade for grade, _ in graver(report_of(folder, "\n".join(lines) + "\n"))]
