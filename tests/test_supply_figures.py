"""The supply table's figures against closed forms, its limits, and what silicon changes."""

import math

import eseries
import pytest

from netcheck.electrical.table.rows import Emptying, RectifierRow
from netcheck.electrical.table.supply import SupplyTable
from netcheck.electrical.table.swap import SiliconSwap
from netcheck.electrical.tube_data import first_capacitors, heater_of, rectifier_tube_of, regulator_volts_of
from netcheck.parts.made import above
from tests.test_published_supplies import printed, row_of, table_of

HALF_WAVE = """
title "Half wave"
state drawn
mains 117 V 60 Hz
common B-
cord P1
diode D1 1000 V 1 A
resistor R1 68 ohm 2 W
electrolytic C1 2200 mfd 200 V
net a: P1.1, D1.anode
net b: D1.cathode, R1.1
net B+: R1.2, C1+
net B-: P1.2, C1-
draws B+ 60 mA
"""
TWO_BLEEDERS = """
resistor R2 100k 2 W
resistor R3 220k 1 W
net B+: R2.1, R3.1
net B-: R2.2, R3.2
"""
FULL_WAVE = """
title "Full wave"
state drawn
mains 117 V 60 Hz
cord P1
transformer T1 rise 5%
winding T1 primary 1 2 117 V 5 ohm
winding T1 high 3 4 5 310-0-310 V 200 ohm
winding T1 filament 6 7 5 V
tube V1 5Y3GT
electrolytic C1 20 mfd 500 V 200 mA
resistor R1 1.5k 10 W
electrolytic C2 47 mfd 500 V
net line-a: P1.1, T1.1
net line-b: P1.2, T1.2
net plate-a: T1.3, V1.4
net plate-b: T1.5, V1.6
net fil: T1.6, V1.2
net B+1: T1.7, V1.8, C1+, R1.1
net B+2: R1.2, C2+
net ground: chassis, T1.4, C1-, C2-
draws B+2 60 mA
volts B+2 250 V
"""
CASCADE = """
title "Cascade doubler"
state drawn
mains 117 V 60 Hz
cord P1
resistor R1 5.6 ohm 5 W
selenium CR1 130 V 250 mA
selenium CR2 130 V 250 mA
electrolytic C1 140 mfd 200 V
electrolytic C2 100 mfd 450 V
net a: P1.1, R1.1
net in: R1.2, C1-
net mid: C1+, CR1+, CR2-
net B+: CR2+, C2+
net ground: chassis, P1.2, CR1-, C2-
draws B+ 130 mA
"""


def charge_of(table: SupplyTable, name: str) -> Emptying:
    return next(row.emptying for row in table.charges if row.name == name)


def _rectifier(table: SupplyTable, name: str = "D1") -> RectifierRow:
    return next(row for row in table.rectifiers if row.name == name)


def _swap(table: SupplyTable) -> SiliconSwap:
    assert table.swap is not None
    return table.swap


def test_a_series_resistor_is_heated_by_pulses() -> None:
    """68 ohm at 60 mA sheds about 1.5 W, not the 0.24 W of Ohm's law; the peak is 0.46 A, B+ 134.4 V."""
    table = table_of(HALF_WAVE)
    (resistor,) = table.resistors
    assert resistor.amperes == pytest.approx(0.06, rel=1e-3)
    assert resistor.watts == pytest.approx(1.5, rel=0.05)
    assert resistor.watts == pytest.approx(68 * resistor.rms**2, rel=1e-6)
    assert resistor.over == "above half"
    assert _rectifier(table).peak == pytest.approx(0.46, rel=0.02)
    assert row_of(table, "C1").running == pytest.approx(134.4, abs=1.5)


def test_the_ripple_current_is_what_the_rectifier_gives_and_the_load_does_not_take() -> None:
    """With a steady load the effective values are those of a right angle."""
    table = table_of(HALF_WAVE)
    expected = math.sqrt(_rectifier(table).rms ** 2 - 0.06**2)
    assert row_of(table, "C1").amperes == pytest.approx(expected, rel=1e-3)


def test_a_ripple_current_over_its_rating_is_told() -> None:
    row = row_of(table_of(HALF_WAVE.replace("200 V", "200 V 100 mA")), "C1")
    assert (row.rated_amperes, row.over) == (0.1, "ripple")
    assert row_of(table_of(HALF_WAVE.replace("200 V", "200 V 1 A")), "C1").over == ""


