"""The supply table: the samples against closed forms and their own charts, what silicon does, how it is printed."""

import json
import math
from functools import cache
from pathlib import Path

import pytest

from netcheck.api import supply
from netcheck.cli import main
from netcheck.core.errors import UsageFault
from netcheck.core.report import Report
from netcheck.electrical.proof.judgement import Surety
from netcheck.electrical.table.rows import Emptying
from netcheck.electrical.table.supply import CapacitorRow, SupplyTable
from netcheck.electrical.table.supply import supply as supply_of
from netcheck.model.graph import CircuitGraph
from netcheck.reports.excerpt import cells
from netcheck.reports.renderer import Style
from netcheck.reports.supply_document import supply_document
from netcheck.reports.supply_table import supply_table
from netcheck.system.files import read, reader
from tests.paper import circuit

ROOT = Path(__file__).parents[1]
SAMPLES = sorted(str(path.relative_to(ROOT)) for path in (ROOT / "samples").glob("*/*.netck"))
LINE = 117 * math.sqrt(2)


@cache
def _supply(name: str, *swaps: str) -> tuple[Report, SupplyTable]:
    source = read(str(ROOT / "samples" / name))
    report, table = supply(source, reader(source), *swaps)
    assert table is not None
    return report, table


def _row(name: str, capacitor: str) -> CapacitorRow:
    return next(row for row in _supply(name)[1].capacitors if row.name == capacitor)


def _charge(name: str, capacitor: str) -> Emptying:
    return next(row.emptying for row in _supply(name)[1].charges if row.name == capacitor)


@pytest.mark.parametrize(
    ("name", "capacitor", "cold"),
    [
        # No-load peaks of ideal rectifiers: half wave, doubler, each half of a doubler, and 5 % rise on a transformer.
        ("skerry/original.netck", "C32A", LINE),
        ("skerry/original.netck", "C33", LINE),
        ("skerry/rewired.netck", "C51", LINE),
        ("marram/original.netck", "C40A", LINE),
        ("marram/original.netck", "C41A", 2 * LINE),
        ("marram/rewired.netck", "C41A", 2 * LINE),
        ("sallow-street/original.netck", "C30A", 300 * math.sqrt(2) * 1.05),
        ("sallow-street/original.netck", "C35", 30 * math.sqrt(2) * 1.05),
        # The new transformer's winding on a bridge.
        ("sallow-street/rewired.netck", "C30A", 250 * math.sqrt(2) * 1.05),
    ],
)
def test_cold_volts_are_the_closed_form(name: str, capacitor: str, cold: float) -> None:
    row = _row(name, capacitor)
    assert row.cold == pytest.approx(cold, rel=2e-3)
    assert row.cold_high == pytest.approx(1.1 * cold, rel=2e-3)


@pytest.mark.parametrize(
    ("name", "capacitor", "chart"),
    [
        # What each sample's own chart says; a chart is good to 20 % (from memory).
        ("harrow-point/original.netck", "C30A", 280 + 19),
        ("harrow-point/original.netck", "C30C", 19),
        ("skerry/original.netck", "C32A", 120),
        ("skerry/original.netck", "C32C", 7),
        ("marram/original.netck", "C41A", 260),
        ("marram/original.netck", "C42A", 205),
        ("sallow-street/original.netck", "C30A", 318),
        ("sallow-street/original.netck", "C30B", 297),
        ("sallow-street/original.netck", "C30C", 242),
    ],
)
def test_running_volts_agree_with_the_chart(name: str, capacitor: str, chart: float) -> None:
    row = _row(name, capacitor)
    assert row.running == pytest.approx(chart, rel=0.2)
    assert row.running < row.cold or row.cold == pytest.approx(0, abs=0.1)


@pytest.mark.parametrize(
    ("name", "rectifier", "inverse"),
    [
        # Twice the peak at high line: the capacitor holds one, the winding swings to the other.
        ("skerry/original.netck", "SE1", 2 * 1.1 * LINE),
        ("marram/original.netck", "SE1", 2 * 1.1 * LINE),
        ("harrow-point/original.netck", "V7 plate-1", 2 * 1.1 * 290 * math.sqrt(2) * 1.05),
        # In a bridge it is once the peak.
        ("sallow-street/rewired.netck", "D1", 1.1 * 250 * math.sqrt(2) * 1.05),
    ],
)
def test_inverse_volts_are_the_closed_form(name: str, rectifier: str, inverse: float) -> None:
    row = next(row for row in _supply(name)[1].rectifiers if row.name == rectifier)
    assert row.inverse_high == pytest.approx(inverse, rel=0.02)
    assert row.inverse < inverse
    assert row.over == ""
    assert row.peak > 4 * row.mean  # pulses of a capacitor input, exact for a large one


