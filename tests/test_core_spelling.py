"""How amounts, counts and lists are written, at both sides of each limit."""

from decimal import Decimal

import pytest

from netcheck.core.quantity import Dimension
from netcheck.core.spelling import spelled
from netcheck.core.wording import listed, number_of, significant


@pytest.mark.parametrize(
    ("amount", "dimension", "text"),
    [
        ("1000000", Dimension.RESISTANCE, "1 meg"),
        ("2200000", Dimension.RESISTANCE, "2.2 meg"),
        ("999999", Dimension.RESISTANCE, "1000k"),
        ("470000", Dimension.RESISTANCE, "470k"),
        ("1000", Dimension.RESISTANCE, "1k"),
        ("4700", Dimension.RESISTANCE, "4.7k"),
        ("999", Dimension.RESISTANCE, "999 ohm"),
        ("0.5", Dimension.RESISTANCE, "0.5 ohm"),
        ("0.000137", Dimension.CAPACITANCE, "137 mfd"),
        ("1E-9", Dimension.CAPACITANCE, "0.001 mfd"),
        ("9.9E-10", Dimension.CAPACITANCE, "990 mmfd"),
        ("1E-12", Dimension.CAPACITANCE, "1 mmfd"),
        ("1E-13", Dimension.CAPACITANCE, "0.1 mmfd"),
        ("8", Dimension.INDUCTANCE, "8 H"),
        ("0.1", Dimension.INDUCTANCE, "0.1 H"),
        ("0.099", Dimension.INDUCTANCE, "99 mH"),
        ("0.0001", Dimension.INDUCTANCE, "0.1 mH"),
        ("450", Dimension.VOLTAGE, "450 V"),
        ("6.3", Dimension.VOLTAGE, "6.3 V"),
        ("0.04", Dimension.VOLTAGE, "0.04 V"),
        ("1", Dimension.CURRENT, "1 A"),
        ("0.999", Dimension.CURRENT, "999 mA"),
        ("0.0005", Dimension.CURRENT, "0.5 mA"),
        ("0.5", Dimension.POWER, "0.5 W"),
        ("1234.5", Dimension.VOLTAGE, "1234 V"),  # from a hundred on whole, below that three figures
        ("99.96", Dimension.VOLTAGE, "100 V"),
        ("12.345", Dimension.VOLTAGE, "12.3 V"),
        ("5", Dimension.LUGS, "5 lugs"),
    ],
)
def test_an_amount_is_spelled_in_the_units_of_the_trade(amount: str, dimension: Dimension, text: str) -> None:
    assert spelled(Decimal(amount), dimension) == text


@pytest.mark.parametrize(("count", "text"), [(0, "0 parts"), (1, "1 part"), (2, "2 parts"), (1200, "1,200 parts")])
def test_a_count_has_its_plural(count: int, text: str) -> None:
    assert number_of(count, "part") == text


@pytest.mark.parametrize(
    ("names", "most", "text"),
    [
        ("", None, ""),
        ("A", None, "A"),
        ("A B", None, "A and B"),
        ("A B C", None, "A, B and C"),
        ("A B C", 3, "A, B and C"),
        ("A B C D", 3, "A, B and 2 more"),
        ("A B C D E F", 3, "A, B and 4 more"),
        ("A B C", 2, "A and 2 more"),
    ],
)
def test_of_many_names_the_last_are_counted(names: str, most: int | None, text: str) -> None:
    assert listed(names.split(), most) == text


@pytest.mark.parametrize(
    ("amount", "figures", "text"),
    [
        (112.0, 2, "110"), (2846.0, 3, "2850"), (99.96, 3, "100"), (9.95, 2, "9.9"), (9.96, 2, "10"),
        (0.0047, 2, "0.0047"), (100.0, 2, "100"), (-54.64, 3, "-54.6"), (-1633.0, 3, "-1630"), (-0.0, 3, "0"),
        (0.0, 2, "0"),
    ],
)  # fmt: skip
def test_figures_are_never_written_as_a_power_of_ten(amount: float, figures: int, text: str) -> None:
    assert significant(amount, figures) == text