def test_discharge_with_one_bleeder_open() -> None:
    """RC ln(V0/V); with the smaller of two bleeders open the other is alone."""
    table = table_of(HALF_WAVE + TWO_BLEEDERS)
    said = charge_of(table, "C1")
    for at, limit in enumerate((60, 50)):
        decay = 2200e-6 * math.log(said.volts / limit)
        assert said.seconds[at] == pytest.approx(decay / (1 / 100e3 + 1 / 220e3), rel=1e-3)
        assert said.opened_seconds[at] == pytest.approx(decay * 220e3, rel=1e-3)
    assert said.opened == "R2"
    assert said.volts == pytest.approx(117 * math.sqrt(2) * 1.1, rel=1e-3)


def test_what_a_damper_lifts_has_no_bound() -> None:
    boost = "tube V9 6W4GT\nelectrolytic C9 10 mfd 450 V\nresistor R9 1 meg\n"
    boost += "net B+: V9.plate, C9-\nnet boost: V9.cathode, C9+, R9.1\nnet B-: R9.2\n"
    table = table_of(HALF_WAVE + boost)
    assert math.isinf(row_of(table, "C9").cold)
    assert math.isinf(charge_of(table, "C9").volts)
    assert "no limit" in printed(table)
    assert "10000" not in printed(table)


def test_without_a_bleeder_it_is_never() -> None:
    table = table_of(HALF_WAVE)
    said = charge_of(table, "C1")
    assert (said.seconds, said.opened) == ((None, None), "")
    assert "never: nothing bleeds it. Discharge it by hand" in printed(table)
    alone = charge_of(table_of(HALF_WAVE + "resistor R2 100k 2 W\nnet B+: R2.1\nnet B-: R2.2\n"), "C1")
    assert (alone.opened, alone.opened_seconds) == ("R2", (None, None))


@pytest.mark.parametrize(
    ("rating", "over"),
    [("200 V 1 A", "inverse"), ("350 V 1 A", "inverse cold"), ("400 V 1 A", ""),
     ("1000 V 50 mA", "mean")],
)  # fmt: skip
def test_a_diode_is_held_against_its_ratings(rating: str, over: str) -> None:
    """2 sqrt(2) V_rms is 330.9 V at 117 V and 364 V at high line."""
    table = table_of(HALF_WAVE.replace("1000 V 1 A", rating))
    assert _rectifier(table).over == over


def test_a_tube_is_held_against_its_peak_current() -> None:
    row = _rectifier(table_of(FULL_WAVE), "V1 plate-1")
    assert (row.rated_peak, row.rated_inverse, row.over) == (0.4, 1400.0, "")  # from memory
    assert row.surge is None  # it warms up first
    # Hot before any other tube draws: twice the peak of one half, at a tenth over the line and with no load on it.
    assert row.inverse_high == pytest.approx(2 * math.sqrt(2) * 310 * 1.05 * 1.1, rel=1e-3)
    thin = FULL_WAVE.replace(" 200 ohm", " 2 ohm").replace("5 ohm", "0.1 ohm").replace("20 mfd", "200 mfd")
    assert _rectifier(table_of(thin.replace("60 mA", "120 mA")), "V1 plate-1").over == "peak"


@pytest.mark.parametrize(("mfd", "over"), [("8", ""), ("20", ""), ("22", "within tolerance"), ("47", "too large")])
def test_the_first_capacitor_of_a_tube(mfd: str, over: str) -> None:
    """A 5Y3 takes 20 mfd; 22 is the same part; a second filter is no concern of the tube."""
    (first,) = table_of(FULL_WAVE.replace("C1 20 mfd", f"C1 {mfd} mfd")).first_filters
    assert (first.tube, first.capacitors, first.over) == ("V1", ("C1",), over)
    assert first.most == pytest.approx(20e-6)


@pytest.mark.parametrize(
    ("tube", "source"),
    [
        ("5Y3GT", "tubeofile.com/api/tubes/5Y3; older data of the 5Y3-G show 10"),
        ("5U4GB", "from memory, as the 5U4-G"),
    ],
)
def test_a_limit_says_where_it_was_read_or_that_it_is_remembered(tube: str, source: str) -> None:
    (first,) = table_of(FULL_WAVE.replace("5Y3GT", tube)).first_filters
    assert first.source == source


def test_a_line_is_told_with_its_chart() -> None:
    table = table_of(FULL_WAVE)
    assert [(row.name, row.chart) for row in table.lines] == [("B+1", None), ("B+2", 250.0)]
    assert table.lines[0].running - table.lines[1].running == pytest.approx(90, rel=1e-3)
    assert table.lines[0].cold == pytest.approx(310 * math.sqrt(2) * 1.05, rel=1e-3)


@pytest.mark.parametrize("series", ["E12", "E24"])
def test_preferred_values_are_those_of_the_standard(series: str) -> None:
    key = eseries.ESeries[series]
    for ohms in (1.0, 9.9, 10.0, 10.01, 68.0, 92.0, 336.2, 8200.0, 19_999.0):
        assert above(ohms, series) == pytest.approx(eseries.find_greater_than_or_equal(key, ohms))


