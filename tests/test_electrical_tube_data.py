"""The figures of tubes against published ones, against the tubes' names, and against their basings."""

import re
from collections import Counter
from importlib.resources import files

import pytest

from netcheck.core.kind import Standing
from netcheck.core.type_table import TypeTable, read_types
from netcheck.electrical.tube_data import appetite_of, first_capacitor_of, heater_of, rectifier_tube_of
from netcheck.parts.basings import basing_of
from tests.paper import checked


def text() -> str:
    return (files("netcheck.electrical") / "tube_data.txt").read_text(encoding="utf-8")


def table() -> TypeTable:
    return read_types(text())


def electrodes(type_: str) -> str:
    basing = basing_of(type_)
    return " ".join(pin.electrode for pin in basing.pins) if basing is not None else ""


# Types without a basing: their figures are read all the same where a file declares one.
BARE = {"5R4", "5V4", "83V", "117Z3", "3BN6", "6BN6", "12BN6", "79"}
HEATERS = table().types("heater")

# volts and amperes from end to end, each with its page.
WIKIPEDIA = "Wikipedia, 25L6"
PUBLISHED = [
    ("25L6GT", 25, 0.3, WIKIPEDIA), ("50L6GT", 50, 0.15, WIKIPEDIA), ("35L6GT", 35, 0.15, WIKIPEDIA),
    ("12L6GT", 12, 0.6, WIKIPEDIA), ("12W6GT", 12, 0.6, WIKIPEDIA), ("6W6GT", 6.3, 1.2, WIKIPEDIA),
    ("6L6GC", 6.3, 0.9, "Wikipedia, 6L6"), ("EL84", 6.3, 0.76, "ru.wikipedia, EL84"),
    ("6SN7GT", 6.3, 0.6, "tubeofile.com 12SX7"), ("12SN7GT", 12.6, 0.3, "tubeofile.com 12SX7"),
    ("7N7", 6.3, 0.6, "tubeofile.com 7N7"), ("14N7", 12.6, 0.3, "tubeofile.com 7N7"),
    ("12SJ7", 12.6, 0.15, "tubeofile.com 6SJ7"), ("HCH81", 12.6, 0.15, "tubeofile.com HCH81"),
    ("UCH81", 19, 0.1, "tubeofile.com HCH81"), ("12AZ7", 12.6, 0.225, "tubeofile.com 12AZ7"),
    ("12BH7", 12.6, 0.3, "tubeofile.com 12BH7"), ("EF86", 6.3, 0.2, "Wikipedia, EF86"),
    ("76", 6.3, 0.3, "tubeofile.com 76"), ("56", 2.5, 1, "tubeofile.com 76"), ("6X4", 6.3, 0.6, "GE, 6X4"),
    ("12X4", 12.6, 0.3, "tubeofile.com 12X4"), ("35Z5GT", 35, 0.15, "r-type.org/addtext/add144.htm"),
    ("12AT7", 12.6, 0.15, "tubeofile.com 12AZ7"),
    ("81", 7.5, 1.25, "tubeofile.com 81"), ("80", 5, 2, "tubeofile.com 5Z3"), ("5Z3", 5, 3, "tubeofile.com 5Z3"),
    ("5T4", 5, 2, "tubeofile.com 5T4"), ("5U4G", 5, 3, "tubeofile.com 5T4"),
    ("6AX4GT", 6.3, 1.2, "vinylsavor.blogspot.com 6AU4"), ("6AU4GT", 6.3, 1.8, "vinylsavor.blogspot.com 6AU4"),
    ("50L6GT", 50, 0.15, "from memory"), ("35W4", 35, 0.15, "from memory"), ("12BA6", 12.6, 0.15, "from memory"),
]  # fmt: skip


@pytest.mark.parametrize(("type_", "volts", "amperes", "page"), PUBLISHED)
def test_heaters_as_published(type_: str, volts: float, amperes: float, page: str) -> None:
    heater = heater_of(type_)
    assert heater is not None, page
    # A page that speaks of 12 volts means a 12.6 volt heater.
    assert heater.volts == pytest.approx(volts, rel=0.06), page
    assert heater.amperes == pytest.approx(amperes), page


# The series letters of European types: the current of a string, or the volts (tubedata.info/tubnum.html).
SERIES = {"E": 6.3, "D": 1.4, "P": 0.3, "U": 0.1, "H": 0.15}
# The first figure of American types is the heater's volts, rounded down; battery types of 2 volts have a 1.
ROUNDED = {"1": (1.4, 2.0), "2": (2.5, 2.8), "3": (2.8, 3.15), "4": (4.2,), "5": (4.7, 5.0), "7": (6.3, 7.0),
           "14": (12.6, 14.0), "17": (16.8,), "19": (18.9, 19.0), "26": (26.5,)}  # fmt: skip


