"""The printed supply says what its document says: each column under its head, each sentence where it applies."""

import json
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from netcheck import api
from netcheck.core.sheet import Table
from netcheck.reports.renderer import Style
from netcheck.reports.supply_document import supply_document
from netcheck.reports.supply_table import supply_table, supply_tables
from netcheck.system.files import read, reader

SAMPLES = Path(__file__).parents[1] / "samples"
NAMES = ("harrow-point", "marram", "skerry", "sallow-street")
# The tables by the key of the document, each head with the key of its figure; None where it is made of several.
TABLES: dict[str, dict[str, str | None]] = {
    "lines": {"supply line": "name", "running": "running", "ripple": "ripple", "cold": "cold", "high line": "cold_high",
              "chart": "chart"},
    "capacitors": {"electrolytic": "name", "rated": "rated", "running": "running", "ripple": "ripple",
                   "current": "ripple_amperes", "cold": "cold", "high line": "cold_high", "polarity": None},
    "rectifiers": {"rectifier": "name", "mean": "mean", "RMS": "rms", "peak": "peak", "switch-on": "surge",
                   "inverse": "inverse", "high line": "inverse_high", "rated": "rated_inverse"},
    "resistors": {"resistor": "name", "mean": "amperes", "RMS": "rms", "heat": "watts", "rated": "rated"},
    "touched": {"touched": "metal", "line current": None, "limit": "limit", "hot side": "hot", "switches": "switched",
                "through": None},
    "charges": {"discharge": "name", "from": "discharged_from", "below 60 V": "seconds_to_60",
                "below 50 V": "seconds_to_50", "worst open": None, "60 V": None, "50 V": None},
}  # fmt: skip
LEAST_WATTS = 0.05
UNITS = {"V": 1.0, "A": 1.0, "mA": 1e-3, "W": 1.0, "s": 1.0, "min": 60.0, "h": 3600.0}


@cache
def printed(name: str, swap: str = "") -> tuple[dict[str, Any], list[str], tuple[Table, ...]]:
    """The document, the lines of the text on a wide screen, and the tables of the page."""
    source = read(str(SAMPLES / name / "rewired.netck"))
    report, table = api.supply(source, reader(source), *([swap] if swap else []))
    assert table is not None
    text = supply_table(report, table, Style(width=400))
    return json.loads(supply_document(report, table, Style())), text.splitlines(), supply_tables(table)


def cells(lines: list[str], heads: list[str]) -> list[dict[str, str]]:
    """The rows under a line of heads: the first to the left, the others by where their head ends."""
    at = next(i for i, line in enumerate(lines) if re.split(r" {2,}", line.strip()) == heads)
    ends = [lines[at].index(f"  {head}", 1) + 2 + len(head) for head in heads[1:]]
    rows = []
    for line in lines[at + 1 :]:
        first, *others = re.split(r" {2,}", line)
        if not line or len(line) > max(ends) or not others:
            break
        row = {heads[0]: first}
        for found in re.finditer(r"(?<=  )\S+(?: \S+)*", line):
            row[heads[1 + ends.index(found.end())]] = found.group()
        rows.append(row)
    return rows


def amount(text: str) -> float:
    """A figure as it is printed, in volts, amperes, watts, seconds; of what may flow, what flows."""
    said, _, limit = text.partition(" of ")
    number, _, unit = said.partition(" ")
    return float(number) * UNITS[unit or limit.split()[-1]]


def agrees(text: str, figure: object) -> bool:
    if isinstance(figure, str):
        return text == figure
    if figure is None:
        return text in ("", "never", "?")
    assert isinstance(figure, float | int)
    if text == "at once":
        return figure == 0
    shown = amount(text)
    return abs(shown - figure) <= max(0.006 * abs(figure), 0.5e-3 if text.endswith("mA") else 0.051)


def is_faint(row: Mapping[str, Any]) -> bool:
    """Whether a resistor is told among those of next to no heat; one whose heat is not known has a row."""
    return row["watts"] is not None and row["watts"] < LEAST_WATTS and not row["over"]


@pytest.mark.parametrize("kind", TABLES)
@pytest.mark.parametrize("name", NAMES)
def test_every_figure_stands_under_its_head(name: str, kind: str) -> None:
    document, lines, _ = printed(name)
    heads = TABLES[kind]
    wanted = [row for row in document[kind] if kind != "resistors" or not is_faint(row)]
    if kind == "charges":
        wanted = [row for row in wanted if row["seconds_to_50"] is None or row["seconds_to_50"] >= 0.05]
    if not wanted:
        return
    rows = cells(lines, list(heads))
    assert len(rows) == len(wanted)
    for row, figures in zip(rows, wanted, strict=True):
        for head, key in heads.items():
            if key is not None:
                assert agrees(row.get(head, ""), figures[key]), (head, row, figures[key])


