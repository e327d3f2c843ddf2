"""Ratings, kinds of part, several parts for one, and the first capacitor behind a rectifier tube."""

import pytest

from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.kind import Standing
from netcheck.electrical.tube_data import first_capacitors
from netcheck.parts.basings import basing_of
from tests.paper import compared
from tests.trade import LOOK, NOTE, SILENT, STOP, Found, told

# Never fewer volts than the original's: jbcapacitors.hk, radioworld.com. That surge volts are no rating: IEC 60384-4
# tells the two apart (from memory); a 450 V part stands 495 V for a moment and is still no 460 V part.
LOW, KIND = "rating-too-low", "kind-unsuitable"
RATINGS: list[tuple[str, str, Found]] = [
    ("electrolytic X 20 mfd 450 V", "electrolytic X 22 mfd 450 V", SILENT),
    ("electrolytic X 20 mfd 450 V", "electrolytic X 22 mfd 500 V", SILENT),
    ("electrolytic X 20 mfd 460 V", "electrolytic X 22 mfd 450 V", {(STOP, LOW)}),
    ("electrolytic X 20 mfd 450 V", "electrolytic X 22 mfd 449 V", {(STOP, LOW)}),
    ("capacitor X .05 mfd 400 V paper", "capacitor X .047 mfd 630 V film", SILENT),
    ("capacitor X .05 mfd 400 V paper", "capacitor X .047 mfd 250 V film", {(STOP, LOW)}),
    ("capacitor X .05 mfd 400 V paper", "capacitor X .047 mfd 630 V DC 250 V AC film", SILENT),
    ("capacitor X .05 mfd 400 V DC paper", "capacitor X .047 mfd 250 V AC 350 V DC film", {(STOP, LOW)}),
    ("capacitor X .05 mfd 150 V AC 400 V DC paper", "capacitor X .047 mfd 125 V AC 630 V DC film", {(STOP, LOW)}),
    ("capacitor X .05 mfd 400 V paper", "capacitor X .047 mfd 275 V X2", SILENT),
    ("capacitor X .05 mfd 275 V AC X2", "capacitor X .047 mfd 250 V AC X2", {(STOP, LOW)}),
    ("resistor X 22k 1 W", "resistor X 22k 1/2 W", {(STOP, LOW)}),
    ("resistor X 22k 1/2 W", "resistor X 22k 2 W", SILENT),
    ("diode X 1000 V 1 A", "diode X 400 V 1 A", {(STOP, LOW)}),
    ("selenium X 130 V 250 mA", "diode X 1000 V 1 A", SILENT),
    ("selenium X 130 V 250 mA", "diode X 1000 V 200 mA", {(STOP, LOW)}),
    ("choke X 12 H 80 mA", "choke X 12 H 60 mA", {(STOP, LOW)}),
    ("capacitor X 8 mfd 450 V oil", "electrolytic X 8 mfd", {(NOTE, LOW), (STOP, KIND)}),
]


@pytest.mark.parametrize(("old", "new", "expected"), RATINGS)
def test_a_rating_is_never_lower(old: str, new: str, expected: Found) -> None:
    assert told(old, new) == expected


# Common practice of the trade. X lies between two nets that are no returns.
KINDS: list[tuple[str, str, Found]] = [
    ("capacitor X .05 mfd paper", "electrolytic X .047 mfd", {(STOP, KIND)}),
    ("electrolytic X 8 mfd", "capacitor X 8.2 mfd film", SILENT),
    ("selenium X 130 V", "diode X 1000 V", SILENT),
    ("resistor X 1k", "candohm X 1k", SILENT),
    ("fuse X 1 A", "resistor X 1 ohm", {(STOP, KIND)}),
    ("resistor X 10 ohm", "fuse X 1 A", {(STOP, KIND)}),
    ("fuse X 1 A slow", "fuse X 1 A fast", {(LOOK, KIND)}),
    ("fuse X 1 A fast", "fuse X 1 A slow", {(LOOK, KIND)}),
    ("fuse X 1 A", "fuse X 1 A slow", SILENT),
    ("choke X 10 H 300 ohm", "resistor X 300 ohm", {(LOOK, KIND)}),
    ("choke X 10 H 300 ohm", "resistor X 3k", {(LOOK, KIND), (STOP, "value-changed")}),
    ("lamp X 6.3 V 150 mA", "resistor X 42 ohm", {(NOTE, KIND)}),
    ("resistor X 1k", "capacitor X .1 mfd film", {(STOP, KIND)}),
]


