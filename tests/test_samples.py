"""Each sample does what its first comment says: the correct states are silent, the faulty ones tell each fault once."""

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from netcheck.api import check, compare
from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.errors import UsageFault
from netcheck.core.report import Report
from netcheck.model.build import build
from netcheck.system.files import read, reader

SAMPLES = Path(__file__).parents[1] / "samples"
FOLDERS = sorted(path.name for path in SAMPLES.iterdir())
LARGE = [name for name in FOLDERS if name != "one-can"]
RIGHT = sorted(
    path.relative_to(SAMPLES).as_posix() for path in SAMPLES.glob("*/*.netck") if path.name != "faulty.netck"
)
NOTED = re.compile(r"^# Noted: ([\w-]+) ([^:]+): \S", re.MULTILINE)
PLANTED = re.compile(r"# (\d+)\. ([\w-]+) ([^:]+): \S")
FAULTS_OF_THE_JOB = {
    "floating-ground", "reversed-electrolytic", "reversed-rectifier", "extra-connection", "lead-on-wrong-net",
    "missing-connection", "return-on-wrong-common", "rating-too-low",
}  # fmt: skip
SMALLEST = 60  # parts of a set of the real size


@dataclass(frozen=True, slots=True)
class Planted:
    """A fault as the first comment of a faulty state lists it."""

    rule: str
    subjects: tuple[str, ...]


@cache
def comparison(folder: str, state: str) -> Report:
    first, second = read(SAMPLES / folder / "original.netck"), read(SAMPLES / folder / f"{state}.netck")
    return compare(first, second, reader(first, second))


def planted(folder: str) -> tuple[Planted, ...]:
    text = (SAMPLES / folder / "faulty.netck").read_text(encoding="utf-8")
    comment = re.match(r"(?:#.*\n)+", text)
    assert comment is not None
    found = PLANTED.findall(comment[0])
    assert [int(number) for number, _, _ in found] == list(range(1, len(found) + 1))
    expected = re.search(r"^# Expected: (\d+) STOP\.$", comment[0], re.MULTILINE)
    assert expected is not None
    assert int(expected[1]) == len(found)
    return tuple(Planted(rule, tuple(subject.split())) for _, rule, subject in found)


def names(diagnostic: Diagnostic, fault: Planted) -> bool:
    """Whether a finding is about the planted lead; a bridge is between two lugs, which no lead is named after."""
    if diagnostic.rule != fault.rule:
        return False
    touched = {*diagnostic.touched.leads, *diagnostic.touched.parts}
    said = " ".join((diagnostic.headline, diagnostic.do, *(label.place.text for label in diagnostic.labels)))
    words = set(re.findall(r"[\w.+-]+", said))
    return all(subject in touched or subject in words for subject in fault.subjects)


def graver(report: Report) -> list[Diagnostic]:
    return [d for d in report.diagnostics if d.grade is not Grade.NOTE]


@pytest.mark.parametrize("state", [state for state in RIGHT if not state.endswith("original.netck")])
def test_a_correct_state_compares_without_error_or_warning(state: str) -> None:
    report = comparison(*state.removesuffix(".netck").split("/"))
    assert report.built
    assert graver(report) == []


@pytest.mark.parametrize("folder", FOLDERS)
def test_each_planted_fault_is_told_once_and_nothing_else(folder: str) -> None:
    report, faults = comparison(folder, "faulty"), planted(folder)
    told = graver(report)
    assert [d.grade for d in told] == [Grade.STOP] * len(faults)
    findings = {fault: [d.headline for d in told if names(d, fault)] for fault in faults}
    assert {fault: headlines for fault, headlines in findings.items() if len(headlines) != 1} == {}
    assert len({headlines[0] for headlines in findings.values()}) == len(faults)


@pytest.mark.parametrize("folder", FOLDERS)
def test_a_finding_shows_both_files(folder: str) -> None:
    for diagnostic in graver(comparison(folder, "faulty")):
        files = [Path(label.place.source.name).name for label in diagnostic.labels]
        assert set(files) == {"faulty.netck", "original.netck"}, diagnostic.headline
        assert files[0] == "faulty.netck"
        assert diagnostic.panel is not None


def test_the_samples_hold_every_fault_that_the_tool_exists_for() -> None:
    rules = {fault.rule for folder in FOLDERS for fault in planted(folder)}
    assert rules >= FAULTS_OF_THE_JOB


@pytest.mark.parametrize("state", RIGHT)
def test_a_correct_state_checks_without_a_word_but_the_notes_that_it_lists(state: str) -> None:
    source = read(SAMPLES / state)
    report = check(source, reader(source))
    assert report.built
    found = {(d.grade, d.rule, d.touched.parts) for d in report.diagnostics}
    assert found == {(Grade.NOTE, rule, tuple(parts.split())) for rule, parts in NOTED.findall(source.text)}
    assert len(report.diagnostics) == len(found)


def test_what_the_original_did_not_stand_either_is_told_of_the_new_part_as_a_note() -> None:
    notes = [d for d in comparison("harrow-point", "rewired").diagnostics if d.rule == "rating-too-low"]
    assert [(d.grade, d.touched.parts) for d in notes] == [(Grade.NOTE, ("C62",))]
    assert notes[0].headline == "in the original too: C62 is rated 450 V; cold, on a high line, it sees 474 V"


@pytest.mark.parametrize("folder", LARGE)
def test_a_large_sample_is_of_the_real_size(folder: str) -> None:
    for state in ("original", "rewired", "faulty"):
        source = read(SAMPLES / folder / f"{state}.netck")
        circuit, _ = build(source, reader(source))
        assert circuit is not None
        assert len([part for part in circuit.parts.values() if part.leads]) >= SMALLEST
    assert len(planted(folder)) >= 5


@pytest.mark.parametrize("folder", FOLDERS)
def test_files_in_the_wrong_order_or_of_the_wrong_state_are_refused(folder: str) -> None:
    original, rewired, faulty = (read(SAMPLES / folder / f"{s}.netck") for s in ("original", "rewired", "faulty"))
    with pytest.raises(UsageFault, match="wrong order"):
        compare(rewired, original, reader(rewired, original))
    with pytest.raises(UsageFault, match="the first file is the original"):
        compare(rewired, faulty, reader(rewired, faulty))