@pytest.mark.parametrize("type_", HEATERS)
def test_a_heater_is_what_the_tube_is_called(type_: str) -> None:
    heater = heater_of(type_)
    assert heater is not None
    european = re.fullmatch(r"([EDPUH])(?![XY]\d{3})[A-Z]{1,4}\d{2,3}", type_)
    american = re.match(r"(\d+)[A-Z]+\d", type_)
    if european and heater.tap and european[1] == "E":
        assert heater.tap == SERIES["E"]
    elif european and european[1] in "ED":
        assert heater.volts in (SERIES[european[1]], heater.tap * 2)
    elif european:
        assert heater.amperes == SERIES[european[1]]
    elif american and american[1] in ROUNDED and heater.volts != 2 * heater.tap:
        assert heater.volts in ROUNDED[american[1]]
    elif american and not heater.tap:
        assert float(american[1]) <= heater.volts < float(american[1]) + 1
    # A tap is on a pin, and has figures where it is.
    assert bool(heater.tap) == bool(re.search(r"(heater|filament)-tap", electrodes(type_)))


@pytest.mark.parametrize("type_", table().types("output", "small"))
def test_a_screen_current_has_a_screen(type_: str) -> None:
    row = table().find(type_, "output", "small")
    assert row is not None
    assert (float(row.cells[1]) > 0) == ("screen" in electrodes(type_) or "grid-2" in electrodes(type_))
    assert 0 < float(row.cells[1]) < float(row.cells[0]) or "grid-4" in electrodes(type_) or row.cells[1] == "0"


@pytest.mark.parametrize("type_", table().types("rectifier"))
def test_a_rectifier_has_plates_and_no_grid(type_: str) -> None:
    assert "grid" not in electrodes(type_)
    tube = rectifier_tube_of(type_)
    assert tube is not None
    assert tube.peak > tube.mean > 0
    assert 300 < tube.inverse_volts <= 3000  # the 5R4GYB's, which stands the most
    assert 0 < tube.volts < 100


# The largest first capacitor in microfarads, and who says so.
FIRST = [
    ("5Y3GT", 20, "tubeofile.com/api/tubes/5Y3"), ("5U4G", 40, "emissionlabs.com EML5U4G; monoandstereo.com"),
    ("5T4", 40, "tubeofile.com/api/tubes/5T4"), ("5Z3", 40, "tubeofile.com/api/tubes/5Z3"),
    ("5R4GY", 4, "tubeofile.com/api/tubes/5R4"), ("5R4GYB", 20, "tubeofile.com/api/tubes/5R4"),
    ("274B", 4, "monoandstereo.com/2021/05"), ("EZ40", 50, "tubeofile.com/api/tubes/EZ40"),
    ("GZ34", 60, "tubeofile.com/api/tubes/GZ37"), ("GZ37", 4, "tubeofile.com/api/tubes/GZ37"),
    ("AZ41", 50, "ifv.227.in.net, a valve museum's text"),
]  # fmt: skip


@pytest.mark.parametrize(("type_", "mfd", "page"), FIRST)
def test_first_capacitors_as_published(type_: str, mfd: int, page: str) -> None:
    first = first_capacitor_of(type_)
    assert first is not None, page
    assert float(first.most) == pytest.approx(mfd * 1e-6), page
    assert first.standing.name == "SOURCE"


GE_6X4 = "GE, data sheet of the 6X4, scribd.com/document/708372590"
# The type, what is stated of one plate (volts dropped at amperes, inverse volts, peak, mean), who says so. A mean is
# half of what a page allows both plates.
LIMITS = [
    ("6X4", {"volts": 22, "amperes": 0.07, "inverse_volts": 1250, "peak": 0.245, "mean": 0.035}, GE_6X4),
    ("12X4", {"volts": 22, "amperes": 0.07, "mean": 0.035}, "tubeofile.com/api/tubes/12X4"),
    ("6202", {"volts": 22, "amperes": 0.05, "inverse_volts": 1250, "mean": 0.0275}, "tubeofile.com/api/tubes/6202"),
    ("5R4GY", {"volts": 67, "amperes": 0.25, "inverse_volts": 2800, "mean": 0.125}, "tubeofile.com/api/tubes/5R4"),
    ("5R4GYB", {"inverse_volts": 3000, "mean": 0.125}, "tubeofile.com/api/tubes/5R4"),
    ("5T4", {"volts": 45, "amperes": 0.225, "mean": 0.1125}, "tubeofile.com/api/tubes/5T4"),
    ("5Z3", {"volts": 58, "amperes": 0.225, "mean": 0.1125}, "tubeofile.com/api/tubes/5Z3"),
    ("5U4G", {"peak": 1.0, "mean": 0.1125}, "monoandstereo.com/2021/05, by the GE sheet; tubeofile.com/api/tubes/5Z3"),
    ("5Y3GT", {"mean": 0.0625}, "tubeofile.com/api/tubes/5Y3"),
    ("80", {"mean": 0.0625}, "tubeofile.com/api/tubes/5Z3"),
    ("35Z5GT", {"mean": 0.1}, "r-type.org/addtext/add144.htm"),
]


