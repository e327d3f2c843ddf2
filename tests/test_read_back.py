"""Sentence, picture and lines of a finding ask for the same; where one of them is altered by hand, that is noticed."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from netcheck.core.circuit import Circuit, How
from netcheck.core.diagnostic import Diagnostic
from netcheck.core.mend import lines
from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.model.build import build
from netcheck.reports.drawing import A4, sheet, sheet_svg
from tests.paper import REWIRED, compared, reader
from tests.read_back import Mark, complaints
from tests.test_mends import after, board, boards, grave, key, slipped
from tests.test_reports_drawing_properties import root_of

ROOT = Path(__file__).parents[1]


@dataclass(frozen=True, slots=True)
class Read:
    """One finding as it is told three times, and where each lead is soldered now."""

    do: str
    lines: tuple[str, ...]
    marks: tuple[Mark, ...]
    sites: dict[str, frozenset[str]]

    def complaints(self) -> list[str]:
        return complaints(self.do, self.lines, self.marks, self.sites)


def sites_of(circuit: Circuit) -> dict[str, frozenset[str]]:
    """The points that each point has a joint with; a net's name counts where nothing else is known."""
    found: dict[str, frozenset[str]] = {}
    for at, point in enumerate(circuit.points):
        ends = [(j.how, j.b if j.a == at else j.a) for j in circuit.joins if at in (j.a, j.b)]
        held = [(how, end) for how, end in ends if how not in (How.INSIDE, How.BOND)]
        known = [end for how, end in held if how is not How.NET] or [end for _, end in held]
        if point.part or point.name == "chassis":
            found[point.name] = frozenset(circuit.points[end].name for end in known)
    return found


def marks_of(report: Report, finding: Diagnostic) -> tuple[Mark, ...]:
    alone = msgspec.structs.replace(report, diagnostics=(finding,))
    groups = root_of(sheet_svg(sheet(alone, A4), alone)).getElementsByTagName("g")
    return tuple(
        (g.getAttribute("data-mark"), g.getAttribute("data-act"), frozenset(g.getAttribute("data-at").split()))
        for g in groups
        if g.hasAttribute("data-act")
    )


def told(original: str, rewired: str) -> Iterator[Read]:
    report = compared(original, rewired)
    circuit, _ = build(Source(REWIRED, rewired), reader({"original.netck": original, REWIRED: rewired}))
    assert circuit is not None
    for finding in grave(report):
        if finding.mends:
            yield Read(finding.do, lines(finding.mends[0]), marks_of(report, finding), sites_of(circuit))


@settings(max_examples=40)
@given(boards(), st.data())
def test_a_finding_asks_for_the_same_in_words_picture_and_lines(places: list[list[str]], data: st.DataObject) -> None:
    for read in told(board(places), slipped(places, data)):
        assert read.complaints() == [], read.do


def _samples() -> list[tuple[str, Read]]:
    found = []
    for folder in (ROOT / "samples" / name for name in ("harrow-point", "skerry")):
        texts = [(folder / f"{name}.netck").read_text(encoding="utf-8") for name in ("original", "faulty")]
        found += [(f"{folder.name}: {read.do[:60]}", read) for read in told(texts[0], texts[1])]
    return found


SAMPLES = _samples()
READS = [read for _, read in SAMPLES]
IDS = [name for name, _ in SAMPLES]


@pytest.mark.parametrize("read", READS, ids=IDS)
def test_the_findings_of_a_sample_ask_for_the_same(read: Read) -> None:
    assert read.complaints() == []


def _points(read: Read) -> list[str]:
    """The points that the lines name; a part that is bonded is none."""
    words = [re.split(r"[ :]+", line) for line in read.lines if not line.startswith(("change", "remove"))]
    named = [word for line in words for word in line[1:] if word in read.sites]
    return list(dict.fromkeys(named))


def _others(read: Read, point: str) -> str:
    """Another lead, lug or pin of the same thing, that the finding does not name."""
    part = re.split(r"[.+-]", point)[0]
    own = [name for name in read.sites if re.split(r"[.+-]", name)[0] == part and name not in _points(read)]
    rest = [name for name in read.sites if name not in _points(read) and name != point]
    return (own or rest)[0]


