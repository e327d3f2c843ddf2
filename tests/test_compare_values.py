"""Values, ratings and kinds against the trade's bands; each outside fact has its source beside it."""

from decimal import Decimal
from itertools import permutations

import eseries
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from netcheck.compare.bands import old_values, verdict
from netcheck.compare.pair import Pair
from netcheck.compare.pair import compared as pair_compared
from netcheck.compare.roles.part_pair import PartPair
from netcheck.compare.values import judged_values
from netcheck.core.diagnostic import Grade
from netcheck.core.quantity import Dimension
from tests.paper import circuit, compared
from tests.trade import LOOK, NOTE, SILENT, STOP, Found, headlines, part, report, told

# Shop picks for the values of old: common practice, but for .05 (radioworld.com fits .047), .2 (a published repair
# thread fits .22), 16 (published substitution tables fit 22) and 50 (a catalogue's 47 for 50).
SHOP_PICKS = """
.0005 mfd mica    470 mmfd
.001  mfd paper   .001
.002  mfd paper   .0022 .0018
.0025 mfd paper   .0022 .0027
.003  mfd paper   .0033 .0027
.004  mfd paper   .0039
.005  mfd paper   .0047 .0056
.006  mfd paper   .0056 .0068 .0062
.008  mfd paper   .0082
.01   mfd paper   .01
.02   mfd paper   .022 .018
.025  mfd paper   .022 .027
.03   mfd paper   .033
.04   mfd paper   .039 .047
.05   mfd paper   .047 .056
.06   mfd paper   .068 .056
.1    mfd paper   .1
.15   mfd paper   .15
.2    mfd paper   .22 .18
.25   mfd paper   .22 .27 .24
.5    mfd paper   .47
4     mfd electrolytic 4.7 3.9
5     mfd electrolytic 4.7
8     mfd electrolytic 10 8.2
10    mfd electrolytic 10
12    mfd electrolytic 12 15 10
16    mfd electrolytic 22 15
20    mfd electrolytic 22
25    mfd electrolytic 22 27 33
30    mfd electrolytic 33
40    mfd electrolytic 47 39
50    mfd electrolytic 47
60    mfd electrolytic 68 56
80    mfd electrolytic 100 82
125   mfd electrolytic 120 150
"""


def _capacitor_picks() -> list[tuple[str, str]]:
    found = []
    for line in SHOP_PICKS.strip().splitlines():
        old, unit, material, *fitted = line.split()
        kind = "electrolytic X" if material == "electrolytic" else "capacitor X"
        word = "" if material == "electrolytic" else material
        if fitted[-1] == "mmfd":
            fitted = [f"{fitted[0]} mmfd"]
        for pick in fitted:
            new = pick if pick.endswith("mmfd") else f"{pick} {unit}"
            found.append((f"{kind} {old} {unit} {word}".strip(), f"{kind} {new}"))
    return found