@pytest.mark.parametrize(("old", "new", "expected"), KINDS)
def test_a_part_of_another_kind_is_judged_by_what_it_can_stand_in_for(old: str, new: str, expected: Found) -> None:
    assert told(old, new) == expected


BYPASS = "capacitor C1 {value} mfd paper\nresistor R1 1k\nnet plus: C1.1, R1.1\nnet ground: chassis, C1.2, R1.2"
POLAR = 'start from "original.netck"\nremove C1\nelectrolytic C51 {value} mfd 450 V plus R1.1 minus chassis replaces C1'


@pytest.mark.parametrize(("value", "grade"), [(".25", LOOK), ("8", NOTE)])
def test_an_electrolytic_for_paper_at_a_return_has_a_polarity_that_nothing_compares(value: str, grade: Grade) -> None:
    report = compared(BYPASS.format(value=value), POLAR.format(value=value))
    assert [(d.grade, d.rule) for d in report.diagnostics] == [(grade, KIND)]


SUPPLY = """
transformer T1 grounded
winding T1 high red-a red-yellow red-b 300-0-300 V
winding T1 filament yellow-a yellow-b 5 V
tube V7 {tube}
electrolytic C1 {first} mfd 450 V
electrolytic C2 20 mfd 450 V
resistor R1 1k 5 W
resistor R2 22k 2 W
net fil: T1.yellow-a, V7.{heater}
net B+1: T1.yellow-b, V7.{cathode}, C1+, R1.1
net B+2: R1.2, C2+, R2.1
net a: T1.red-a, V7.{plates[0]}
net b: T1.red-b, V7.{plates[1]}
net ground: chassis, T1.red-yellow, C1-, C2-, R2.2
"""
FIRST = "first-capacitor-too-large"
OCTAL = {"heater": "2", "cathode": "8", "plates": ("4", "6")}
OTHERS = {
    "6X5GT": {"heater": "2", "cathode": "8", "plates": ("3", "5")},
    "6X4": {"heater": "3", "cathode": "7", "plates": ("1", "6")},
    "EZ81": {"heater": "4", "cathode": "3", "plates": ("1", "7")},
    "EZ40": {"heater": "1", "cathode": "7", "plates": ("2", "6")},
}


def supply(tube: str, first: str, change: str) -> tuple[Diagnostic, ...]:
    original = SUPPLY.format(tube=tube, first=first, **OTHERS.get(tube, OCTAL))
    report = compared(original, f'start from "original.netck"\n{change}')
    assert report.built
    # The other end of an indirect heater is not wired in this supply.
    return tuple(d for d in report.diagnostics if d.rule not in ("lonely-net", "loose-lead"))


# (tube, old first capacitor, new one, what is told), with where the limit stands.
LIMITS: list[tuple[str, str, str, Found]] = [
    ("5Y3GT", "16", "20", {(NOTE, "value-changed")}),  # 20 mfd: tubeofile.com/api/tubes/5Y3; 20 for 16 is +25 %
    ("5Y3GT", "20", "22", {(NOTE, FIRST)}),
    ("5Y3GT", "20", "24", {(NOTE, FIRST)}),
    ("5Y3GT", "20", "47", {(STOP, FIRST)}),
    ("5Y3GT", "20", "30", {(STOP, FIRST)}),
    ("5Y3GT", "20", "220", {(STOP, "value-changed")}),  # a decade slip
    ("5Y3GT", "30", "30", SILENT),  # not larger than it was
    ("5U4G", "40", "47", {(NOTE, FIRST)}),  # 40 mfd: emissionlabs.com/datasheets/EML5U4G.html
    ("5U4G", "40", "50", {(STOP, FIRST)}),
    ("5U4GB", "40", "50", {(LOOK, FIRST)}),  # 40 mfd: from memory
    ("5T4", "40", "60", {(STOP, FIRST)}),  # 40 mfd: tubeofile.com/api/tubes/5T4
    ("5R4GY", "4", "4.7", {(NOTE, FIRST)}),  # 4 mfd: tubeofile.com/api/tubes/5R4
    ("5R4GY", "4", "6", {(STOP, FIRST)}),
    ("5R4GYB", "16", "22", {(NOTE, "value-changed")}),  # 20 mfd: tubeofile.com/api/tubes/5R4; 22 for 16 is +37.5 %
    ("5R4GYB", "20", "27", {(STOP, FIRST)}),
    ("5AR4", "60", "68", {(NOTE, FIRST)}),  # 60 mfd: tubeofile.com/api/tubes/GZ37
    ("5AR4", "60", "100", {(STOP, FIRST)}),
    ("EZ40", "50", "68", {(STOP, FIRST)}),  # 50 mfd: tubeofile.com/api/tubes/EZ40
    ("EZ81", "50", "68", {(LOOK, FIRST)}),  # 50 mfd: from memory
    ("6X5GT", "10", "15", {(LOOK, FIRST)}),  # 10 mfd: from memory, the least certain row
    ("6X4", "10", "22", {(STOP, FIRST)}),  # more than twice the value is an error by itself
]