def _put(words: str, old: str, new: str) -> str:
    return re.sub(rf"(?<![\w.+-]){re.escape(old)}(?![\w.+-])", lambda _: new, words)


ORDERED = [(read, point) for read in READS for point in _points(read)]


@pytest.mark.parametrize(("read", "point"), ORDERED)
def test_another_point_in_the_sentence_is_noticed(read: Read, point: str) -> None:
    first, *rest = read.do.split("; or ")
    altered = _put(first, point, _others(read, point))
    assert altered != first or point not in first
    if altered != first:
        assert replace(read, do="; or ".join([altered, *rest])).complaints()


@pytest.mark.parametrize(("read", "point"), ORDERED)
def test_another_point_in_the_lines_is_noticed(read: Read, point: str) -> None:
    altered = tuple(_put(line, point, _others(read, point)) for line in read.lines)
    assert replace(read, lines=altered).complaints()


@pytest.mark.parametrize(("read", "point"), ORDERED)
def test_a_mark_at_another_point_is_noticed(read: Read, point: str) -> None:
    assert any(point in at for _, _, at in read.marks)
    altered = tuple(
        (mark, act, frozenset(_others(read, point) if at == point else at for at in there))
        for mark, act, there in read.marks
    )
    assert replace(read, marks=altered).complaints()


@pytest.mark.parametrize("read", READS, ids=IDS)
def test_an_act_left_out_of_the_lines_is_noticed(read: Read) -> None:
    for n in range(len(read.lines)):
        assert replace(read, lines=read.lines[:n] + read.lines[n + 1 :]).complaints()


@pytest.mark.parametrize("read", READS, ids=IDS)
def test_a_mark_left_out_of_the_picture_is_noticed(read: Read) -> None:
    for n, mark in enumerate(read.marks):
        rest = read.marks[:n] + read.marks[n + 1 :]
        alone = sum(1 for other in read.marks if other[:2] == mark[:2]) == 1
        assert not alone or replace(read, marks=rest).complaints(), mark


@pytest.mark.parametrize("read", READS, ids=IDS)
def test_an_order_left_out_of_the_sentence_is_noticed(read: Read) -> None:
    first, *rest = read.do.split("; or ")
    start, colon, words = first.rpartition(": ") if first.startswith(("turn", "exchange")) else ("", "", first)
    orders = re.split(r"; |, (?=[^ ]+ to )", words)
    for n in range(len(orders) if len(orders) > 1 else 0):
        left = ", ".join(orders[:n] + orders[n + 1 :])
        assert replace(read, do="; or ".join([f"{start}{colon}{left}", *rest])).complaints()


def _joined(read: Read) -> Sequence[str]:
    return [line for line in read.lines if line.startswith(("wire", "cut"))]


@pytest.mark.parametrize("read", [read for read in READS if _joined(read)])
def test_a_joint_made_where_one_is_undone_is_noticed(read: Read) -> None:
    turned = {"cut": "wire", "wire": "cut"}
    altered = tuple(re.sub(r"^(cut|wire)", lambda m: turned[m[1]], line) for line in read.lines)
    assert replace(read, lines=altered).complaints()


@pytest.mark.parametrize("sample", ["one-can", "skerry"])
def test_an_order_altered_alike_in_all_three_does_not_put_the_chassis_right(sample: str) -> None:
    """What the three have in common is held by the chassis itself: the order is carried out and compared again."""
    folder = ROOT / "samples" / sample
    original, faulty = ((folder / f"{name}.netck").read_text(encoding="utf-8") for name in ("original", "faulty"))
    findings = [finding for finding in grave(compared(original, faulty)) if finding.mends]
    for finding, read in zip(findings, told(original, faulty), strict=True):
        point = _points(read)[-1]
        altered = tuple(_put(line, point, _others(read, point)) for line in read.lines)
        report = after(original, faulty, [altered])
        assert not report.built or key(finding) in map(key, grave(report)) or len(grave(report)) >= len(findings)