# Old resistor values and the E12 and E24 values beside them, computed.
OLD_RESISTORS = [
    ("50k", "47k"), ("50k", "51k"), ("250k", "270k"), ("250k", "240k"), ("500k", "470k"), ("500k", "510k"),
    ("2 meg", "2.2 meg"), ("2 meg", "2 meg"), ("5 meg", "4.7 meg"), ("300 ohm", "330 ohm"), ("300 ohm", "300 ohm"),
    ("25k", "27k"), ("25k", "24k"), ("7.5k", "7.5k"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new"), _capacitor_picks())
def test_what_shops_fit_for_an_old_capacitor_is_accepted(old: str, new: str) -> None:
    assert told(old, new) <= {(NOTE, "value-changed")}


@pytest.mark.parametrize(("old", "new"), OLD_RESISTORS)
def test_what_shops_fit_for_an_old_resistor_is_accepted(old: str, new: str) -> None:
    assert told(f"resistor X {old}", f"resistor X {new}") == SILENT


def test_the_tables_hold_the_rows_above_and_preferred_values_only() -> None:
    assert len(old_values()) == len(SHOP_PICKS.strip().splitlines()) + len({old for old, _ in OLD_RESISTORS})
    # IEC 60063 by the package eseries; 20, 24 and 51 are E24.
    figures = {Decimal(value).normalize() for value in eseries.series(eseries.E24)}
    for row in old_values():
        assert row.source
        for pick in row.picks:
            assert pick.scaleb(1 - pick.adjusted()).normalize() in figures, row


DECADES = [
    ("capacitor X .05 mfd paper", "capacitor X .5 mfd film"),
    ("capacitor X .05 mfd paper", "capacitor X .005 mfd film"),
    ("capacitor X .05 mfd paper", "capacitor X .47 mfd film"),
    ("capacitor X .05 mfd paper", "capacitor X 47 mmfd"),
    ("capacitor X 100 mmfd mica", "capacitor X 1000 mmfd mica"),
    ("electrolytic X 8 mfd", "electrolytic X 82 mfd"),
    ("electrolytic X 20 mfd", "electrolytic X 2.2 mfd"),
    ("resistor X 220k", "resistor X 22k"),
    ("resistor X 220k 20%", "resistor X 2.2 meg"),
    ("pot X 500k", "pot X 50k"),
    ("choke X 12 H", "choke X 1.2 H"),
    ("fuse X 1 A", "fuse X 100 mA"),
    ("lamp X 6.3 V 150 mA", "lamp X 63 V 150 mA"),
]


@pytest.mark.parametrize(("old", "new"), DECADES)
def test_a_decade_slip_is_an_error_and_is_called_one(old: str, new: str) -> None:
    assert told(old, new) == {(STOP, "value-changed")}
    assert headlines(old, new)[0].endswith(" (a decade slip?)")


# (old, new, what is told). Electrolytics: silent within 20 % (a published restoration page), to +50 % a note (service
# book of 1947), to +100 % LOOK (jbcapacitors.hk, rule of thumb). Film 20 %, mica 10 % and resistors common
# practice. Controls 30 %: the same book of 1947.
EDGES: list[tuple[str, str, Found]] = [
    ("electrolytic X 100 mfd", "electrolytic X 80 mfd", SILENT),
    ("electrolytic X 100 mfd", "electrolytic X 79 mfd", {(STOP, "value-changed")}),
    ("electrolytic X 100 mfd", "electrolytic X 120 mfd", SILENT),
    ("electrolytic X 100 mfd", "electrolytic X 121 mfd", {(NOTE, "value-changed")}),
    ("electrolytic X 100 mfd", "electrolytic X 150 mfd", {(NOTE, "value-changed")}),
    ("electrolytic X 100 mfd", "electrolytic X 151 mfd", {(LOOK, "value-changed")}),
    ("electrolytic X 100 mfd", "electrolytic X 200 mfd", {(LOOK, "value-changed")}),
    ("electrolytic X 100 mfd", "electrolytic X 201 mfd", {(STOP, "value-changed")}),
    ("capacitor X .1 mfd paper", "capacitor X .12 mfd film", SILENT),
    ("capacitor X .1 mfd paper", "capacitor X .08 mfd film", SILENT),
    ("capacitor X .1 mfd paper", "capacitor X .121 mfd film", {(STOP, "value-changed")}),
    ("capacitor X .1 mfd paper", "capacitor X .079 mfd film", {(STOP, "value-changed")}),
    ("capacitor X 100 mmfd mica", "capacitor X 110 mmfd mica", SILENT),
    ("capacitor X 100 mmfd mica", "capacitor X 111 mmfd mica", {(LOOK, "value-changed")}),
    ("capacitor X 100 mmfd mica", "capacitor X 121 mmfd mica", {(STOP, "value-changed")}),
    ("capacitor X 100 mmfd mica 20%", "capacitor X 120 mmfd mica", SILENT),
    ("capacitor X 365 mmfd variable", "capacitor X 410 mmfd variable", {(LOOK, "value-changed")}),
    ("capacitor X 250 mmfd", "capacitor X 220 mmfd", SILENT),
    ("capacitor X 250 mmfd mica", "capacitor X 220 mmfd mica", {(LOOK, "value-changed")}),
    ("capacitor X .0025 mfd mica", "capacitor X .0022 mfd mica", {(NOTE, "value-changed")}),
    ("resistor X 100k", "resistor X 110k", SILENT),
    ("resistor X 100k", "resistor X 111k", {(NOTE, "value-changed")}),
    ("resistor X 100k", "resistor X 120k", {(NOTE, "value-changed")}),
    ("resistor X 100k", "resistor X 121k", {(STOP, "value-changed")}),
    ("resistor X 100k 20%", "resistor X 120k", SILENT),
    ("resistor X 100k 5%", "resistor X 110k", SILENT),
    ("resistor X 0 ohm", "resistor X 0 ohm 1 W", SILENT),
    ("resistor X 0 ohm", "resistor X 1 ohm", {(STOP, "value-changed")}),
    ("pot X 500k", "pot X 650k", SILENT),
    ("pot X 500k", "pot X 651k", {(STOP, "value-changed")}),
    ("choke X 10 H", "choke X 15 H", SILENT),
    ("choke X 10 H", "choke X 16 H", {(LOOK, "value-changed")}),
    ("choke X 10 H", "choke X 4 H", {(STOP, "value-changed")}),
    ("choke X 10 H 300 ohm", "choke X 10 H 100 ohm", {(STOP, "value-changed")}),
    ("fuse X 1 A", "fuse X 2 A", {(STOP, "value-changed")}),
    ("fuse X 1 A", "fuse X 750 mA", {(LOOK, "value-changed")}),
    ("lamp X 6.3 V 150 mA", "lamp X 6.3 V 250 mA", {(LOOK, "value-changed")}),
    ("speaker X 3.2 ohm", "speaker X 4 ohm", SILENT),
    ("speaker X 3.2 ohm", "speaker X 8 ohm", {(STOP, "value-changed")}),
    ("tube X 6V6", "tube X 6V6GT", SILENT),
    ("tube X 5AR4", "tube X GZ34", SILENT),
    ("tube X 6J5", "tube X 6C5", {(LOOK, "value-changed")}),
]


@pytest.mark.parametrize(("old", "new", "expected"), EDGES)
def test_the_bands_end_where_they_are_said_to_end(old: str, new: str, expected: Found) -> None:
    assert told(old, new) == expected


# The European and the American name of one tube, and the long-lived version; from memory, as tube handbooks give them.
TWINS = """
5AR4 GZ34
6BQ5 EL84
6CA7 EL34
6CA4 EZ81
6V4 EZ80
6X4 EZ90
12AX7 ECC83 7025
12AU7 ECC82
12AT7 ECC81
6DJ8 ECC88
6267 EF86
6BM8 ECL82
6AQ5 EL90 6005
6AL5 EB91
0A2 OA2
0B2 OB2
"""


@pytest.mark.parametrize("names", [line.split() for line in TWINS.strip().splitlines()], ids=" ".join)
def test_a_tube_of_another_name_is_the_same_tube_and_one_of_the_next_line_is_not(names: list[str]) -> None:
    (role,) = pair_of("tube X 6J5", "tube X 6J5").pairing.pairs
    for one, other in permutations(names, 2):
        assert not misvalued(role, one, other)
        assert misvalued(role, one, "6J5")


def misvalued(role: PartPair, old: str, new: str) -> bool:
    """Whether a type is told as another one, whatever bases the two have."""
    typed = [
        replace(p, features=replace(p.features, type=name)) for p, name in ((role.old[0], old), (role.new[0], new))
    ]
    pair = pair_of("tube X 6J5", "tube X 6J5")
    return bool(
        [*judged_values(replace(pair, pairing=replace(pair.pairing, pairs=(PartPair((typed[0],), (typed[1],)),))))]
    )


def pair_of(old: str, new: str) -> Pair:
    return pair_compared(circuit(old), circuit(new))


def test_the_table_of_old_values_is_read_as_it_is_written() -> None:
    old_values.cache_clear()
    rows = {(row.dimension, row.amount): row for row in old_values()}
    paper = rows[Dimension.CAPACITANCE, Decimal("5E-8")]
    assert paper.picks == (Decimal("4.7E-8"), Decimal("5.6E-8"))
    assert paper.source.startswith(".047/600 V for .05/400 V")
    assert rows[Dimension.RESISTANCE, Decimal(25000)].picks == (Decimal(27000), Decimal(24000))


# E12 in steps of 10 %: no value is farther than 20 % from the nearest one (IEC 60063, by the package eseries).
@pytest.mark.parametrize("tenths", range(10, 100))
def test_the_nearest_preferred_value_is_the_same_value(tenths: int) -> None:
    film, fixed = part("capacitor X .1 mfd paper"), part("resistor X 10k")
    value = Decimal(tenths) / 10
    coarse, fine = (Decimal(str(eseries.find_nearest(series, float(value)))) for series in (eseries.E12, eseries.E24))
    assert verdict(film, Dimension.CAPACITANCE, value, coarse) is None
    assert verdict(fixed, Dimension.RESISTANCE, value, fine) is None


@given(
    st.sampled_from(["resistor X 10k", "capacitor X .1 mfd film", "electrolytic X 8 mfd", "choke X 8 H", "fuse X 1 A"]),
    st.decimals("0.1", "99", places=2),
    st.decimals("0.8", "1.2", places=2),
    st.integers(-6, 6),
)
def test_the_same_figures_in_another_decade_are_always_an_error(
    kind: str, value: Decimal, drift: Decimal, power: int
) -> None:
    old = part(kind)
    principal = old.kind.principal
    assert principal is not None
    found = verdict(old, principal, value, value * drift * Decimal(10) ** power)
    if power:
        assert found is not None
        assert (found.grade, found.decade) == (Grade.STOP, True)
    else:
        assert found is None or not found.decade


def test_the_values_of_today_are_offered_for_one_of_old() -> None:
    (finding,) = (d for d in report("capacitor X .05 mfd paper", "capacitor X .1 mfd film").diagnostics)
    assert finding.headline == "X is .1 mfd; the original has .05 mfd"
    assert finding.do == 'fit .05 mfd (today 0.047 mfd or 0.056 mfd), or accept it: `accept value-changed X "why"`'


@pytest.mark.parametrize(
    ("new", "grave"),
    [
        (".0022 mfd 250 V Y2", [Grade.NOTE]),
        (".0022 mfd 400 V Y1", [Grade.NOTE]),
        (".047 mfd 250 V Y2", [Grade.STOP]),
        (".0022 mfd 275 V X2", [Grade.STOP]),
        (".0022 mfd 630 V film", [Grade.STOP]),
    ],
)
def test_a_smaller_capacitor_from_the_line_to_metal_is_no_fault(new: str, grave: list[Grade]) -> None:
    """11 nF is the most for 0.5 mA at 120 V and 60 Hz: less than the old paper capacitor is what is wanted there."""
    original = (
        "capacitor C1 .01 mfd 400 V paper\nresistor R1 1k\nnet line: C1.1, R1.1\nnet frame: chassis, C1.2, R1.2\n"
    )
    report = compared(original, f'start from "original.netck"\nchange C1 {new}\n')
    assert [d.grade for d in report.diagnostics if d.rule == "value-changed"] == grave


def test_a_diode_in_a_tubes_place_is_not_another_type_of_tube() -> None:
    original = (
        "tube V1 35Z5GT\nelectrolytic C1 40 mfd 200 V\nresistor R1 22k\nnet line: V1.5, R1.2\n"
        "net B+: V1.8, C1+, R1.1\nnet ground: chassis, C1-\nspare V1.2, V1.3, V1.7\n"
    )
    rewired = 'start from "original.netck"\nremove V1 "silicon"\ndiode D1 1N4007 anode R1.2 cathode C1+ replaces V1\n'
    assert [d.headline for d in compared(original, rewired).diagnostics if d.rule == "value-changed"] == []
