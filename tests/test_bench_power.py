"""The power-up sheet: volts against the supply's own closed forms, lamp and fuse by hand, unknowns without numbers."""

import math

import pytest
from msgspec.structs import replace

from netcheck.bench.power import fuse_for, lamps_for
from netcheck.bench.power_sheet import power_tables
from netcheck.bench.power_up import power_up
from netcheck.core.caution import Dangers
from netcheck.core.sheet import Table
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit
from tests.test_bench_job import states

SILICON = """
state rewired
mains 117 V 60 Hz
cord P1
diode D1 1000 V 1 A
electrolytic C1 1000 mfd 250 V
resistor R1 33 ohm 5 W
resistor R2 100k 1 W
net line: P1.1, R1.1
net rect: R1.2, D1.anode
net B+: D1.cathode, C1+, R2.1
net ground: chassis, P1.2, C1-, R2.2
draws B+ 60 mA
"""
TUBE = """
state rewired
mains 117 V 60 Hz
cord P1
transformer T1
winding T1 primary black-a black-b 117 V 6 ohm
winding T1 high red-a red-yellow red-b 290-0-290 V 180 ohm
winding T1 filament yellow-a yellow-b 5 V
tube V1 5Y3GT
electrolytic C1 20 mfd 450 V
resistor R1 10k 20 W
net line-a: P1.1, T1.black-a
net line-b: P1.2, T1.black-b
net a: T1.red-a, V1.4
net b: T1.red-b, V1.6
net f: T1.yellow-a, V1.2
net B+: T1.yellow-b, V1.8, C1+, R1.1
net ground: chassis, T1.red-yellow, C1-, R1.2
volts B+ 300 V
"""


def table(text: str, key: str) -> Table:
    return next(one for one in power_tables(power_up(CircuitGraph(circuit(text))), Dangers()) if one.key == key)


def test_half_line_is_between_loaded_and_half_the_cold_volts() -> None:
    """Without a load the capacitor sees the peak: 117 * sqrt 2 = 165.5 V, at half line 82.7 V."""
    found = power_up(CircuitGraph(circuit(SILICON)))
    (line,) = found.lines
    assert line.half is not None
    assert line.half[1] == pytest.approx(117 * math.sqrt(2) / 2, rel=0.02)
    assert 0 < line.half[0] < line.half[1]
    assert line.most == pytest.approx(117 * math.sqrt(2), rel=0.02)
    # 60 mA through 33 ohm ahead of a large reservoir: 146.2 V less the diode's drop (tan t - t = k pi Rs / R).
    assert line.full == pytest.approx(146.2 - 1.0, abs=2.0)


def test_where_nothing_that_draws_is_stated_no_lamp_and_no_fuse_is_told() -> None:
    """What the capacitor leaks is nothing that a fuse could be chosen by."""
    text = SILICON.replace("resistor R2 100k 1 W\n", "").replace("R2.1", "C1+").replace(", R2.2", "")
    idle = text.replace("draws B+ 60 mA\n", "")
    assert power_up(CircuitGraph(circuit(idle))).taken is None
    rows = [row.cells[0] for row in table(idle, "first").rows]
    assert "the file does not say what the set takes; begin with 60 W" in rows[0]
    assert rows[2].startswith("Fuse: not known")
    drawn = power_up(CircuitGraph(circuit(text))).taken
    assert drawn is not None
    assert drawn.watts == pytest.approx(147 * 0.06, rel=0.1)


def test_a_tube_rectifier_promises_nothing_at_half_line() -> None:
    found = power_up(CircuitGraph(circuit(TUBE)))
    (line,) = found.lines
    assert found.waits == ("V1",)
    assert line.half is not None
    assert line.half[0] == 0.0
    rows = table(TUBE, "volts")
    assert rows.rows[0].cells[3].startswith("up to ")
    assert any("nothing until it is hot" in text for text in rows.before)


@pytest.mark.parametrize(("most", "off"), [(140.0, "130 V"), (110.0, "110 V"), (100.0, "130 V"), (-110.0, "110 V")])
def test_a_line_is_switched_off_a_third_high_or_at_what_it_has_without_a_load(most: float, off: str) -> None:
    """What is said to be as much as without a load is not switched off at its own volts."""
    found = power_up(CircuitGraph(circuit(SILICON)))
    told = replace(found, lines=(replace(found.lines[0], chart=None, full=100.0, most=most),))
    assert told.lines[0].said == 100.0
    rows = next(one for one in power_tables(told, Dangers()) if one.key == "volts").rows
    assert rows[0].cells[7] == off


