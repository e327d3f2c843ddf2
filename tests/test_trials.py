"""The smallest netlists that showed something wrong, each with what a restorer needs to be told of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path, PurePath

import pytest

from netcheck.api import check, compare, compare_three, supply
from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.mend import lines
from netcheck.core.source import Source

FOLDER = Path(__file__).parent / "trials"


@dataclass(frozen=True, slots=True)
class Row:
    """Files, oldest first; what is told gravely: a rule's name (or part of it) and words of its headline or order.

    ``silent`` are words that nothing grave may say, ``mend`` the lines of the one mend in any order.
    """

    files: tuple[str, ...]
    grave: tuple[tuple[str, tuple[str, ...]], ...] = ()
    silent: tuple[str, ...] = ()
    noted: tuple[str, ...] = ()
    mend: frozenset[str] = frozenset()


HEATER = ("", ("heater of V5", "missing"))  # the diode that replaces the tube has none, and the string is open
NOT_WHERE_IT_BELONGS = "missing-connection lead-on-wrong-net"

ROWS = {
    "an anode on an empty lug": Row(
        ("diode-original", "diode-anode-on-an-empty-lug"),
        ((NOT_WHERE_IT_BELONGS, ("D1.anode", "SP1.1", "line")),),
    ),
    "a diode turned round": Row(
        ("diode-original", "diode-turned-round"),
        (("reversed-rectifier", ("D1",)),),
        mend=frozenset({"move D1.anode to P1.1", "move D1.cathode to C1+"}),
    ),
    "two diodes for a full-wave tube": Row(("full-wave-original", "two-diodes-right"), silent=("belong", "longer on")),
    "both backwards": Row(
        ("full-wave-original", "two-diodes-reversed"),
        (("reversed-rectifier", ("D1 and D2 are in backwards",)),),
        mend=frozenset({
            "move D1.anode to SP1.1", "move D1.cathode to C1+", "move D2.anode to SP1.5", "move D2.cathode to C1+",
        }),
    ),
    "one diode for both plates": Row(
        ("full-wave-original", "one-diode-for-two-plates"), (("", ("V7", "half the winding")),)
    ),
    "a diode in a string, its anode on an empty lug": Row(
        ("string-original", "string-diode-anode-on-an-empty-lug"),
        (HEATER, (NOT_WHERE_IT_BELONGS, ("D1.anode", "SP1.1"))),
    ),
    "a diode in a string, backwards": Row(
        ("string-original", "string-diode-turned-round"), (HEATER, ("reversed-rectifier", ("D1",)))
    ),
    "the heater that went with the tube": Row(("string-original", "string-diode-right"), (HEATER,)),
    "inserted, and not in series": Row(
        ("stack-original", "inserted-not-in-series"), (("", ("R9", "series")),)
    ),
    "a bleeder on an empty lug": Row(("stack-original", "bleeder-on-an-empty-lug"), (("", ("R9.2", "SP1.1")),)),
    "inserted across the rectifier": Row(
        ("stack-original", "inserted-across-the-rectifier"), (("", ("R9", "across", "D1")),)
    ),
    "the wire behind the inserted resistor": Row(
        ("stack-original", "wire-behind-the-inserted-forgotten"),
        (("missing-connection", ("SP1.2", "C1+")),),
        mend=frozenset({"wire SP1.2 to C1+"}),
    ),
    "two diodes in series carry what one does": Row(("stack-original", "two-diodes-in-series"), noted=("1 A",)),
    "a type that says its volts": Row(("stack-original", "type-without-volts"), silent=("1N4007", "D1")),
    "a double triode one pin on": Row(
        ("double-triode-original", "double-triode-one-pin-on"), (("pins-shifted", ("V1", "one pin")),)
    ),
    "a pot on a signal lug": Row(
        ("pot-original", "pot-on-a-signal-lug"),
        (("lead-on-wrong-net", ("RV1.ccw", "SP1.2")),),
        mend=frozenset({"cut RV1.ccw to SP1.3", "wire RV1.ccw to SP1.2 bare"}),
    ),
    "a heater winding turned": Row(
        ("winding-original", "heater-winding-turned"), silent=("T1",), noted=("T1.green-a and T1.green-b changed",)
    ),
    "a primary turned": Row(
        ("winding-original", "primary-turned"), silent=("T1",), noted=("T1.black-a and T1.black-b changed",)
    ),
    "found off, and still off": Row(
        ("grid-drawn", "grid-found-off", "grid-still-off"), (("missing-connection", ("still as found: C1.1", "grid")),),
        mend=frozenset({"at R1.1: C1.1"}),
    ),
    "found off, and soldered again": Row(
        ("grid-drawn", "grid-found-off", "grid-soldered-again"), silent=("C1.1",), noted=("found and mended: C1.1",)
    ),
}  # fmt: skip


def read(_asker: str, path: str) -> Source:
    name = PurePath(path).name
    return Source(name, (FOLDER / name).read_text(encoding="utf-8"))


def told(files: Sequence[str]) -> tuple[Diagnostic, ...]:
    first, second, *later = (read("", f"{name}.netck") for name in files)
    report = compare_three(first, second, later[0], read) if later else compare(first, second, read)
    assert report.built
    return report.diagnostics


def said(finding: Diagnostic) -> str:
    return f"{finding.headline} | {finding.do}"


@pytest.mark.parametrize("name", ROWS)
def test_what_a_restorer_needs(name: str) -> None:
    row = ROWS[name]
    findings = told(row.files)
    # What is wrong with the original as drawn (these are pieces of circuits) is not what is asked here.
    grave = [d for d in findings if d.grade is Grade.STOP and not d.headline.startswith("in the original too")]
    for rules, words in row.grave:
        fitting = [d for d in grave if not rules or d.rule in rules.split()]
        assert [d for d in fitting if all(word in said(d) for word in words)], [said(d) for d in grave]
    if row.grave:
        assert len(grave) <= len(row.grave), [said(d) for d in grave]
    told_of = [d for d in findings if d.grade is not Grade.NOTE and any(word in said(d) for word in row.silent)]
    assert not told_of, [said(d) for d in told_of]
    assert all(any(word in said(d) for d in findings) for word in row.noted)
    if row.mend:
        (finding,) = grave
        assert {line for mend in finding.mends[:1] for line in lines(mend)} == row.mend
    else:
        assert row.grave or row.silent or row.noted


CHECKED = {
    "shorted-winding": ("winding-shorted", ("T1 red-a red-b", "D1 and D2")),
    "two-filaments": ("declared-twice", ("T1", "filament-2")),
}


@pytest.mark.parametrize("name", CHECKED)
def test_what_one_state_says_of_itself(name: str) -> None:
    rule, words = CHECKED[name]
    (grave,) = [d for d in check(read("", f"{name}.netck"), read).diagnostics if d.grade is Grade.STOP]
    assert grave.rule == rule
    assert all(word in said(grave) for word in words)


def test_the_number_of_a_lamp_is_no_comment() -> None:
    report = check(read("", "lamp-by-number.netck"), read)
    assert report.built
    assert not report.diagnostics


def test_a_minus_line_under_load_keeps_its_volts() -> None:
    """The 10 k drops 10 V by the 1 mA drawn and 1.3 V by what the megohm takes: 141 V less 11 V."""
    _, table = supply(read("", "minus-line.netck"), read)
    assert table is not None
    volts = {line.name: line.running for line in table.lines}
    assert volts["minus"] == pytest.approx(-129, abs=1)


ALONE = {*CHECKED, "lamp-by-number", "minus-line"}


def test_every_netlist_is_in_a_row() -> None:
    assert {path.stem for path in FOLDER.iterdir()} == {*ALONE, *(name for row in ROWS.values() for name in row.files)}