def test_silicon_for_both_stacks_of_a_doubler() -> None:
    one, both = (table_of(CASCADE, *parts) for parts in (("CR1",), ("CR1", "CR2")))
    after = [next(c.after for c in _swap(table).changes if c.name == "C2") for table in (one, both)]
    before = row_of(one, "C2").running
    assert before < after[0] < after[1]
    swap = _swap(both)
    assert (swap.parts, swap.place, swap.late) == (("CR1", "CR2"), "in series with R1", ())
    assert swap.ohms is not None
    # Put where it says, the resistor gives the volts and the watts that are told.
    assert [one.series for one in swap.preferred] == ["E12", "E24"]
    silicon = CASCADE.replace("selenium CR1 130 V 250 mA", "diode CR1").replace(
        "selenium CR2 130 V 250 mA", "diode CR2"
    )
    silicon = silicon.replace("CR1+", "CR1.cathode").replace("CR2+", "CR2.cathode")
    silicon = silicon.replace("CR1-", "CR1.anode").replace("CR2-", "CR2.anode")
    for value in swap.preferred:
        wired = silicon.replace("net in: R1.2", f"resistor R2 {value.ohms:g} ohm\nnet x: R1.2, R2.1\nnet in: R2.2")
        rewired = table_of(wired)
        assert row_of(rewired, "C2").running == pytest.approx(value.volts, abs=0.01)
        assert next(row.watts for row in rewired.resistors if row.name == "R2") == pytest.approx(value.watts, rel=1e-3)
        assert value.volts <= before + 0.1
        assert row_of(rewired, "C2").cold_high == pytest.approx(swap.cold_high, rel=0.01)
    text = printed(both)
    assert f"{swap.ohms:.0f} ohm in series with R1 brings C2 back" in text
    assert "with it or without" in text


def test_silicon_for_a_tube_does_not_wait_for_the_others() -> None:
    swap = _swap(table_of(FULL_WAVE, "V1"))
    assert swap.late == ("V1",)
    change = next(c for c in swap.changes if c.name == "C1")
    assert change.after > change.before + 20  # what a 5Y3 drops
    assert swap.place == "between V1 and B+1"
    assert "Silicon conducts at once" in printed(table_of(FULL_WAVE, "V1"))


def test_where_no_one_lead_carries_the_current_no_resistor_is_named() -> None:
    bias = """
winding T1 bias 8 9 50 V 20 ohm
selenium CR1 52 V 75 mA
electrolytic C9 47 mfd 100 V
resistor R9 10k
net bias-ac: T1.8, CR1+
net bias: CR1-, C9-, R9.1
net ground: T1.9, C9+, R9.2
"""
    swap = _swap(table_of(FULL_WAVE + bias, "V1", "CR1"))
    assert (swap.ohms, swap.place) == (None, "")
    assert "No single lead" in printed(table_of(FULL_WAVE + bias, "V1", "CR1"))


def test_mercury_drops_the_same_at_any_current() -> None:
    """From memory: an 83 drops 15 V."""
    tube = rectifier_tube_of("83")
    assert tube is not None
    assert (tube.gas, tube.volts) == (True, 15.0)
    four_pins = FULL_WAVE.replace("5Y3GT", "83").replace("V1.4", "V1.2").replace("V1.6", "V1.3")
    four_pins = four_pins.replace("net fil: T1.6, V1.2", "net fil: T1.6, V1.1").replace("V1.8", "V1.4")
    assert row_of(table_of(four_pins), "C1").running > row_of(table_of(FULL_WAVE), "C1").running + 20


def test_every_tube_with_a_first_capacitor_has_its_drop_and_limits() -> None:
    # Of these two no drop was found published, and none is known from memory.
    known = [row.type for row in first_capacitors() if row.type not in ("274B", "GZ37")]
    rows = [rectifier_tube_of(name) for name in known]
    assert all(row is not None and row.peak > row.mean > 0 and row.inverse_volts > 300 for row in rows)


@pytest.mark.parametrize(("tube", "volts"), [("0A2", 150), ("0B2", 108), ("0D3", 150), ("VR75", 75), ("6V6", None)])
def test_regulators(tube: str, volts: float | None) -> None:
    assert regulator_volts_of(tube) == volts


@pytest.mark.parametrize(("tube", "ohms"), [("50L6GT", 333), ("35W4", 233), ("12BA6", 84), ("6SK7", 21)])
def test_hot_heaters(tube: str, ohms: float) -> None:
    """A heater's rated volts by its current."""
    heater = heater_of(tube)
    assert heater is not None
    assert heater.volts / heater.amperes == pytest.approx(ohms, rel=0.01)
