"""The order against hand calculations; each has its source beside it."""

import math
from functools import cache

import pytest

from netcheck.bench.buy import Need, OrderGroup
from netcheck.bench.buying import needed
from netcheck.compare.bands import picks
from netcheck.core.mend import Change
from netcheck.core.quantity import Dimension
from netcheck.core.sheet import Sheet
from netcheck.core.source import Source
from netcheck.engine.run import told_by
from netcheck.model.acts import applied
from netcheck.model.graph import CircuitGraph
from netcheck.rules import inverse_volts_too_low
from netcheck.sheets import buy
from tests.paper import circuit, reader
from tests.test_bench_job import states

PEAK = math.sqrt(2)
HIGH = 1.1  # a line 10 % high
RISE = 1.05  # of a winding without a load, where the file states none (common practice)


@cache
def order(name: str) -> dict[str, Need]:
    old, new = states(name, "rewired")
    return {need.part: need for need in needed(old, CircuitGraph(new), picks)}


NAMES = ("harrow-point", "marram", "sallow-street", "skerry")
# What a capacitor sees cold, on a high line, and the size ordered: sample | parts | volts by hand | size | how.
VOLTS = [
    ("harrow-point", "C51 C52 C61 C62", 290 * RISE * HIGH * PEAK, 500, "full wave: the peak of half the winding"),
    ("harrow-point", "C53", 200 * 0.0943, 25, "94.3 mA through the 200 ohm in the minus lead; the old one 25 V"),
    ("skerry", "C51 C52 C54", 117 * HIGH * PEAK, 200, "half wave: the peak of the line; the old ones 200 V"),
    ("skerry", "C53", 150 * 0.0533, 25, "53.3 mA through the cathode's 150 ohm; the old one 25 V"),
    ("sallow-street", "C30A C30C C91 C92", 250 * RISE * HIGH * PEAK, 450, "bridge: the peak of the winding"),
    ("sallow-street", "C95", 30 * RISE * HIGH * PEAK, 100, "bias winding, half wave; the old one 100 V"),
    ("marram", "C70", 117 * HIGH * PEAK, 200, "doubler: each capacitor sees the peak of the line; the old ones 200 V"),
    ("marram", "C41B C71 C72", 2 * 117 * HIGH * PEAK, 450, "doubler: twice the peak; the old ones 450 V"),
    ("marram", "C41C", 270 * 0.0495, 50, "49.5 mA through the cathode's 270 ohm; the old one 50 V"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "parts", "volts", "size", "how"), VOLTS)
def test_electrolytics_stand_the_no_load_peak_on_a_high_line(
    name: str, parts: str, volts: float, size: float, how: str
) -> None:
    """Half-wave, centre-tapped and bridge Vm, doublers 2 Vm with Vm each (textbook; O. H. Schade, 1943)."""
    assert how
    for part in parts.split():
        need = order(name)[part]
        seen = need.computed
        assert seen is not None
        # A bias or cathode figure rests on currents that are taken by default; a bleeder takes a little off the rest.
        assert seen == pytest.approx(volts, rel=0.05 if volts < 60 else 0.002), part
        assert need.size == size, part


def test_a_choke_overshoots_and_more_than_the_peak_is_ordered_for() -> None:
    need = order("sallow-street")["C30B"]
    assert need.computed is not None
    assert need.computed > 250 * RISE * HIGH * PEAK
    assert need.size == 450


# Inverse volts: half-wave and doubler 2 Vm, bridge Vm (textbook); twice the mean current, an ampere at least. On a line
# of 117 to 120 V 400 V is the bare minimum and 600 V and more are usual (common practice): a fifth above the inverse.
RECTIFIERS = [
    ("skerry", "D1", 2 * 117 * HIGH * PEAK, 600),
    ("marram", "D1", 2 * 117 * HIGH * PEAK, 600),
    ("marram", "D2", 2 * 117 * HIGH * PEAK, 600),
    ("sallow-street", "D1", 250 * RISE * HIGH * PEAK, 600),
    ("sallow-street", "D4", 250 * RISE * HIGH * PEAK, 600),
    ("sallow-street", "D5", 2 * 30 * RISE * HIGH * PEAK, 400),
]


@pytest.mark.parametrize(("name", "part", "volts", "size"), RECTIFIERS)
def test_rectifiers_stand_the_inverse_peak(name: str, part: str, volts: float, size: float) -> None:
    need = order(name)[part]
    assert need.computed == pytest.approx(volts, rel=0.025)  # what bleeds the capacitors takes a little off
    assert need.size == size


