"""Files that use the original's names in another order: one NOTE where nothing else is wrong, STOP where it is."""

import random
import re
from collections.abc import Mapping
from pathlib import Path

import pytest

from netcheck.core.diagnostic import Grade
from netcheck.core.report import Report
from tests.paper import circuit, compared

# One of the samples is a single can: it has no two parts of a kind.
SAMPLES = sorted(path for path in Path("samples").glob("*/original.netck") if path.parent.name != "one-can")

ORIGINAL = """
title "stage"
resistor R1 100k 1 W
resistor R2 22k 1 W
resistor R3 47k 1 W
resistor R4 1k 1 W
resistor R5 1k 1 W
resistor R6 470k 1 W
capacitor C1 .02 mfd 400 V
electrolytic C2 8 mfd 450 V
net a: R1.1, C1.1, R6.1
net b: R1.2, R2.1
net c: R2.2, R3.1, C2+
net d: R3.2, R4.1, R5.1
net ground: chassis, R4.2, R5.2, R6.2, C1.2, C2-
"""

CYCLE = {"R1": "R2", "R2": "R3", "R3": "R4", "R4": "R1"}
NOTE = "4 parts have another one's name and are wired alike: R1 is now R2 and 3 more"


def with_names(text: str, names: Mapping[str, str]) -> str:
    pattern = "|".join(sorted(map(re.escape, names), key=len, reverse=True))
    return re.sub(rf"(?<![\w.+-])({pattern})(?!\w)", lambda found: names[found[1]], text)


def told(report: Report) -> list[str]:
    return [f"{d.grade.value} {d.rule}: {d.headline}" for d in report.diagnostics]


def against_the_original(rewired: str, original: str = ORIGINAL) -> Report:
    report = compared(original, rewired)
    assert report.built, [d.headline for d in report.diagnostics]
    return report


def test_names_in_another_order_are_one_note_with_the_whole_list() -> None:
    report = against_the_original(with_names(ORIGINAL, CYCLE))
    assert told(report) == [f"NOTE renamed: {NOTE}"]
    assert report.diagnostics[0].why.endswith("R1 is now R2, R2 is now R3, R3 is now R4, R4 is now R1")
    assert [label.place.source.name for label in report.diagnostics[0].labels] == ["rewired.netck", "original.netck"]


def test_like_parts_side_by_side_keep_their_names() -> None:
    """R4 and R5 lie in parallel and are equal: which is which is nobody's question."""
    report = against_the_original(with_names(ORIGINAL, {"R1": "R2", "R2": "R3", "R3": "R6", "R6": "R1"}))
    assert "R5" not in report.diagnostics[0].why
    assert "R4" not in report.diagnostics[0].why


def test_a_part_that_is_replaced_too_is_compared_as_ever() -> None:
    text = with_names(ORIGINAL, CYCLE).replace("C2 8 mfd 450 V", "C9 8 mfd 350 V replaces C2")
    text = text.replace("C2+", "C9+").replace("C2-", "C9-")
    assert told(against_the_original(text)) == [
        "STOP rating-too-low: C9 (in place of C2) is rated 350 V; the original was 450 V",
        f"NOTE renamed: {NOTE}",
    ]


def test_a_circuit_that_does_not_reach_the_chassis_is_read_too() -> None:
    ends = {"R1": "ab", "R2": "bc", "R3": "cd", "R4": "de", "R5": "ef", "R6": "fg"}
    values = {name: 10**n for n, name in enumerate(ends, 1)}

    def text(names: Mapping[str, str]) -> str:
        parts = [f"resistor {names.get(n, n)} {ohms} ohm" for n, ohms in values.items()]
        leads = {
            net: [f"{names.get(n, n)}.{'12'[e.index(net)]}" for n, e in ends.items() if net in e] for net in "abcdefg"
        }
        return "\n".join((*parts, *(f"net {net}: {', '.join(on)}" for net, on in leads.items()), ""))

    cycle = {"R1": "R2", "R2": "R3", "R3": "R4", "R4": "R5", "R5": "R6", "R6": "R1"}
    found = [d for d in against_the_original(text(cycle), text({})).diagnostics if d.grade is not Grade.LOOK]
    assert [d.rule for d in found] == ["renamed"]