@pytest.mark.parametrize("name", NAMES)
def test_what_is_made_of_several_is_told_too(name: str) -> None:
    document, lines, _ = printed(name)
    for row, said in zip(cells(lines, list(TABLES["capacitors"])), document["capacitors"], strict=True):
        assert row["polarity"] == {"reversed": "REVERSED", "both": "BOTH WAYS"}.get(said["way"], said["grade"])
    if document["touched"]:
        for row, said in zip(cells(lines, list(TABLES["touched"])), document["touched"], strict=True):
            assert (row["line current"] == "the whole line") == said["joined"]
            assert row.get("through", "") == (
                ", ".join(said["through"]) or ("on the neutral" if said["on_neutral"] else "")
            )
    for row in cells(lines, list(TABLES["charges"])):
        one_open = next(one["one_open"] for one in document["charges"] if one["name"] == row["discharge"])
        assert row.get("worst open", "") == (one_open["part"] if one_open else "")
        for head, key in (("60 V", "seconds_to_60"), ("50 V", "seconds_to_50")):
            assert agrees(row.get(head, ""), one_open[key] if one_open else None)


@pytest.mark.parametrize("name", NAMES)
def test_sentences_stand_where_they_apply(name: str) -> None:
    document, lines, _ = printed(name)
    text = "\n".join(lines)
    shown = [row for row in document["charges"] if row["seconds_to_50"] is None or row["seconds_to_50"] >= 0.05]
    opened = [row["one_open"] for row in shown if row["one_open"]]
    times = [one[key] for one in (*shown, *opened) for key in ("seconds_to_60", "seconds_to_50")]
    stands = f" (with {', '.join(document['switches'])})" if document["switches"] else ""
    told = {
        f"discharge after switching off{stands}, calculated; measure before touching:": bool(shown),
        "worst open: if this one part is open": bool(opened),
        "never: nothing bleeds it. Discharge it by hand": None in times,
        "Capacitors recover some of their charge by themselves: measure again": bool(shown),
        "the voltage overshoots for a moment after switching on": document["overshoots"],
        "line current through a hand that touches it and earth, calculated": bool(document["touched"]),
        "The running figures did not settle": not document["converged"],
        "assumed, since the file does not say:": bool(document["defaults"]),
        "left out of the calculation:": bool(document["not_modelled"]),
        "heaters on ": bool(document["heaters"]),
        "silicon in place of": False,
    }
    assert {words: text.count(words) for words in told} == {words: int(applies) for words, applies in told.items()}
    assert all(f"  {said}" in lines for said in document["defaults"])
    faint = [row["name"] for row in document["resistors"] if is_faint(row)]
    assert (f"under 0.05 W each: {', '.join(faint)}" in lines) == bool(faint)


@pytest.mark.parametrize("name", NAMES)
def test_the_tables_of_the_page_are_those_of_the_text(name: str) -> None:
    document, lines, tables = printed(name)
    headings = {
        "lines": "Supply lines",
        "capacitors": "Electrolytics",
        "rectifiers": "Rectifiers",
        "touched": "Line current into metal, calculated, plug either way",
        "charges": "Discharge after switching off, calculated; measure before touching",
    }
    assert [table.heading for table in tables] == [words for key, words in headings.items() if document[key]]
    for key, words in headings.items():
        for table in tables:
            if table.heading == words:
                assert [column.name for column in table.columns] == list(TABLES[key])
                shown = {row[next(iter(TABLES[key]))] for row in cells(lines, list(TABLES[key]))}
                assert shown <= {row.cells[0] for row in table.rows}
                assert not table.boxes
    never = any(row["seconds_to_60"] is None or row["seconds_to_50"] is None for row in document["charges"])
    assert bool(tables[-1].before) == never


def test_heaters_in_a_string_are_told_with_their_dropper_and_the_one_that_is_worst_off() -> None:
    """By hand: 12.6 V four times and 50 V are 100.4 V; the line has 117 V."""
    document, lines, _ = printed("skerry")
    (string,) = document["heaters"]
    (told,) = [line for line in lines if line.startswith("heaters on ")]
    assert told == (
        "heaters on P1: V1 12.6 V, V2 12.6 V, V3 12.6 V, V4 12.6 V, V5 50 V; 100.4 V together at 150 mA,"
        " and 16.6 V to be dropped"
    )
    rows = cells(lines, ["dropper", "volts", "current", "heat", "rated"])
    for row, said in zip(rows, string["droppers"], strict=True):
        assert row["dropper"] == said["name"]
        for head, key in (("volts", "volts"), ("current", "amperes"), ("heat", "watts"), ("rated", "rated")):
            assert agrees(row.get(head, ""), said[key]), (head, row)
    assert not string["is_wrong"]
    assert "V5 gets 49.9 V of 50 V; no other is farther off." in lines