def test_the_charts_reading_goes_before_the_computed_one() -> None:
    assert "300 V" in table(TUBE, "volts").rows[0].cells[5]


@pytest.mark.parametrize(
    ("amperes", "fuses"),
    [
        (0.34, (0.63, 0.63)),
        (0.55, (1.0, 1.0)),
        (0.65, (1.0, 1.25)),
        (1.0, (1.6, 2.0)),
        (0.2, (0.315, 0.4)),
        (0.42, (0.63, 0.8)),
        (99.0, (10.0, 10.0)),
    ],
)
def test_a_fuse_is_one_and_a_half_to_two_times_the_current(amperes: float, fuses: tuple[float, float]) -> None:
    """By hand: 0.34 A asks for 0.51 to 0.68 A (IEC 60127 sizes: 0.63); 0.55 for 0.83 to 1.1."""
    assert fuse_for(amperes) == fuses


@pytest.mark.parametrize(
    ("watts", "lamps"),
    [
        (32, (40, 60)),
        (51, (60, 100)),
        (61, (75, 100)),
        (10, (25, 25)),
        (60, (60, 100)),
        (50, (60, 100)),
        (900, (500, 500)),
    ],
)
def test_a_limiter_lamp_is_once_to_twice_the_sets_watts(watts: float, lamps: tuple[int, int]) -> None:
    assert lamps_for(watts) == lamps


def test_the_watts_are_those_of_the_heaters_and_the_rectified_side() -> None:
    """Two 12.6 V 0.15 A heaters on a winding are 3.8 W; the rest is what the rectifier's side takes, by hand."""
    text = SILICON + "tube V2 12BA6\ntube V3 12BE6\n"
    alone, more = (power_up(CircuitGraph(circuit(t))).taken for t in (SILICON, text))
    assert alone is not None
    assert more is not None
    assert more.watts - alone.watts == pytest.approx(2 * 12.6 * 0.15, rel=1e-3)
    line = power_up(CircuitGraph(circuit(SILICON))).lines[0].full or 0.0
    direct = line * 0.060 + line**2 / 100_000
    assert alone.watts > direct
    assert alone.watts < 1.2 * direct  # the surge resistor sheds 33 ohm times the square of some 0.15 A


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("state rewired\nresistor R1 1k\nnet a: R1.1, chassis\nnet b: R1.2\n", "no `mains` line"),
        ("state rewired\nmains 117 V\ncord P1\nresistor R1 1k\nnet a: R1.1, P1.1\nnet b: R1.2, P1.2\n", "no rectifier"),
    ],
)
def test_what_can_not_be_computed_says_so_and_has_no_number(text: str, words: str) -> None:
    tables = power_tables(power_up(CircuitGraph(circuit(text))), Dangers())
    said = next(one for one in tables if one.heading.startswith("Volts"))
    assert words in said.before[0]
    assert said.rows == ()
    first = next(one for one in tables if one.key == "first")
    assert any("not known" in row.cells[0] for row in first.rows)


def test_a_small_tubes_plate_is_no_number_without_a_chart() -> None:
    text = SILICON + "tube V2 6J5\nresistor R3 220k\nnet B+: R3.1\nnet p: R3.2, V2.plate\nnet ground: V2.cathode\n"
    rows = {row.cells[0]: row.cells[5] for row in table(text, "volts").rows}
    assert rows["V2 plate"].startswith("below ")
    charted = {row.cells[0]: row.cells[5] for row in table(text + "volts V2.plate 45 V\n", "volts").rows}
    assert charted["V2 plate"].startswith("45 V")


def test_a_plate_far_below_its_line_may_be_off_by_more_than_a_fifth() -> None:
    """Its line may have a fifth more, and a fifth of what R3 then drops is more than a fifth of what the plate has."""
    text = SILICON + "tube V2 6J5\nresistor R3 220k\nnet B+: R3.1\nnet p: R3.2, V2.plate\nnet ground: V2.cathode\n"
    chart = "volts B+ 140 V\nvolts V2.plate {} V\n"
    far = {row.cells[0]: row.cells[5] for row in table(text + chart.format(50), "volts").rows}
    assert far["V2 plate"] == f"50 V \N{PLUS-MINUS SIGN}{20 * (140 * 1.2 - 50) / 50:.0f} %"
    near = {row.cells[0]: row.cells[5] for row in table(text + chart.format(100), "volts").rows}
    assert near["V2 plate"] == "100 V \N{PLUS-MINUS SIGN}20 %"


