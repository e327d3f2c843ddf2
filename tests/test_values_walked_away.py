"""Every value of a sample taken away, one at a time: no figure takes its place unsaid, no verdict grows stronger."""

import math
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from netcheck.core.circuit import Circuit
from netcheck.electrical.network.draft import Translation
from netcheck.electrical.network.supplies import translated
from netcheck.electrical.table.supply import SupplyTable, supply
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from netcheck.system.files import read, reader
from tests.paper import reader as reader_of

ROOT = Path(__file__).parents[1]
SAMPLES = (
    "skerry/original.netck",
    "marram/original.netck",
    "sallow-street/original.netck",
    "harrow-point/original.netck",
)
VALUE = re.compile(r" (?:\.?\d[\d.]*(?:-[\d.]+)*) ?(?:k|meg|ohm|mfd|V|H)\b")
KINDS = ("resistor", "electrolytic", "section", "winding", "mains", "candohm")
ORDER = ("contradicted", "unproven", "calculated", "proven")
SAME = 0.02


def _lines(name: str) -> list[str]:
    return (ROOT / "samples" / name).read_text(encoding="utf-8").splitlines()


def _holes(name: str) -> Iterator[tuple[int, str]]:
    for number, line in enumerate(_lines(name)):
        if line.split()[:1] and line.split()[0] in KINDS[:5]:
            if line.startswith("mains"):
                yield number, ""
            elif (first := VALUE.search(line)) is not None:
                yield number, line[: first.start()] + line[first.end() :]


@cache
def _whole(name: str) -> tuple[Translation, SupplyTable]:
    source = read(str(ROOT / "samples" / name))
    circuit, _ = build(source, reader(source))
    assert circuit is not None
    graph = CircuitGraph(circuit)
    return translated(graph), supply(graph)


def _without(name: str, number: int, line: str) -> Circuit | None:
    from netcheck.core.source import Source

    lines = _lines(name)
    lines[number] = line
    circuit, _ = build(Source(name, "\n".join(lines) + "\n"), reader_of({}))
    return circuit


HOLES = [(name, number, line) for name in SAMPLES for number, line in _holes(name)]


@pytest.mark.parametrize(("name", "number", "line"), HOLES, ids=[f"{n}:{at + 1}" for n, at, _ in HOLES])
def test_a_value_that_is_taken_away_is_missed(name: str, number: int, line: str) -> None:
    circuit = _without(name, number, line)
    if circuit is None:
        return  # the language asks for it
    (translation, whole), graph = _whole(name), CircuitGraph(circuit)
    if translated(graph) == translation:
        return  # the supply is the same to the last element: the value is none of its own
    holed = supply(graph)
    said = {*whole.defaults, *whole.left_out}
    owned = bool(holed.missing) or bool({*holed.defaults, *holed.left_out} - said)
    before = {row.name: row for row in whole.capacitors}
    for row in holed.capacitors:
        old = before[row.name]
        same = math.isnan(row.running) or math.isclose(row.running, old.running, rel_tol=SAME, abs_tol=0.1)
        assert same or owned, f"{row.name}: {row.running} V in silence, {old.running} V with the value"
        if holed.missing:
            assert same, f"{row.name}: {row.running} V stands beside a value that is missing"
        assert ORDER.index(row.verdict.surety.value) <= ORDER.index(old.verdict.surety.value)
        assert row.verdict.way is old.verdict.way or row.verdict.way.value == "unknown"
    if holed.missing:
        assert {row.name for row in holed.capacitors} == set(before)