FAULTS = {
    "a lead off": ("net c: R2.2, R3.1, C2+", "net c: R2.2, R3.1"),
    "a lead elsewhere": ("net d: R3.2, R4.1, R5.1", "net d: R3.2, R4.1\nat R6.1: R5.1"),
    "a bridge": ("net ground:", "wire R1.1 to R1.2 red\nnet ground:"),
    "backwards": ("R3.1, C2+", "R3.1, C2-"),
    "another value": ("R3 47k", "R3 4.7k"),
    "another rating": ("C1 .02 mfd 400 V", "C1 .02 mfd 200 V"),
    "a part left out": ("resistor R6 470k 1 W\n", ""),
}


@pytest.mark.parametrize(("right", "wrong"), FAULTS.values(), ids=FAULTS)
def test_with_a_fault_beside_it_nothing_is_taken_for_renamed(right: str, wrong: str) -> None:
    spoilt = ORIGINAL.replace(right, wrong)
    if "-" in wrong:
        spoilt = spoilt.replace("C1.2, C2-", "C1.2, C2+")
    if "R6" in right:
        spoilt = spoilt.replace(", R6.1", "").replace(", R6.2", "")
    assert spoilt != ORIGINAL
    report = against_the_original(with_names(spoilt, CYCLE))
    assert any(d.grade is Grade.STOP for d in report.diagnostics)
    assert not [d for d in report.diagnostics if d.rule == "renamed" and "another one's name" in d.headline]


def test_parts_of_other_values_in_each_others_place_stay_errors() -> None:
    """Their names go with them, so every value is where it does not belong."""
    moved = ORIGINAL
    for one, other in (("R1", "R3"), ("R2", "R6")):
        values = {name: re.search(rf"{name} (\S+)", moved) for name in (one, other)}
        assert all(values.values())
        moved = _declared_with(moved, {one: other, other: one})
    report = against_the_original(moved)
    assert len([d for d in report.diagnostics if d.grade is Grade.STOP]) >= 2
    assert not [d for d in report.diagnostics if d.rule == "renamed"]


def _declared_with(text: str, values: Mapping[str, str]) -> str:
    """The text with the values of some parts exchanged and every joint as it is."""
    declared = {name: line.split(" ", 2)[2] for line in text.splitlines() for name in values if f" {name} " in line}
    return "\n".join(
        " ".join((*line.split(" ", 2)[:2], declared[values[name]]))
        if (name := next((n for n in values if f" {n} " in line and not line.startswith("net")), ""))
        else line
        for line in text.splitlines()
    )


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.parent.name)
@pytest.mark.parametrize("seed", [1, 2])
def test_a_sample_with_its_names_in_another_order_has_no_error(path: Path, seed: int) -> None:
    text = path.read_text(encoding="utf-8")
    dice = random.Random(seed)  # noqa: S311 (repeatable, and no secret)
    by_stem: dict[str, list[str]] = {}
    for part in circuit(text).parts.values():
        if len(part.leads) == 2 and not part.host:
            by_stem.setdefault(part.kind.word, []).append(part.name)
    names = {a: b for members in by_stem.values() for a, b in zip(members, _shuffled(members, dice), strict=True)}
    rewired = re.sub(r"(?m)^state \w+.*$", "state rewired", with_names(text, names))
    report = against_the_original(rewired, text)
    assert {d.grade for d in report.diagnostics} <= {Grade.NOTE}, told(report)
    assert [d.rule for d in report.diagnostics].count("renamed") == 1


def _shuffled(members: list[str], dice: random.Random) -> list[str]:
    return dice.sample(members, len(members))