def test_a_cathode_whose_current_is_told_of_its_line_may_have_all_of_it_through_its_resistor() -> None:
    text = SILICON + "tube V2 6V6GT\nresistor R3 10 ohm\nnet B+: V2.plate, V2.screen\nnet k: R3.1, V2.cathode\n"
    rows = {row.cells[0]: row.cells[5] for row in table(text + "net ground: R3.2\n", "volts").rows}
    assert rows["V2 cathode"] == "below 0.6 V"  # 10 ohm times 60 mA
    rows = {
        row.cells[0]: row.cells[5]
        for row in table(text.replace("10 ohm", "1 ohm") + "net ground: R3.2\n", "volts").rows
    }
    assert rows["V2 cathode"] == "below 0.5 V"
    rows = {row.cells[0]: row.cells[5] for row in table(text, "volts").rows}
    assert rows["V2 cathode"] == "not known"


def test_a_reading_taken_over_from_another_net_says_of_which() -> None:
    """The grid hangs on the bias, that on the minus, by what carries nothing; the chart speaks of the minus."""
    graph = CircuitGraph(states("harrow-point", "rewired")[1])
    volts = next(one for one in power_tables(power_up(graph), Dangers()) if one.key == "volts")
    told = {row.cells[0]: row.cells[8] for row in volts.rows}
    assert (told["grid-5"], told["bias"], told["V3 plate"], told["V4 plate"]) == (
        "-19 V*",
        "-19 V*",
        "85 V",
        "",
    )
    assert "* The chart's reading of minus; the same volts belong at bias, grid-5, grid-6." in volts.before


def test_volts_that_depend_on_a_missing_value_are_not_told() -> None:
    found = power_up(CircuitGraph(circuit(SILICON.replace("R1 33 ohm 5 W", "R1"))))
    assert found.lines == found.electrodes == ()
    assert found.taken is None
    assert found.unknown == "they depend on what the file does not state: R1: add its ohms"
    assert "nan" not in str(power_tables(found, Dangers()))


TAPPED = """
state found
mains 117 V 60 Hz
cord P1
tube V1 12SQ7
tube V2 50L6GT
tube V3 35Z5GT
resistor R1 130 ohm 5 W
resistor R2 2k 5 W
electrolytic C1 40 mfd 150 V
net line: P1.1, R1.1
net h0: R1.2, V3.2
net tap: V3.3, V3.5
net h1: V3.7, V2.7
net h2: V2.2, V1.8
net B-: V1.7, P1.2, C1-, R2.2
net B+: V3.8, C1+, R2.1
"""


def test_a_string_that_feeds_the_plate_by_its_tap_is_counted_once() -> None:
    """The string takes 0.15 A of 117 V, dropper and all; what the plate feeds is the heat of R2 alone."""
    found = power_up(CircuitGraph(circuit(TAPPED)))
    (line,) = found.lines
    assert line.full is not None
    assert found.taken is not None
    assert found.taken.watts == pytest.approx(117 * 0.15 + line.full**2 / 2000, rel=0.01)


@pytest.mark.parametrize("name", ["harrow-point", "marram", "sallow-street", "skerry"])
def test_every_net_is_told_once_and_a_cathode_by_its_tube(name: str) -> None:
    """What a tube draws is known by half at best; a filter's line by a fifth."""
    graph = CircuitGraph(states(name, "rewired")[1])
    found = power_up(graph)
    nets = [graph.circuit.net_of(one.point) for one in (*found.lines, *found.electrodes)]
    assert len(nets) == len(set(nets))
    cathodes = [one for one in found.electrodes if "cathode" in one.name]
    assert cathodes
    assert all(one.half is None for one in cathodes)
    assert {one.within for one in cathodes if one.chart is None} == {0.5}
    assert {one.within for one in cathodes if one.chart is not None} <= {0.2}
    assert all(one.half is not None and one.most is not None for one in found.lines)
    fed = [one for one in found.electrodes if one.full is not None and "cathode" not in one.name and one.chart is None]
    assert all(one.half is not None and one.most is not None for one in fed)