@pytest.mark.parametrize("name", ["skerry", "marram", "sallow-street"])
def test_a_diode_as_ordered_is_not_called_tight(name: str) -> None:
    """The order and the check are of one mind."""
    rewired = states(name, "rewired")[1]
    ordered = [need for need in order(name).values() if need.part.startswith("D") and need.size is not None]
    assert ordered
    acts = tuple(Change(need.part, f"{need.size:.0f} V 3 A") for need in ordered)
    found = told_by([inverse_volts_too_low.RULE], CircuitGraph(applied(rewired, acts)))
    assert not [d.headline for d in found if d.touched.parts[0] in {need.part for need in ordered}]


def test_a_reservoir_stands_the_pulses_less_the_mean() -> None:
    """Effective values add by their squares: what alternates in the rectifier's current goes through the capacitor."""
    from netcheck.electrical.table.supply import supply

    for name, part in (("skerry", "C51"), ("marram", "C70")):
        table = supply(CircuitGraph(states(name, "rewired")[1]))
        pulses = next(row for row in table.rectifiers if row.name == "D1")
        both = 2 if name == "marram" else 1  # the doubler's first capacitor carries the pulses of both
        assert order(name)[part].amperes == pytest.approx(
            math.sqrt(both * (pulses.rms**2 - (pulses.mean**2 if both == 1 else 0))), rel=0.05
        )


# Heat by hand, I squared R with the current that the supply table gives | twice that | the old one | size.
HEAT = [
    ("harrow-point", "R15", 1500, 0.0242, 2.0),  # the old one 2 W
    ("skerry", "R15", 150, 0.0530, 1.0),  # the old one 1 W
    ("skerry", "R50", 33, 0.2152, 5.0),  # effective, of the pulses; none before
    ("skerry", "R21", 82, 0.1498, 5.0),  # the heater string's 150 mA; the old one 5 W
    ("marram", "R20", 270, 0.0495, 2.0),  # the old one 2 W
    ("marram", "R80", 15, 0.483, 10.0),  # effective, of both pulses
    ("sallow-street", "R28", 4700, 0.01155, 10.0),  # 294 V less 240 V; the old one 10 W
]


@pytest.mark.parametrize(("name", "part", "ohms", "amperes", "size"), HEAT)
def test_resistors_are_run_at_half(name: str, part: str, ohms: float, amperes: float, size: float) -> None:
    need = order(name)[part]
    assert need.computed == pytest.approx(2 * amperes**2 * ohms, rel=0.03)
    assert need.size == size


# IEC 60384-14: X across the line, Y to metal that can be touched; Y may stand in for X.
CLASSES = [("harrow-point", "C72", "Y2 or Y1"), ("skerry", "C30", "X2, X1 or Y"), ("skerry", "C31", "Y2 or Y1"),
           ("marram", "C17", "X2, X1 or Y")]  # fmt: skip


@pytest.mark.parametrize(("name", "part", "asked"), CLASSES)
def test_line_capacitors_have_a_class_and_nothing_larger_serves(name: str, part: str, asked: str) -> None:
    need = order(name)[part]
    assert need.group is OrderGroup.LINE
    assert need.kind == asked
    assert need.others == ()


def test_the_largest_value_from_the_line_to_the_chassis_is_told() -> None:
    """0.5 mA at 120 V 60 Hz is 11 nF; of the usual sizes .01 (closed form: C = I / (2 pi f V))."""
    assert 0.5e-3 / (2 * math.pi * 60 * 120) == pytest.approx(11.05e-9, rel=1e-3)
    assert "no more than .01 mfd here" in order("harrow-point")["C72"].note


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_ordered_below_what_it_replaces(name: str) -> None:
    old, new = states(name, "rewired")
    checked = 0
    for part, need in order(name).items():
        dimension = Dimension.POWER if new.parts[part].kind.word == "resistor" else Dimension.VOLTAGE
        names = new.parts[part].replaces or (part,)
        rated = [q for n in names if n in old.parts for q in old.parts[n].features.all_of(dimension)]
        if rated and need.group in (OrderGroup.ELECTROLYTIC, OrderGroup.CAPACITOR, OrderGroup.RESISTOR):
            assert need.size is not None
            assert need.size >= max(float(q.amount) for q in rated)
            checked += 1
    assert checked >= 10


UNKNOWN = """state rewired
start from "base.netck"
electrolytic C9 22 mfd
electrolytic C8 10 mfd 350 V
capacitor C7 .01 mfd film
resistor R9 1k
resistor R8 1k 5 W
fuse F9 2 A
diode D9 1000 V 1 A
net a: C9+, R9.1, C8+, C7.1, R8.1, F9.1, D9.anode
"""
BASE = "state drawn\nresistor R1 1k\nnet a: R1.1\nnet ground: chassis, R1.2\n"


