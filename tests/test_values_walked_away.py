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

ROOT = Path(__file__).parents[1]
STATES = ("original", "rewired", "converted", "traced")
SAMPLES = tuple(
    str(path.relative_to(ROOT / "samples")) for path in sorted(ROOT.glob("samples/*/*.netck")) if path.stem in STATES
)
# A figure with its unit, a type, or the position that a switch is drawn in.
VALUE = re.compile(
    r" (?:\.?\d[\d.]*(?:-[\d.]+)* ?(?:k|meg|ohm|mm?fd|V|H|mA|A|W|%|Hz|plates)(?: each side)?(?![\w-])"
    r"|1/[24] W|\d[A-Z0-9]+-?GT\b|\d+[A-Z]+\d+\b|drawn [\w-]+)"
)
KINDS = frozenset(
    {
        "battery", "candohm", "capacitor", "choke", "coil", "diode", "draws", "electrolytic", "lamp", "mains", "pot",
        "resistor", "rheostat", "section", "selenium", "speaker", "supply", "switch", "transformer", "tube", "winding",
    }
)  # fmt: skip
WHOLE = ("mains", "volts")  # statements of one value, which go as lines
ORDER = ("contradicted", "unproven", "calculated", "proven")
SAME = 0.02


def _lines(name: str) -> list[str]:
    return (ROOT / "samples" / name).read_text(encoding="utf-8").splitlines()


def _holes(name: str) -> Iterator[tuple[int, str]]:
    for number, line in enumerate(_lines(name)):
        said = line.partition("#")[0]
        if said.split()[:1] and said.split()[0] in KINDS:
            for found in VALUE.finditer(said):
                yield number, said[: found.start()] + said[found.end() :]
        if said.startswith(WHOLE):
            yield number, ""


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
    source = Source(str(ROOT / "samples" / name), "\n".join(lines) + "\n")
    circuit, _ = build(source, reader(source))
    return circuit


HOLES = [(name, number, line) for name in SAMPLES for number, line in _holes(name)]


def test_the_walk_meets_every_kind_of_value() -> None:
    met = {line.split()[0] for _, _, line in HOLES if line}
    assert met >= {"capacitor", "choke", "draws", "lamp", "mains", "resistor", "section", "selenium", "tube", "winding"}
    assert len(HOLES) > 500


@pytest.mark.parametrize(("name", "number", "line"), HOLES, ids=[f"{n}:{at + 1}:{line}" for n, at, line in HOLES])
def test_a_value_that_is_taken_away_is_missed(name: str, number: int, line: str) -> None:
    circuit = _without(name, number, line)
    if circuit is None:
        return  # the language asks for it
    (translation, whole), graph = _whole(name), CircuitGraph(circuit)
    if line and translated(graph) == translation:
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
        assert not list(_moved(whole, holed))


def _moved(whole: SupplyTable, holed: SupplyTable) -> Iterator[str]:
    """The figures of capacitors and lines that stand beside a value that is missing and are no longer the same."""
    for old, new in ((whole.capacitors, holed.capacitors), (whole.lines, holed.lines)):
        before = {row.name: row for row in old}
        for row in new:
            then = before.get(row.name)
            for name in ("running", "ripple", "cold", "cold_high"):
                now, was = getattr(row, name), getattr(then, name, math.nan)
                if not (math.isnan(now) or math.isclose(now, was, rel_tol=SAME, abs_tol=0.1) or now == was):
                    yield f"{row.name}: {name} {now} V stands beside a value that is missing, {was} V with it"
