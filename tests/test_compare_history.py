"""Findings in the light of when: work in progress, three states, files in the wrong order."""

import pytest

from netcheck import api
from netcheck.core.diagnostic import Grade
from netcheck.core.errors import UsageFault
from netcheck.core.source import Source
from tests.paper import reader

ORIGINAL = """\
state drawn
resistor R1 470k
resistor R2 10k
capacitor C1 .02 mfd 400 V
net grid: R1.1, R2.1, C1.1
net ground: chassis, R1.2, R2.2, C1.2
"""
LIFTED = 'start from "original.netck"\nlift C1.1\n'
TEXTS = {
    "original.netck": ORIGINAL,
    "found.netck": "state found\n" + LIFTED,
    "unfinished.netck": "state rewired unfinished\n" + LIFTED,
    "rewired.netck": 'state rewired\nstart from "original.netck"\nlift R2.1\n',
    "mended.netck": 'state rewired\nstart from "found.netck"\nwire C1.1 to R1.1\n',
    "left.netck": 'state rewired\nstart from "found.netck"\nlift R2.1\n',
}
SOURCES = {name: Source(name, text) for name, text in TEXTS.items()}


def told(*names: str) -> list[tuple[Grade, str, str]]:
    sources = [SOURCES[name] for name in names]
    find = reader(TEXTS)
    report = (
        api.compare_three(sources[0], sources[1], sources[2], find)
        if len(sources) == 3
        else api.compare(sources[0], sources[1], find)
    )
    return [(d.grade, d.rule, d.headline) for d in report.diagnostics]


def test_what_is_missing_in_unfinished_work_is_still_to_do() -> None:
    assert told("original.netck", "unfinished.netck") == [
        (Grade.NOTE, "missing-connection", "still to do: C1.1 hangs free; it belongs on grid")
    ]


def test_unfinished_work_is_counted_in_the_closing_lines() -> None:
    report = api.compare(SOURCES["original.netck"], SOURCES["unfinished.netck"], reader(TEXTS))
    assert "the work is marked unfinished: 1 joint still to do" in report.closing


def test_what_was_so_before_the_work_is_told_apart_from_what_the_work_changed() -> None:
    assert told("original.netck", "found.netck", "left.netck") == [
        (Grade.STOP, "missing-connection", "R2.1 hangs free; it belongs on grid"),
        (Grade.LOOK, "missing-connection", "before the work: C1.1 hangs free; it belongs on grid"),
    ]


def test_what_the_work_put_right_is_a_note() -> None:
    found = told("original.netck", "found.netck", "mended.netck")
    assert [grade for grade, _, _ in found] == [Grade.LOOK, Grade.NOTE]
    assert found[1][2].startswith("back as drawn: ")


WRONG = {
    "exchanged": ("rewired.netck", "original.netck"),
    "two drawn": ("original.netck", "drawn-too.netck"),
    "rewired first": ("rewired.netck", "unfinished.netck"),
}


@pytest.mark.parametrize("case", list(WRONG))
def test_files_in_the_wrong_order_are_refused(case: str) -> None:
    texts = {**TEXTS, "drawn-too.netck": ORIGINAL}
    first, second = (Source(name, texts[name]) for name in WRONG[case])
    with pytest.raises(UsageFault, match=r"first|drawn"):
        api.compare(first, second, reader(texts))


def test_three_files_out_of_order_are_refused() -> None:
    with pytest.raises(UsageFault, match="comes first"):
        told("found.netck", "original.netck", "mended.netck")
