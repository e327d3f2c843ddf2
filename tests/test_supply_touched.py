"""The rows of the supply's table that say what a hand on metal gets of the line."""

import json
import math

import pytest

from netcheck.api import check, supply
from netcheck.core.source import Source
from netcheck.electrical.table.rows import TouchRow
from netcheck.reports.figures import touch_current
from netcheck.reports.renderer import Style
from netcheck.reports.supply_document import supply_document
from netcheck.reports.supply_table import supply_table, supply_tables
from netcheck.system.files import reader

SET = """mains 120 V 60 Hz
cord P1
diode D1 1N4007
electrolytic C1 47 mfd 250 V
resistor R2 22k 5 W
net hot: P1.1, D1.anode
net B+: D1.cathode, C1+, R2.1
net B-: P1.2, C1-, R2.2
common B-
"""
PAPER = SET + "capacitor C2 .05 mfd 400 V\nnet B-: C2.1\nnet frame: chassis, C2.2\n"


def rows(text: str) -> tuple[TouchRow, ...]:
    source = Source("set.netck", text)
    _, table = supply(source, reader(source))
    assert table is not None
    return table.touched


def printed(text: str) -> str:
    source = Source("set.netck", text)
    report, table = supply(source, reader(source))
    assert table is not None
    return supply_table(report, table, Style(width=200))


def test_a_capacitor_passes_what_its_reactance_lets_through() -> None:
    (row,) = rows(PAPER)
    assert row.amperes == pytest.approx(120 * 2 * math.pi * 60 * 0.05e-6, rel=1e-3)
    assert (row.metal, row.limit, row.hot, row.through, row.on_neutral) == ("chassis", 5e-4, "P1.2", ("C2",), False)
    assert row.direct == 0.0
    assert ["chassis", "2.3", "mA", "0.5", "mA", "P1.2", "C2"] in [line.split() for line in printed(PAPER).splitlines()]


def test_it_says_the_same_as_the_check() -> None:
    source = Source("set.netck", PAPER)
    found = [each for each in check(source, reader(source)).diagnostics if each.rule == "hot-chassis"]
    assert [each.headline for each in found] == ["2.3 mA of line current reaches the chassis through C2 (.05 mfd)"]
    assert touch_current(rows(PAPER)[0].amperes) in found[0].headline


def test_metal_that_is_kept_apart_gets_nothing_and_names_no_side() -> None:
    (row,) = rows(SET + "net frame: chassis\n")
    assert (row.amperes, row.hot, row.through) == (0.0, "", ())


def test_a_joint_is_the_whole_line() -> None:
    text = SET + "net B-: chassis\n"
    (row,) = rows(text)
    assert math.isinf(row.amperes)
    assert row.through == ()
    assert "chassis  the whole line  0.5 mA      P1.2" in printed(text)


def test_metal_on_the_neutral_of_a_plug_with_a_wide_blade_is_told_as_that() -> None:
    text = (SET + "net B-: chassis\n").replace("cord P1", "cord P1 polarized")
    text = text.replace("P1.1", "P1.hot").replace("P1.2", "P1.neutral")
    (row,) = rows(text)
    assert row.on_neutral
    assert row.amperes == 0.0
    assert "on the neutral" in printed(text)


def test_what_depends_on_a_missing_value_is_no_number() -> None:
    text = PAPER.replace("capacitor C2 .05 mfd", "capacitor C2")
    (row,) = rows(text)
    assert math.isnan(row.amperes)
    assert row.through == ("C2",)
    assert "chassis             ?  0.5 mA" in printed(text)


def test_direct_current_through_a_bleeder_counts() -> None:
    """170 V less the diode's drop through 22k and the way back, with the wide blade on the other side of the diode."""
    text = SET.replace("R2.2\ncommon", "\ncommon").replace("C1-, \n", "C1-\n") + "net frame: chassis, R2.2\n"
    text = text.replace("cord P1", "cord P1 polarized").replace("P1.1", "P1.hot").replace("P1.2", "P1.neutral")
    (row,) = rows(text)
    assert row.amperes == pytest.approx(120 * math.sqrt(2) / 22e3, rel=0.01)
    assert row.direct == pytest.approx(row.amperes, rel=0.01)


def test_a_switch_that_matters_is_named() -> None:
    text = PAPER.replace("net B-: C2.1", "switch S1 drawn open\nnet B-: S1.1\nnet x: S1.2, C2.1")
    (row,) = rows(text)
    assert row.switched == "S1 closed"
    assert row.amperes == pytest.approx(120 * 2 * math.pi * 60 * 0.05e-6, rel=1e-3)


def test_the_document_and_the_page_have_the_rows_too() -> None:
    source = Source("set.netck", SET + "net B-: chassis\n")
    report, table = supply(source, reader(source))
    assert table is not None
    (row,) = json.loads(supply_document(report, table, Style()))["touched"]
    assert row["joined"] is True
    assert row["line_amperes"] is None
    assert (row["metal"], row["limit"], row["hot"]) == ("chassis", 5e-4, "P1.2")
    headings = [each.heading for each in supply_tables(table)]
    assert "Line current into metal, calculated, plug either way" in headings


@pytest.mark.parametrize(
    ("amperes", "said"), [(0.0, "0 mA"), (4.4e-4, "0.44 mA"), (6.7e-3, "6.7 mA"), (0.0452, "45 mA"), (1.72, "1.7 A")]
)
def test_a_current_has_two_figures(amperes: float, said: str) -> None:
    assert touch_current(amperes) == said
