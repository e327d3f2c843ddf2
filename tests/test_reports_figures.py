"""Figures of the supply table, read back as somebody at the bench reads them: near enough, in few digits, no number
for what is not known."""

import math
import re
from collections.abc import Callable

import pytest

from netcheck.reports.figures import amperes_of, columns, in_amperes, in_seconds, in_volts, in_watts, rating, ripple
from netcheck.reports.renderer import Style

UNITS = {"V": 1.0, "W": 1.0, "A": 1.0, "mA": 1e-3, "s": 1.0, "min": 60.0, "h": 3600.0}
Near = Callable[[float], float]

# What is read, how far from the truth it may be, and the figures that are tried: both sides of each change of digits.
SAID: dict[str, tuple[Callable[[float], str], Near, tuple[float, ...]]] = {
    "volts": (in_volts, lambda v: 0.05 if abs(v) < 100 else 0.5, (0, 0.06, 6.34, -12.34, 99.94, 101.2, -250.4, 1100)),
    "ripple": (ripple, lambda v: 0.05 if v < 100 else 0.5, (0, 0.26, 12.34, 99.94, 101.2)),
    "watts": (in_watts, lambda w: 0.005 if w < 10 else 0.05, (0, 0.126, 1.234, 9.994, 10.26, 101.24)),
    "amperes": (in_amperes, lambda a: 5e-4 if abs(a) < 1 else 5e-3 * abs(a), (0, 0.0126, -0.0634, 0.9994, 1.234, 27.4)),
    "seconds": (
        in_seconds,
        lambda s: 0.05 if s < 100 else 30.0 if s < 7200 else 1800.0,
        (0.26, 12.34, 99.94, 101, 7100, 7300, 90000),
    ),
    "rating": (
        lambda volts: rating(volts, "V"),
        lambda v: 0.005 * v if v < 100 else 0.5,
        (0.25, 6.34, 25, 99.9, 100, 455.4, 1500),
    ),
}


@pytest.mark.parametrize("name", SAID)
def test_a_figure_reads_back_near_enough_in_four_digits(name: str) -> None:
    say, near, figures = SAID[name]
    for figure in figures:
        number, unit = say(figure).split() if say(figure) != "at once" else ("0", "s")
        assert abs(float(number) * UNITS[unit] - figure) <= near(figure) * 1.000001, (figure, say(figure))
        assert len(re.sub(r"^[-0.]*|\.", "", number)) <= 4, say(figure)


@pytest.mark.parametrize(
    ("said", "wanted"),
    [
        (in_volts(math.nan), "?"),
        (in_volts(math.inf), "no limit"),
        (in_volts(-0.04), "0.0 V"),
        (in_volts(-0.06), "-0.1 V"),
        (in_volts(100.0), "100 V"),
        (ripple(math.nan), "?"),
        (ripple(100.0), "100 V"),
        (in_watts(10.0), "10.0 W"),
        (in_watts(math.nan), "?"),
        (in_amperes(math.nan), "?"),
        (in_amperes(1.0), "1 A"),
        (in_amperes(-1.5), "-1.5 A"),
        (in_amperes(-2e-7), "0 mA"),
        (in_amperes(1234.0), "1230 A"),
        (in_seconds(None), "never"),
        (in_seconds(0.0), "at once"),
        (in_seconds(100.0), "2 min"),
        (in_seconds(7100.0), "118 min"),
        (in_seconds(7200.0), "2 h"),
        (in_seconds(10_000.0), "3 h"),
        (rating(None, "V"), ""),
        (amperes_of(0.065, None), "65 mA"),
        (amperes_of(0.065, 0.125), "65 of 125 mA"),
        (amperes_of(0.065, 1.25), "65 mA of 1.25 A"),
        (amperes_of(math.nan, 0.125), "? of 125 mA"),
    ],
)
def test_what_is_at_an_edge_or_not_known(said: str, wanted: str) -> None:
    assert said == wanted


ROWS = [("B+1", "250 V", ""), ("B+2 behind the choke", "1100 V", "12 mA")]


def test_a_table_has_its_figures_to_the_right_as_long_as_it_fits_and_is_a_list_below() -> None:
    heads = ("line", "running", "current")
    wide = [*columns(heads, ROWS, Style(width=38))]
    assert wide == [
        "line                  running  current",
        "B+1                     250 V         ",
        "B+2 behind the choke   1100 V    12 mA",
    ]
    assert [*columns(heads, ROWS, Style(width=37))] == [
        "B+1: running 250 V",
        "B+2 behind the choke: running 1100 V,",
        "  current 12 mA",
    ]
    assert [*columns(heads, [], Style(width=38))] == []
    narrow = [*columns(heads, ROWS, Style(width=3))]
    assert max(map(len, narrow)) <= 16
    assert " ".join(" ".join(narrow).split()) == (
        "B+1: running 250 V B+2 behind the choke: running 1100 V, current 12 mA"
    )