def sheet(text: str, base: str) -> Sheet:
    source, find = Source("set.netck", text), reader({"set.netck": text, "base.netck": base})
    _, made = buy(source, read=find)
    assert made is not None
    return made


def test_what_can_not_be_computed_says_so() -> None:
    found = {n.part: n for n in needed(circuit(BASE), CircuitGraph(circuit(UNKNOWN, base=BASE)), picks)}
    assert all(need.computed is need.size is need.amperes is None for need in found.values())
    said = {row.cells[-2]: row.cells for table in sheet(UNKNOWN, BASE).tables for row in table.rows}
    assert said["C9"][2:6] == ("not known", "", "not known", "not known")
    assert said["C8"][4] == "350 V, as in the file"
    assert said["R8"][4] == "5 W, as in the file"
    assert said["R9"][4] == "not known"
    assert said["D9"][2:6] == ("not known", "not known", "not known", "not known")
    assert "not known: as the maker of the set says" in str(sheet(UNKNOWN, BASE).tables)


DIRECT = """state rewired
start from "base.netck"
remove C1
electrolytic C2 47 mfd 160 V plus V1.8 minus P1.2 replaces C1
"""
LINE_SET = """state drawn
mains 117 V 60 Hz
cord P1
tube V1 35Z4GT
electrolytic C1 40 mfd {volts} V plus V1.8 minus P1.2
net line: P1.1, V1.2
net line-2: P1.2, V1.7
"""


def test_without_a_transformer_the_lines_peak_is_possible_where_nothing_is_computed() -> None:
    """The plate is not wired, so no supply is found: a 150 V part must still not be ordered again."""
    base = LINE_SET.format(volts=150)
    (need,) = needed(circuit(base), CircuitGraph(circuit(DIRECT, base=base)), picks)
    assert need.computed == pytest.approx(117 * HIGH * PEAK)
    assert need.bound
    assert need.size == 200
    cells = sheet(DIRECT, base).tables[0].rows[0].cells
    assert cells[2] == "182 V or more"
    low = LINE_SET.format(volts=25)
    (need,) = needed(circuit(low), CircuitGraph(circuit(DIRECT, base=low)), picks)
    assert need.computed is None  # a cathode's or a bias capacitor
    assert need.size == 25


def test_without_the_state_before_only_what_is_told_as_new_is_bought() -> None:
    """A file of its own: what replaces something, is added or inserted; the rest may have been there."""
    text = "state rewired\nstrip SP1 4 lugs\nresistor R1 1k 1 W from SP1.1 to SP1.2\n"
    text += 'resistor R2 2k 1 W from SP1.1 to SP1.3 added "bleeder"\n'
    found = needed(None, CircuitGraph(circuit(text)), picks)
    assert [need.part for need in found] == ["R2"]
    assert found[0].was is None


SHARED = """state rewired
start from "base.netck"
mains 117 V 60 Hz
cord P1
diode D1 1N4007
resistor R2 1k 5 W
resistor R4 250 ohm 2 W
resistor R5 470k 1/2 W
tube V1 6V6GT
electrolytic C1 47 mfd 250 V
electrolytic C2 22 mfd 250 V
resistor R7 47k 1 W
resistor R8 47k 1 W
capacitor C7 .01 mfd film
electrolytic C8 10 mfd 300 V
electrolytic C9 22 mfd 50 V
net line: P1.1, D1.anode
net B+1: D1.cathode, C1+, R2.1
net B+2: R2.2, C2+, V1.4, V1.3, C8+, R7.1
net half: R7.2, R8.1, C7.1
net k: V1.8, R4.1, C9+, C8-
net ground: chassis, P1.2, C1-, C2-, C9-, R4.2, R5.2, R8.2, C7.2
net g: V1.5, R5.1
draws B+2 40 mA
accept hot-chassis P1 "a trial"
"""


def most_seen(text: str) -> dict[str, float]:
    """The most that each capacitor sees."""
    from netcheck.electrical.stress import charges

    return charges(CircuitGraph(circuit(text, base=BASE)))


def test_cold_volts_are_not_the_most_of_a_capacitor_whose_volts_in_use_nobody_knows() -> None:
    found = {n.part: n for n in needed(circuit(BASE), CircuitGraph(circuit(SHARED, base=BASE)), picks)}
    assert found["C9"].computed is None  # 0 V cold; how much of the 40 mA comes through R4 is not said
    assert most_seen(SHARED)["C7"] == pytest.approx(117 * HIGH * PEAK / 2, rel=0.05)
    assert found["C7"].size == 250  # it has half the volts, but nothing says how far what it couples swings
    for name in ("C1", "C2", "C7", "C8"):  # from screen to cathode it sees all of B+ cold, whatever comes in use
        assert found[name].computed == pytest.approx(117 * HIGH * PEAK, rel=0.02)
