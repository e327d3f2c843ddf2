"""Findings in the light of when: work in progress, three states, files in the wrong order."""

import pytest

from netcheck import api
from netcheck.compare.words.past import in_the_past
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
FILTER = "electrolytic C1 20 mfd 450 V\nresistor R1 22k\nnet B+: C1+, R1.1\nnet ground: chassis, C1-, R1.2\n"
TURNED = FILTER.replace("C1+", "C1x").replace("C1-", "C1+").replace("C1x", "C1-")
TEXTS = {
    "original.netck": ORIGINAL,
    "found.netck": "state found\n" + LIFTED,
    "unfinished.netck": "state rewired unfinished\n" + LIFTED,
    "rewired.netck": 'state rewired\nstart from "original.netck"\nlift R2.1\n',
    "mended.netck": 'state rewired\nstart from "found.netck"\nwire C1.1 to R1.1\n',
    "astray.netck": 'state rewired\nstart from "found.netck"\nwire C1.1 to R1.2\n',
    "other.netck": 'state found\nstart from "original.netck"\nchange R2 47k\n',
    "left-other.netck": 'state rewired\nstart from "other.netck"\n',
    "back.netck": 'state rewired\nstart from "other.netck"\nchange R2 10k\n',
    "left.netck": 'state rewired\nstart from "found.netck"\nlift R2.1\n',
    "idle.netck": 'state found\nstart from "original.netck"\nwire R1.1 to R2.1 white intended "a better joint"\n',
    "left-idle.netck": 'state rewired\nstart from "idle.netck"\n',
    "turned.netck": f"state found\n{TURNED}",
    "right-way.netck": 'state rewired\nstart from "filter.netck"\n',
    "filter.netck": FILTER,
}
IDLE = "the intended wire of `R1.1`, `R2.1` changes nothing in the original"
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


def test_what_was_found_and_is_still_so_is_as_grave_as_what_the_work_did() -> None:
    assert sorted(told("original.netck", "found.netck", "left.netck"), key=lambda one: one[2]) == [
        (Grade.STOP, "missing-connection", "R2.1 hangs free; it belongs on grid"),
        (Grade.STOP, "missing-connection", "still as found: C1.1 hangs free; it belongs on grid"),
    ]


def test_what_was_found_and_is_mended_is_a_note_and_asks_for_nothing() -> None:
    drawn, found, rewired = (SOURCES[name] for name in ("original.netck", "found.netck", "mended.netck"))
    (note,) = api.compare_three(drawn, found, rewired, reader(TEXTS)).diagnostics
    assert (note.grade, note.headline) == (Grade.NOTE, "found and mended: C1.1 hung free; it belongs on grid")
    assert not note.do
    assert not note.mends


def test_a_line_that_was_found_idle_and_still_is_is_told_so_though_it_names_no_lead() -> None:
    assert told("original.netck", "idle.netck", "left-idle.netck") == [
        (Grade.LOOK, "unused-intent", f"still as found: {IDLE}"),
    ]


def test_what_would_have_burst_and_is_mended_burns_nothing() -> None:
    drawn, found, rewired = (SOURCES[name] for name in ("filter.netck", "turned.netck", "right-way.netck"))
    (then,) = api.compare(drawn, found, reader(TEXTS)).diagnostics
    (now,) = api.compare_three(drawn, found, rewired, reader(TEXTS)).diagnostics
    assert (then.rule, then.grade, then.burns) == ("reversed-electrolytic", Grade.STOP, True)
    assert (now.rule, now.grade, now.burns) == ("reversed-electrolytic", Grade.NOTE, False)


def test_what_was_found_free_and_is_on_a_wrong_net_now_is_neither_mended_nor_as_found() -> None:
    assert told("original.netck", "found.netck", "astray.netck") == [
        (Grade.STOP, "lead-on-wrong-net", "C1.1 is on chassis; it belongs on grid")
    ]


def test_a_value_that_was_found_and_is_still_in_is_told_as_found() -> None:
    assert told("original.netck", "other.netck", "left-other.netck") == [
        (Grade.STOP, "value-changed", "still as found: R2 is 47k; the original has 10k")
    ]
    assert told("original.netck", "other.netck", "back.netck") == [
        (Grade.NOTE, "value-changed", "found and mended: R2 was 47k; the original has 10k")
    ]


PAST = {
    "R1.2 and R2.2 are on B+; they belong on B-": "R1.2 and R2.2 were on B+; they belong on B-",
    "C2.2 returns to B-; the original returns it to chassis": "C2.2 returned to B-; the original returns it to chassis",
    "the red wire from A1.1 to B1.1 joins B+ to out and leaves C1+ free":
        "the red wire from A1.1 to B1.1 joined B+ to out and left C1+ free",
    "return is joined to B+ by R1.1 on return": "return was joined to B+ by R1.1 on return",
    "R1.1 hangs free": "R1.1 hung free",
    "R1.1 changed places with R2.1": "R1.1 changed places with R2.1",
    "0.7 mA of line current reaches the chassis through C1": "0.7 mA of line current reached the chassis through C1",
}  # fmt: skip


@pytest.mark.parametrize(("now", "then"), PAST.items())
def test_what_is_mended_is_told_in_the_past(now: str, then: str) -> None:
    assert in_the_past(now) == then


WRONG = {
    "exchanged": (
        "rewired.netck", "original.netck",
        "rewired.netck starts from original.netck, so the two are in the wrong order: original.netck comes first",
    ),
    "two drawn": (
        "original.netck", "drawn-too.netck",
        "both files are `drawn`; the second one is what was found, planned or rewired",
    ),
    "rewired first": (
        "rewired.netck", "unfinished.netck",
        "rewired.netck is rewired; the first file is the original, drawn or found",
    ),
    "found after planned": (
        "planned.netck", "found-too.netck",
        "planned.netck is planned and found-too.netck is found: found-too.netck comes first",
    ),
    "planned twice": (
        "planned.netck", "planned-too.netck",
        "planned.netck is planned; the first file is the original, drawn or found",
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", list(WRONG))
def test_files_in_the_wrong_order_are_refused(case: str) -> None:
    others = {"planned.netck": "planned", "planned-too.netck": "planned", "found-too.netck": "found"}
    texts = {**TEXTS, "drawn-too.netck": ORIGINAL}
    texts |= {name: ORIGINAL.replace("state drawn", f"state {state}") for name, state in others.items()}
    first, second = (Source(name, texts[name]) for name in WRONG[case][:2])
    with pytest.raises(UsageFault) as told:
        api.compare(first, second, reader(texts))
    assert str(told.value) == WRONG[case][2]


@pytest.mark.parametrize(("first", "second"), [("drawn", "found"), ("found", "planned"), ("planned", "rewired")])
def test_each_state_may_be_held_against_the_next(first: str, second: str) -> None:
    texts = {f"{state}.netck": ORIGINAL.replace("state drawn", f"state {state}") for state in (first, second)}
    one, other = (Source(name, text) for name, text in texts.items())
    assert api.compare(one, other, reader(texts)).built


def test_three_files_out_of_order_are_refused() -> None:
    with pytest.raises(UsageFault, match="comes first"):
        told("found.netck", "original.netck", "mended.netck")
