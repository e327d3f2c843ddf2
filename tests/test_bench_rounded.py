"""Ohms and volts on a sheet for the bench read back near enough; sizes and values are those that are made."""

import math

import pytest

from netcheck.bench.expected import Expected, Want
from netcheck.bench.rounded import ohms_words, percent_words, volts_words
from netcheck.parts.made import CAPACITOR_VOLTS, DIODE_VOLTS, FILM_VOLTS, SERIES, preferred

SIZES = {"": 1.0, "k": 1e3, "meg": 1e6}


@pytest.mark.parametrize("exponent", range(-1, 8))
def test_ohms_read_back_within_half_a_percent_in_three_figures(exponent: int) -> None:
    for step in (1.0, 1.234, 4.7, 5.555, 9.994, 9.996):
        ohms = step * 10.0**exponent
        number, _, size = ohms_words(ohms).partition(" ")
        assert float(number) * SIZES[size] == pytest.approx(ohms, rel=0.005)
        assert float(number) < 1000
        assert size == ("meg" if ohms >= 999_500 else "k" if ohms >= 999.5 else "")
        assert len(number.replace(".", "").lstrip("0")) <= 3 or exponent > 7


@pytest.mark.parametrize(("ohms", "words"), [(470, "470"), (2200, "2.2 k"), (1.5e6, "1.5 meg"), (0.5, "0.5"), (0, "0")])
def test_ohms_as_they_are_said(ohms: float, words: str) -> None:
    assert ohms_words(ohms) == words


@pytest.mark.parametrize("volts", [0.0, 0.04, -6.34, 9.94, -9.94, 9.96, -9.96, 10.4, 99.6, -325.4])
def test_volts_read_back_to_a_tenth_below_ten_else_to_the_volt(volts: float) -> None:
    number, unit = volts_words(volts).split()
    assert unit == "V"
    assert float(number) == pytest.approx(volts, abs=0.05 if abs(volts) < 9.95 else 0.5)
    assert ("." in number) == (abs(volts) < 9.95)


@pytest.mark.parametrize(
    ("low", "nominal", "high", "words"),
    [
        (80, 100, 120, "\N{PLUS-MINUS SIGN}20 %"),
        (80, 100, 122, "\N{PLUS-MINUS SIGN}22 %"),  # the wider side, where they are nearly alike
        (80, 100, 124, "(80 to 124)"),
        (1600, 2200, 2900, "(1.6 k to 2.9 k)"),
        (9, 10, 11, "\N{PLUS-MINUS SIGN}10 %"),
        (8.1, 9, 9.9, "(8.1 to 9.9)"),
    ],
)
def test_limits_are_said_as_percent_where_alike(low: float, nominal: float, high: float, words: str) -> None:
    assert percent_words(low, nominal, high) == words


@pytest.mark.parametrize(
    ("expected", "words"),
    [
        (Expected(Want.BEEP), "beep"),
        (Expected(Want.SILENT), "no beep"),
        (Expected(Want.CONDUCTS), "conducts: lower than the other way round"),
        (Expected(Want.CONDUCTS, 0.4), "conducts, no short: lower than the other way round"),
        (Expected(Want.OHMS, 20e6), "open"),
        (Expected(Want.OHMS, 19e6), "above 19 meg"),
        (Expected(Want.OHMS, 0.5, 20e6, 1000), "above 0.5"),
        (Expected(Want.OHMS, 0.4), "not known: any reading"),
        (Expected(Want.OHMS, 900, 1e6), "900 to 1 meg"),
        (Expected(Want.OHMS, 0.5, 50), "0.5 to 50"),
        (Expected(Want.OHMS, 0.4, 50), "up to 50"),
        (Expected(Want.OHMS, 0.4, 2.0, 1.0), "below 2 ohm"),
        (Expected(Want.OHMS, 0.4, 2.1, 1.0), "1 (0.4 to 2.1)"),
        (Expected(Want.OHMS, 0.5, 2.0, 1.0), "1 (0.5 to 2)"),
        (Expected(Want.OHMS, 80, 120, 100), "100 \N{PLUS-MINUS SIGN}20 %"),
    ],
)
def test_what_a_reading_should_be_is_said_and_no_figure_where_none_is_known(expected: Expected, words: str) -> None:
    assert expected.words == words


# IEC 60063.
E24 = (
    *(1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0),
    *(3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1),
)
E12 = (1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2)
E6 = (1.0, 1.5, 2.2, 3.3, 4.7, 6.8)


@pytest.mark.parametrize(("name", "values"), [("E24", E24), ("E12", E12), ("E6", E6)])
def test_each_series_is_the_standards_and_the_nearest_value_is_found_in_any_decade(
    name: str, values: tuple[float, ...]
) -> None:
    assert tuple(step / 10 for step in SERIES[name]) == values
    decades = [value * 10.0**decade for decade in range(-13, 9) for value in values]
    for amount in (1.04e-11, 9.6e-9, 4.4e-7, 0.97, 9.7, 1.13, 31.0, 999.0, 8.5e5, 9.9e6):
        nearest = min(decades, key=lambda value: abs(math.log(value / amount)))
        assert preferred(amount, name) == pytest.approx(nearest, rel=1e-6)


def test_diodes_and_capacitors_are_ordered_in_volts_that_are_made() -> None:
    """1N4004 to 1N4007 (data sheet, repetitive peak reverse voltage); capacitors by the lists of shops, from memory."""
    assert DIODE_VOLTS == (400, 600, 800, 1000)
    aluminium = {16, 25, 35, 50, 63, 80, 100, 160, 200, 250, 315, 350, 385, 400, 420, 450, 475, 500, 550, 600}
    film = {63, 100, 160, 250, 400, 630, 1000, 1600, 2000}
    assert set(CAPACITOR_VOLTS) <= aluminium
    assert set(FILM_VOLTS) <= film
    assert [*CAPACITOR_VOLTS, *FILM_VOLTS] == sorted(CAPACITOR_VOLTS) + sorted(FILM_VOLTS)
