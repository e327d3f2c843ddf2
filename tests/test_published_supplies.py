"""Published supplies: what their sources and closed forms say of them."""

import math

import pytest

from netcheck.core.report import Report
from netcheck.core.source import Source
from netcheck.electrical.table.supply import CapacitorRow, SupplyRail, SupplyTable, supply
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from netcheck.reports.renderer import Style
from netcheck.reports.supply_table import supply_table
from tests.paper import reader
from tests.published import DOUBLER, ELEVATED, PHONO, REGULATORS, SHUNT_REGULATED


def table_of(text: str, *swaps: str) -> SupplyTable:
    circuit, problems = build(Source("set.netck", text), reader({}))
    assert circuit is not None, problems
    assert not problems
    table = supply(CircuitGraph(circuit), *swaps)
    assert table.converged
    return table


def row_of(table: SupplyTable, name: str) -> CapacitorRow:
    return next(row for row in table.capacitors if row.name == name)


def line_of(table: SupplyTable, name: str) -> SupplyRail:
    return next(row for row in table.lines if row.name == name)


def printed(table: SupplyTable) -> str:
    return " ".join(supply_table(Report("supply", "A set", ("set.netck",), ()), table, Style()).split())


@pytest.mark.parametrize("capacitor", ["C1A", "C2A"])
def test_without_its_regulators_460_volts_stand_on_450_volt_parts(capacitor: str) -> None:
    """The set of angelfire.com/electronic/funwithtubes/eq_fig-28-gif.html.

    Square root of 2 times 325 V is 459.6 V, over the rating before anything else is known."""
    table = table_of(SHUNT_REGULATED)
    row = row_of(table, capacitor)
    assert row.cold == pytest.approx(459.62, abs=0.1)
    assert row.running == pytest.approx(459.62, abs=1.0)
    assert row.over == "in use"
    assert row.verdict.way.value == "right"
    assert not any("without a load" in text for text in table.defaults)  # `rise 0%` is said


def test_the_shells_at_the_negative_rail_and_a_plus_at_ground_are_right() -> None:
    """The same: both shells at -105 V (an 0B2 keeps 108 V, from memory), +255 V above an 0A2 and an 0B2."""
    table = table_of(SHUNT_REGULATED + REGULATORS)
    assert {row.verdict.way.value for row in table.capacitors} == {"right"}
    assert line_of(table, "CT").running == pytest.approx(-105, rel=0.04)
    bp = line_of(table, "BP")
    assert bp.running - line_of(table, "CT").running == pytest.approx(row_of(table, "C2A").running, abs=0.1)
    assert row_of(table, "C3").running == pytest.approx(105, rel=0.04)
    assert row_of(table, "C1A").over == "cold"
    shunt = next(row for row in table.resistors if row.name == "R3")
    assert shunt.amperes == pytest.approx(150 / 12e3, rel=0.02)  # the 0A2 keeps 150 V across it


def test_each_capacitor_of_the_doubler_sees_the_peak_once() -> None:
    """Ideal rectifiers: each of the two sees Vm, and the first one's shell is not ground."""
    table = table_of(DOUBLER)
    peak = 117 * math.sqrt(2)
    for name in ("C1A", "C2"):
        assert row_of(table, name).cold == pytest.approx(peak, rel=1e-3)
        assert row_of(table, name).over == ""
    for name in ("C3", "C4", "C5", "C6"):
        assert row_of(table, name).cold == pytest.approx(2 * peak, rel=1e-3)
    assert {row.verdict.way.value for row in table.capacitors} == {"right"}
    assert [row.name for row in table.lines] == ["bottom", "B1", "B2", "B3", "B4", "B5"]
    assert line_of(table, "bottom").running == pytest.approx(line_of(table, "B1").running / 2, rel=0.01)
    drop = line_of(table, "B4").running - line_of(table, "B5").running
    assert drop == pytest.approx(0.001 * 39e3, rel=1e-3)


def test_a_heater_winding_on_b_plus_is_no_short() -> None:
    """The winding is elevated on purpose."""
    table = table_of(ELEVATED)
    assert line_of(table, "+400").running == pytest.approx(400, rel=0.05)
    # The choke makes the volts overshoot at switching on; the lossless limit is twice the peak.
    assert 300 * math.sqrt(2) <= line_of(table, "+400").cold < 2 * 300 * math.sqrt(2)
    assert table.overshoots
    assert "overshoots for a moment" in printed(table)
    bleeder = next(row for row in table.resistors if row.name == "R2")
    assert bleeder.watts == pytest.approx(line_of(table, "+400").running ** 2 / 220e3, rel=0.01)


def test_the_phono_amplifiers_dropper_sheds_three_watts() -> None:
    """Ohm's law: (117 - 97.6) / 0.15 is 129.3 ohm and 2.91 W."""
    (string,) = table_of(PHONO).heaters
    assert string.left == pytest.approx(117 - 97.6)
    (dropper,) = string.droppers
    assert (dropper.name, dropper.rated, dropper.over) == ("R9", 5.0, "")
    assert dropper.watts == pytest.approx(2.91, rel=0.02)
    assert not string.is_wrong
    assert all(row.share == pytest.approx(1, abs=0.01) for row in string.heaters)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("R9 130 ohm", "R9 47 ohm", "more"),
        ("R9 130 ohm", "R9 330 ohm", "less"),
        # The 50L6's heater bridged: the string is 50 V short (a shorted heater shows).
        ("net h2: V3.7, V2.7", "net h3: V3.7, V2.7", "more"),
    ],
)
def test_a_heater_string_that_is_off_the_mains_is_told(old: str, new: str, said: str) -> None:
    table = table_of(PHONO.replace(old, new))
    assert table.heaters[0].is_wrong
    assert f"over 10 % {said}" in printed(table)


def test_a_string_with_a_heater_that_is_not_known_says_so() -> None:
    table = table_of(
        PHONO.replace("tube V1 12SQ7", "basing 12X9: 2 grid, 3 cathode, 6 plate, 7 heater-1, 8 heater-2\ntube V1 12X9")
    )
    assert table.heaters == ()
    assert "the heater string on P1: heater not known of V1 12X9" in table.left_out


def test_a_lit_lamp_section_and_a_heater_wired_for_half_its_volts() -> None:
    """A tap is a point of its own; a 12AX7 with its ends joined takes 6.3 V at 300 mA (from memory)."""
    lamp = "lamp LM1 6.3 V 150 mA\nnet LN: LM1.1\nnet tap: LM1.2, V3.3\n"
    (string,) = table_of(PHONO.replace(", V3.5", "").replace("net h1", "net tap: V3.5\nnet h1") + lamp).heaters
    assert [row.tube for row in string.heaters] == ["V1", "V2", "V3"]
    halved = PHONO.replace("tube V1 12SQ7", "tube V1 12AX7").replace("V1.8", "V1.4, V1.5").replace("V1.7", "V1.9")
    halved = halved.replace("V1.3, ", "V1.3, V1.8, ").replace("V1.plate", "V1.plate-a")
    row = next(row for row in table_of(halved).heaters[0].heaters if row.tube == "V1")
    assert (row.rated_volts, row.rated_amperes) == (6.3, 0.3)
    assert row.share == pytest.approx(0.5, abs=0.05)  # half of its 300 mA flows in this string