@pytest.mark.parametrize(("tube", "old", "new", "expected"), LIMITS)
def test_the_first_capacitor_is_held_against_its_rectifier(tube: str, old: str, new: str, expected: Found) -> None:
    found = supply(tube, old, f"change C1 {new} mfd 500 V")
    assert {(d.grade, d.rule) for d in found} == expected
    assert len(found) == len(expected)


def test_the_second_capacitor_is_not() -> None:
    assert {(d.grade, d.rule) for d in supply("5Y3GT", "20", "change C2 40 mfd 450 V")} == {(LOOK, "value-changed")}


PLACED = "meant B+1: C9+\nmeant chassis: C9-\n"


def test_what_is_added_beside_the_first_capacitor_counts() -> None:
    (found,) = supply("5Y3GT", "20", 'electrolytic C9 22 mfd 450 V plus R1.1 minus chassis added "hum"\n' + PLACED)
    assert (found.grade, found.rule) == (STOP, FIRST)
    assert found.headline == "C1 and C9 (in place of C1) are 42 mfd right after V7; a 5Y3GT takes 20 mfd at most"


def test_behind_an_inserted_fuse_it_is_still_the_first() -> None:
    fuse = (
        'lift V7.8\nfuse F1 250 mA from V7.8 to R1.1 inserted "B+ fuse"\nwire V7.8 to T1.yellow-b\nlift T1.yellow-b\n'
    )
    found = supply("5Y3GT", "20", f"{fuse}change C1 47 mfd 450 V")
    assert {(d.grade, d.rule) for d in found} == {(STOP, FIRST)}


def test_a_weaker_rectifier_than_before_is_told() -> None:
    found = supply("5U4G", "40", "change V7 5Y3GT")
    assert {(d.grade, d.rule) for d in found} == {(LOOK, "value-changed"), (STOP, FIRST)}


def test_every_rectifier_with_a_limit_has_a_source_or_says_that_it_has_none() -> None:
    for row in first_capacitors():
        assert row.source
        assert row.standing in (Standing.SOURCE, Standing.MEMORY)
        assert row.type in ("274B", "117Z3") or basing_of(row.type) is not None


ONE = "electrolytic C1 25 mfd 600 V\nresistor R1 22k\nnet B+: C1+, R1.1\nnet ground: chassis, C1-, R1.2"
PAIR = """start from "original.netck"
remove C1
electrolytic C51 {one} mfd {volts} V replaces C1
electrolytic C52 {other} mfd {volts} V replaces C1
"""
SERIES = PAIR + "net B+: C51+\nnet middle: C51-, C52+\nnet ground: C52-\n"
PARALLEL = PAIR + "net B+: C51+, C52+\nnet ground: C51-, C52-\n"
ACROSS = 'resistor R5{0} 220k added "balances C5{0}"\n'
BALANCED = ACROSS.format(1) + ACROSS.format(2) + "net B+: R51.1\nnet middle: R51.2, R52.1\nnet ground: R52.2\n"
BALANCED += "meant B+: R51.1\nmeant middle: R51.2, R52.1\nmeant ground: R52.2\n"
HALF = ACROSS.format(1) + "net B+: R51.1\nnet middle: R51.2\n"
FIFTY = {"one": "50", "other": "50", "volts": "350"}