@pytest.mark.parametrize("name", SAMPLES)
def test_every_sample_converges_and_prints(name: str) -> None:
    report, table = _supply(name.removeprefix("samples/"))
    assert table.converged
    for width in (40, 72, 100):
        printed = supply_table(report, table, Style(width=width))
        assert all(cells(line) <= max(width, 44) for line in printed.splitlines())
        assert "licensed technician" in " ".join(printed.split())
        assert all(row.name in printed for row in table.capacitors)
    document = json.loads(supply_document(report, table, Style()))
    assert [row["name"] for row in document["capacitors"]] == [row.name for row in table.capacitors]


@pytest.mark.parametrize(
    ("name", "reversed_ones"),
    [
        ("harrow-point/faulty.netck", {"C53"}),
        ("harrow-point/rewired.netck", set()),
        ("sallow-street/faulty.netck", {"C95", "C96"}),
        ("sallow-street/rewired.netck", set()),
        ("marram/rewired.netck", set()),
        ("skerry/rewired.netck", set()),
    ],
)
def test_what_the_samples_promise_about_polarity(name: str, reversed_ones: set[str]) -> None:
    rows = _supply(name)[1].capacitors
    assert {row.name for row in rows if row.verdict.way.value == "reversed"} == reversed_ones
    assert {row.name for row in rows if row.running < -0.5} == reversed_ones


def test_a_reversed_bias_capacitor_is_as_far_below_0_as_it_should_be_above() -> None:
    right, wrong = _row("sallow-street/original.netck", "C35"), _row("sallow-street/faulty.netck", "C95")
    assert wrong.cold == pytest.approx(-right.cold, rel=0.01)
    assert wrong.cold_high == pytest.approx(-right.cold_high, rel=0.01)


def test_a_450_volt_part_of_the_hall_amplifier_was_never_enough_at_high_line() -> None:
    assert _row("sallow-street/original.netck", "C30A").over == "cold on a high line"
    assert _row("sallow-street/rewired.netck", "C30A").over == ""


def test_a_bleeder_empties_the_capacitors_and_without_one_nothing_does() -> None:
    assert _charge("skerry/original.netck", "C32A").seconds == (None, None)
    row = _row("sallow-street/original.netck", "C30A")
    # 220k across 40, 20, 20, 20 and 12 mfd, all of them full: RC ln(V0/60).
    said = _charge("sallow-street/original.netck", "C30A")
    assert said.seconds[0] == pytest.approx(220e3 * 112e-6 * math.log(row.cold_high / 60), rel=0.02)


@pytest.mark.parametrize(
    ("name", "part"),
    [("skerry/original.netck", "SE1"), ("harrow-point/original.netck", "V7"), ("sallow-street/original.netck", "CR1")],
)
def test_silicon_raises_the_running_volts_and_a_resistor_restores_them(name: str, part: str) -> None:
    report, table = _supply(name, f"{part}=silicon")
    swap = table.swap
    assert swap is not None
    held = next(change for change in swap.changes if change.name == swap.held)
    assert held.after > held.before + 1
    assert swap.ohms is not None
    assert swap.watts is not None
    assert swap.ohms > 0
    assert swap.watts > 0
    # The cold peak is that of the set without the resistor.
    assert swap.cold_high == _row(name, swap.held).cold_high
    printed = " ".join(supply_table(report, table, Style()).split())
    assert f"{swap.ohms:.0f} ohm {swap.place} brings {swap.held} back" in printed
    assert "restores the running voltage only" in printed


def test_the_series_resistor_runs_hotter_than_its_direct_current_says() -> None:
    """Facts 4.8: the heat is that of the effective current, several times that of the mean."""
    _, table = _supply("skerry/original.netck", "SE1=silicon")
    assert table.swap is not None
    assert table.swap.ohms is not None
    assert table.swap.watts is not None
    assert table.swap.watts > 3 * table.swap.ohms * table.rectifiers[0].mean ** 2


@pytest.mark.parametrize("swap", ["SE1", "SE1=selenium", "=silicon", "XX=silicon", "R31=silicon"])
def test_a_swap_that_says_nothing_is_refused(swap: str) -> None:
    source = read(str(ROOT / "samples/skerry/original.netck"))
    with pytest.raises(UsageFault, match=r"swap|rectifier"):
        supply(source, reader(source), swap)


