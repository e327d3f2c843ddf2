"""Sizes that are made and sold, against the preferred values of IEC 60063 as the package eseries has them."""

import math

import eseries
import pytest
from hypothesis import given
from hypothesis import strategies as st

from netcheck.parts.diode_types import diode_types
from netcheck.parts.made import (
    CAPACITOR_VOLTS,
    DIODE_VOLTS,
    FILM_VOLTS,
    RESISTOR_WATTS,
    SERIES,
    above,
    next_made,
    preferred,
)

AMOUNTS = st.floats(0.001, 1e9)
NAMES = {"E6": eseries.E6, "E12": eseries.E12, "E24": eseries.E24}


@pytest.mark.parametrize("name", SERIES)
def test_a_series_is_that_of_the_standard(name: str) -> None:
    assert tuple(SERIES[name]) == eseries.series(NAMES[name])


@given(AMOUNTS, st.sampled_from(sorted(NAMES)))
def test_the_nearest_value_is_the_nearest_by_ratio(amount: float, name: str) -> None:
    decade = math.floor(math.log10(amount))
    values = [step * 10.0**tens for step in eseries.series(NAMES[name]) for tens in range(decade - 3, decade + 2)]
    least = min(abs(math.log(value / amount)) for value in values)
    assert abs(math.log(preferred(amount, name) / amount)) == pytest.approx(least, abs=1e-8)


@given(AMOUNTS, st.sampled_from(sorted(NAMES)))
def test_the_value_above_is_the_next_of_the_series(amount: float, name: str) -> None:
    assert above(amount, name) == pytest.approx(eseries.find_greater_than_or_equal(NAMES[name], amount * (1 - 1e-9)))


@pytest.mark.parametrize("value", eseries.series(eseries.E24))
def test_a_value_of_the_series_is_its_own_whatever_the_last_figure(value: int) -> None:
    for amount in (float(value), value * (1 + 1e-12), value * (1 - 1e-12)):
        assert above(amount, "E24") == preferred(amount, "E24") == value


@pytest.mark.parametrize(("amount", "larger"), [(math.sqrt(10 * 15), 15), (math.sqrt(68 * 100), 100)])
def test_of_two_that_are_as_near_the_larger_is_taken(amount: float, larger: float) -> None:
    assert preferred(amount, "E6") == larger


@pytest.mark.parametrize(
    ("least", "sizes", "made"),
    [(3.2, RESISTOR_WATTS, 5), (5, RESISTOR_WATTS, 5), (5 * (1 + 1e-12), RESISTOR_WATTS, 5), (0, RESISTOR_WATTS, 0.5),
     (100.1, RESISTOR_WATTS, None), (450.001, CAPACITOR_VOLTS, 500), (600, CAPACITOR_VOLTS, 600)],
)  # fmt: skip
def test_the_next_size_that_is_sold(least: float, sizes: tuple[float, ...], made: float | None) -> None:
    assert next_made(least, sizes) == made


R10 = {round(10 ** (n / 10 + tens), 1) for n in range(10) for tens in (1, 2, 3)}  # ISO 3, before it is rounded
TRADE = {35, 350, 450, 550, 600}  # volts of electrolytics beside the series, in every catalogue of them


@pytest.mark.parametrize("volts", [*CAPACITOR_VOLTS, *FILM_VOLTS])
def test_a_capacitor_has_volts_of_the_series_or_of_the_trade(volts: int) -> None:
    """IEC 60384-1 asks for the preferred numbers of ISO 3, which are the tenth roots of ten to one or two per cent."""
    assert volts in TRADE or min(abs(volts / step - 1) for step in R10) < 0.02


# What a drawing asks for, and the size that one buys for it (wire-wound and film resistors as shops have them).
WATTS = {
    0.4: 0.5, 0.6: 1, 1.5: 2, 2.5: 3, 4: 5, 6: 7, 8: 10, 12: 15, 18: 20, 22: 25, 40: 50, 80: 100,
}  # fmt: skip
VOLTS = {
    12: 16, 20: 25, 30: 35, 40: 50, 60: 63, 80: 100, 150: 160, 180: 200, 220: 250, 300: 350, 375: 400, 425: 450,
    475: 500, 525: 550, 575: 600,
}  # fmt: skip


def test_for_each_need_the_next_size_is_bought() -> None:
    assert {least: next_made(least, RESISTOR_WATTS) for least in WATTS} == WATTS
    assert {least: next_made(least, CAPACITOR_VOLTS) for least in VOLTS} == VOLTS
    assert [next_made(least, FILM_VOLTS) for least in (90, 200, 300, 500, 900, 1200, 1700)] == [*FILM_VOLTS]


def test_diodes_are_proposed_in_steps_that_types_are_made_in() -> None:
    one_ampere = {row.inverse_volts for name, row in diode_types().items() if name.startswith("1N400")}
    assert set(DIODE_VOLTS) == {volts for volts in one_ampere if volts >= 400}