@pytest.mark.parametrize(("type_", "stated", "page"), LIMITS)
def test_rectifiers_as_published(type_: str, stated: dict[str, float], page: str) -> None:
    tube = rectifier_tube_of(type_)
    assert tube is not None, page
    assert {name: getattr(tube, name) for name in stated} == pytest.approx(stated), page
    assert "memory" not in tube.source


@pytest.mark.parametrize(
    ("type_", "read"),
    [
        ("6X4", "drop inverse peak mean"),
        ("5T4", "drop mean"),
        ("5R4GY", "drop inverse mean"),
        ("80", "mean"),
        ("84", ""),
    ],
)
def test_which_figures_of_a_rectifier_were_read(type_: str, read: str) -> None:
    tube = rectifier_tube_of(type_)
    assert tube is not None
    assert tube.read == set(read.split())


OVER = """
state rewired
mains 117 V 60 Hz
cord P1
common B-
tube V1 {type}
resistor R1 33 ohm 20 W
electrolytic C1 47 mfd 250 V
net line: P1.1, R1.1
net rect: R1.2, V1.5
net B+: V1.8, C1+
net B-: P1.2, C1-
draws B+ 150 mA
"""


@pytest.mark.parametrize(("type_", "from_memory"), [("35Z5GT", 0), ("35Z4GT", 1)])
def test_a_rating_that_was_read_is_not_said_to_be_from_memory(type_: str, from_memory: int) -> None:
    (told,) = [d for d in checked(OVER.format(type=type_)).diagnostics if d.rule == "rectifier-overloaded"]
    assert told.why.count("; its rating is from memory") == from_memory


def test_the_ez81s_peak() -> None:
    """450 mA a plate; from memory of the maker's sheet, and said to be so."""
    tube = rectifier_tube_of("EZ81")
    assert tube is not None
    assert tube.peak == pytest.approx(0.45)
    assert "memory" in tube.source


# The type, plate and screen mA, and who says so: a figure, or between which limits a maker lets his tubes be.
CURRENTS = [
    ("EF86", (3, 3), (0.6, 0.6), "en.wikipedia.org/wiki/EF86"),
    ("6V6GT", (33, 59), (0, 8), "EH, data sheet 62413: 250 V on plate and screen, -12.5 V"),
    ("EL34", (80, 120), (0, 20), "EH, data sheet 60146: 250 V, screen 265 V, -13.5 V"),
    ("300B", (45, 90), (0, 0), "EH, data sheet 60258: 303 V, -58 V"),
]


@pytest.mark.parametrize(("type_", "plate", "screen", "page"), CURRENTS)
def test_currents_as_published(type_: str, plate: tuple[float, float], screen: tuple[float, float], page: str) -> None:
    found = appetite_of(type_)
    assert found is not None, page
    assert plate[0] <= 1000 * found.plate <= plate[1], page
    assert screen[0] <= 1000 * found.screen <= screen[1], page


def test_how_many_figures_were_read(capsys: pytest.CaptureFixture[str]) -> None:
    """Printed, so that the share is seen; what is from memory says so wherever it is told."""
    of = {section: [table().find(type_, section) for type_ in table().types(section)] for section in table().entries}
    read = {name: sum(row is not None and row.standing is Standing.SOURCE for row in rows) for name, rows in of.items()}
    with capsys.disabled():
        for name, rows in of.items():
            print(f"\n{name}: {read[name]} of {len(rows)} read", end="")  # noqa: T201 - meant to be seen
    assert read["rectifier"] >= 20
    assert read["first capacitor"] >= 15
    assert read["output"] >= 7


def test_every_type_with_figures_has_a_basing() -> None:
    missing = {type_ for section in table().entries for type_ in table().types(section) if basing_of(type_) is None}
    assert missing == BARE


def test_no_type_stands_twice_in_a_section() -> None:
    """The reader takes the first row of a type, so the text is looked at."""
    section, every = "", Counter[tuple[str, str]]()
    for line in text().splitlines():
        if line.startswith("["):
            section = line
        elif line.startswith(" "):
            every.update((section, name) for name in line.partition("|")[0].split())
    assert [name for name, times in every.items() if times > 1] == []
