"""The order against hand calculations; each has its source beside it."""

import math
from decimal import Decimal

import pytest

from netcheck.bench.buy import Need
from netcheck.bench.buying import needed
from netcheck.bench.made import CAPACITOR_VOLTS, next_made, preferred
from netcheck.compare.bands import picks
from netcheck.core.quantity import Dimension
from netcheck.core.sheet import Row
from netcheck.model.graph import CircuitGraph
from netcheck.sheets import buy
from netcheck.system.files import read, reader
from tests.paper import circuit
from tests.test_bench_job import SAMPLES, states


def order(name: str) -> dict[str, Need]:
    old, new = states(name, "rewired")
    return {need.part: need for need in needed(old, CircuitGraph(new), picks)}


def test_harrow_points_capacitors_stand_the_cold_peak_at_a_high_line() -> None:
    """290 V a half, 5 % rise without a load, 10 % high line: 290 * 1.05 * 1.1 * sqrt 2 = 473.7 V, so 500 V parts."""
    peak = 290 * 1.05 * 1.1 * math.sqrt(2)
    found = order("harrow-point")
    for name in ("C51", "C52", "C61", "C62"):
        assert found[name].least == f"{peak:.0f} V"
        assert found[name].size == 500
    assert found["C53"].size == 25  # the bias section: never below the old 25 V
    assert found["C72"].kind == "Y2 or Y1"  # line to chassis: IEC 60384-14


def test_skerrys_parts_by_hand() -> None:
    """117 V half-wave: peak 165.5, high line 182.0; twice that backwards less the stack's own share: 364 V."""
    found = order("skerry")
    assert found["C51"].least == "200 V"  # 182 V computed, but the old one was 200 V
    assert found["C51"].size == 200
    assert found["D1"].least == f"{2 * 117 * 1.1 * math.sqrt(2):.0f} V"
    assert found["D1"].size == 400
    assert found["R50"].size == 5  # 33 ohm with 0.21 A: 1.5 W, twice that is 3.1 W
    assert found["R15"].size == 1  # 7 V across 150 ohm: 0.33 to 0.42 W, but the old one was 1 W
    assert found["C30"].kind == "X2, X1 or Y"
    assert found["C31"].kind == "Y2 or Y1"


@pytest.mark.parametrize("name", ["harrow-point", "marram", "sallow-street", "skerry"])
def test_nothing_is_ordered_below_what_it_replaces(name: str) -> None:
    old, new = states(name, "rewired")
    for part, need in order(name).items():
        dimension = Dimension.POWER if new.parts[part].kind.word == "resistor" else Dimension.VOLTAGE
        names = new.parts[part].replaces or (part,)
        rated = [q for n in names if n in old.parts for q in old.parts[n].features.all_of(dimension)]
        if need.size is not None and rated:
            assert need.size >= max(float(q.amount) for q in rated)


@pytest.mark.parametrize("name", ["marram", "sallow-street"])
def test_supply_capacitors_stand_what_the_supply_table_says(name: str) -> None:
    from netcheck.electrical.table.supply import supply

    _, new = states(name, "rewired")
    rows = {row.name: row for row in supply(CircuitGraph(new)).capacitors}
    found = order(name)
    checked = 0
    for part in found.keys() & rows.keys():
        row, need = rows[part], found[part]
        if need.size is not None:
            checked += 1
            assert need.size >= max(abs(row.cold_high), abs(row.peak)) - 1e-6
    assert checked >= 3


def test_what_can_not_be_computed_says_so() -> None:
    text = 'state rewired\nstart from "base.netck"\nelectrolytic C9 22 mfd\nresistor R9 1k\nnet a: C9+, R9.1\n'
    base = "state drawn\nresistor R1 1k\nnet a: R1.1\nnet ground: chassis, R1.2\n"
    old = circuit(base)
    found = {n.part: n for n in needed(old, CircuitGraph(circuit(text, base=base)), picks)}
    assert found["C9"].least == "not known"
    assert found["C9"].size is None
    assert "not computed" in found["C9"].why
    assert found["R9"].least == "not known"


# The usual picks of the trade for old values (common practice; .047 for .05: radioworld.com, 22 for 16 and 20).
@pytest.mark.parametrize(("old", "pick"), [("8", 10), ("16", 22), ("20", 22), ("40", 47), ("0.05", 0.047), ("50", 47)])
def test_an_old_value_is_served_by_the_usual_pick(old: str, pick: float) -> None:
    assert float(picks(Dimension.CAPACITANCE, Decimal(old) / 1_000_000)[0]) == pytest.approx(pick * 1e-6)


MADE = [
    (20, "E12", 22), (25e3, "E24", 24e3), (16, "E12", 15), (500e3, "E24", 510e3), (47, "E6", 47), (9.9, "E12", 10),
    (0.098, "E6", 0.1),
]  # fmt: skip


@pytest.mark.parametrize(("amount", "series", "made"), MADE)
def test_the_nearest_value_made_is_nearest_by_ratio(amount: float, series: str, made: float) -> None:
    """IEC 60063; by ratio: 25 k is 1.042 from 24 k and 1.08 from 27 k."""
    assert preferred(amount, series) == pytest.approx(made)


def test_sizes_step_up_and_end() -> None:
    assert next_made(450, CAPACITOR_VOLTS) == 450
    assert next_made(450.1, CAPACITOR_VOLTS) == 500
    assert next_made(601, CAPACITOR_VOLTS) is None


def test_equal_parts_are_one_line_of_the_order() -> None:
    source = read(SAMPLES / "harrow-point" / "rewired.netck")
    _, sheet = buy(source, read=reader(source))
    assert sheet is not None
    rows: list[Row] = [row for table in sheet.tables for row in table.rows]
    together = next(row for row in rows if "C51" in row.cells[5])
    assert together.cells[:4] == ("2", "22 mfd", "474 V", "500 V")
    assert together.cells[5] == "C51, C52"  # 22 serves for both of the can's 20 mfd
    assert sum(int(row.cells[0]) for row in rows) == len(order("harrow-point"))