def test_the_command_prints_text_and_json(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    name = str(ROOT / "samples/skerry/original.netck")
    assert main(["supply", name, "--swap", "SE1=silicon"]) == 0
    assert "silicon in place of SE1" in capsys.readouterr().out
    assert main(["supply", name, "--json", "-o", str(tmp_path / "supply.json")]) == 0
    assert json.loads((tmp_path / "supply.json").read_text())["swap"] is None


def test_two_swaps_are_done_at_once(capsys: pytest.CaptureFixture[str]) -> None:
    name = str(ROOT / "samples/marram/original.netck")
    assert main(["supply", name, "--swap", "SE1=silicon", "--swap", "SE2=silicon", "--json"]) == 0
    swap = json.loads(capsys.readouterr().out)["swap"]
    assert swap["parts"] == ["SE1", "SE2"]
    assert swap["place"] == "in series with R21"
    assert [one["series"] for one in swap["preferred"]] == ["E12", "E24"]
    assert all(one["ohms"] >= swap["ohms"] for one in swap["preferred"])


def test_the_document_has_everything() -> None:
    report, table = _supply("skerry/original.netck")
    document = json.loads(supply_document(report, table, Style()))
    lines = {line["name"]: line for line in document["lines"]}
    assert {"B+1", "B+2", "B+3", "screens", "out-cath"} <= set(lines)
    assert "osc-grid" not in lines  # its volts are made by the oscillator, which is not computed
    assert lines["B+1"]["chart"] == 120
    assert document["capacitors"][0]["ripple_amperes"] > 0.1
    first = document["charges"][0]
    assert (first["seconds_to_60"], first["one_open"]) == (None, None)
    assert document["rectifiers"][0]["rated_mean"] == 0.1
    assert document["heaters"][0]["left"] == pytest.approx(117 - 100.4)
    assert [one["name"] for one in document["heaters"][0]["droppers"]] == ["R21", "R22", "LM1"]
    (harrow,) = json.loads(supply_document(*_supply("harrow-point/rewired.netck"), Style()))["first_capacitors"]
    assert (harrow["tube"], harrow["over"]) == ("V7", "within tolerance")


@pytest.mark.parametrize("name", SAMPLES)
def test_the_table_fits_a_hundred_columns_as_a_table(name: str) -> None:
    printed = supply_table(*_supply(name.removeprefix("samples/")), Style(width=100))
    heads = ("supply line  ", "electrolytic  ", "rectifier  ", "resistor  ", "discharge  ")
    if not any(word in name for word in ("one-can", "faulty")):  # no supply, or one that a fault leaves dead
        assert all(any(line.startswith(head) for line in printed.splitlines()) for head in heads)
    assert not any(word in printed.split() for word in ("inf", "nan", "-0.0"))


def test_a_reading_across_a_capacitor_between_two_lines_settles_it_in_the_table() -> None:
    """Two branches from different droppers: nothing but the meter across it says which is higher."""
    text = """mains 120 V 60 Hz
cord P1
diode D1 1000 V 1 A
electrolytic C1 40 mfd 250 V
electrolytic C2 10 mfd 250 V
resistor R1 10k
resistor R2 22k
resistor R3 47k
resistor R4 33k
net hot: P1.1, D1.anode
net B+: D1.cathode, C1+, R1.1, R2.1
net one: R1.2, R3.1, C2+
net other: R2.2, R4.1, C2-
net ground: chassis, P1.2, C1-, R3.2, R4.2
"""
    without, metered = (supply_of(CircuitGraph(circuit(t))) for t in (text, f"{text}volts C2+ to C2- 40 V\n"))
    found = [next(row.verdict.surety for row in table.capacitors if row.name == "C2") for table in (without, metered)]
    assert found == [Surety.UNPROVEN, Surety.COMPUTED]


def test_a_battery_makes_a_supply() -> None:
    """A portable's B battery behind 1 k, bled by 22 k: 90 V divided, and the time constant is closed form."""
    text = """battery BT1 90 V
electrolytic C1 20 mfd 80 V
resistor R1 1k
resistor R2 22k
net B+: BT1+, R1.1
net B+2: R1.2, C1+, R2.1
net ground: chassis, BT1-, C1-, R2.2
"""
    graph = CircuitGraph(circuit(text))
    table = supply_of(graph)
    (row,), (charge,) = table.capacitors, table.charges
    assert row.running == pytest.approx(90 * 22_000 / (22_000 + 1_000 + 1), rel=1e-6)
    assert (row.verdict.surety, row.over) == (Surety.PROVEN, "in use")
    assert charge.emptying.seconds[0] == pytest.approx(22_000 * 20e-6 * math.log(1.1 * row.running / 60), rel=1e-3)
    with pytest.raises(ValueError, match="no rectifier D1"):
        supply_of(graph, "D1")