# Two 50 mfd 350 V are 25 mfd at 700 V, with 220k across each: el34world.com, topic 19448.
GROUPS: list[tuple[str, list[str]]] = [
    (SERIES.format(**FIFTY) + BALANCED, ["C51 and C52 in series take the place of C1: 25 mfd, was 25 mfd"]),
    (
        SERIES.format(**FIFTY),
        [
            "C51 and C52 are in series in place of C1 with no balancing resistors",
            "C51 and C52 in series take the place of C1: 25 mfd, was 25 mfd",
        ],
    ),
    (
        SERIES.format(**FIFTY) + HALF,
        [
            "C51 and C52 are in series in place of C1 with no resistor across C52",
            "R51.1 is on B+, R51.2 is on middle: nothing says that they belong there",
            "C51 and C52 in series take the place of C1: 25 mfd, was 25 mfd",
        ],
    ),
    (
        PARALLEL.format(one="12", other="12", volts="600"),
        ["C51 and C52 in parallel take the place of C1: 24 mfd, was 25 mfd"],
    ),
    (
        PARALLEL.format(one="22", other="22", volts="600"),
        ["C51 and C52 (in place of C1) are 44 mfd together; the original has 25 mfd"],
    ),
    (
        PARALLEL.format(one="12", other="12", volts="350"),
        ["C51 and C52 (in place of C1) are rated 350 V together; the original was 600 V"],
    ),
]


@pytest.mark.parametrize(("rewired", "expected"), GROUPS)
def test_a_group_is_taken_for_what_it_amounts_to(rewired: str, expected: list[str]) -> None:
    assert [d.headline for d in compared(ONE, rewired).diagnostics] == expected


def test_resistors_in_series_need_nothing_across_them() -> None:
    original = "resistor R1 100k\nresistor R2 1k\nnet a: R1.1, R2.1\nnet ground: chassis, R1.2, R2.2"
    rewired = (
        'start from "original.netck"\nremove R1\nresistor R11 47k replaces R1\nresistor R12 51k replaces R1\n'
        "net a: R11.1\nnet b: R11.2, R12.1\nnet ground: R12.2"
    )
    (found,) = compared(original, rewired).diagnostics
    assert (found.grade, found.rule) == (NOTE, "several-for-one")
    assert found.headline == "R11 and R12 in series take the place of R1: 98k, was 100k"


STACK = """selenium SE1 130 V 100 mA
electrolytic C1 40 mfd 250 V
resistor R1 22k 5 W
net line: SE1-, R1.2
net B+: SE1+, C1+, R1.1
net ground: chassis, C1-
"""


@pytest.mark.parametrize(
    ("diode", "told"),
    [
        ("200 V 1 A", ["D1 (in place of SE1) is rated 200 V; the original was 368 V inverse"]),
        ("1N4003", ["D1 (in place of SE1) is rated 200 V; the original was 368 V inverse"]),
        ("1N4004", []),
        ("", ["the rating of D1 (in place of SE1) is not stated; the original's is 368 V inverse"]),
    ],
)
def test_a_stack_is_rated_by_its_alternating_volts_a_diode_by_its_inverse_volts(diode: str, told: list[str]) -> None:
    """130 V into a capacitor put 2 * 1.414 * 130 = 367.7 V across a blocking rectifier."""
    rewired = f'start from "original.netck"\nremove SE1\ndiode D1 {diode} anode R1.2 cathode C1+ replaces SE1\n'
    found = [d.headline for d in compared(STACK, rewired).diagnostics if d.rule == "rating-too-low"]
    assert found == told


def test_diodes_in_series_carry_what_one_carries() -> None:
    rewired = (
        'start from "original.netck"\nremove SE1\nstrip SP1 3 lugs foot 3\n'
        "diode D1 1N4007 anode R1.2 cathode SP1.1 replaces SE1\n"
        "diode D2 1N4007 anode SP1.1 cathode C1+ replaces SE1\n"
    )
    found = [d.headline for d in compared(STACK, rewired).diagnostics if d.rule == "several-for-one"]
    assert found == ["D1 and D2 in series take the place of SE1: 1 A, was 100 mA"]
