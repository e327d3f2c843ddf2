"""The sizes that parts are made in: what is proposed or ordered new is one of these."""

import math
from collections.abc import Sequence

__all__ = ["CAPACITOR_VOLTS", "DIODE_VOLTS", "FILM_VOLTS", "RESISTOR_WATTS", "above", "next_made", "preferred"]

# Working volts DC, watts and inverse volts that shops have (common practice; catalogues differ).
CAPACITOR_VOLTS = (16, 25, 35, 50, 63, 100, 160, 200, 250, 350, 400, 450, 500, 550, 600)
FILM_VOLTS = (100, 250, 400, 630, 1000, 1600, 2000)
RESISTOR_WATTS = (0.5, 1, 2, 3, 5, 7, 10, 15, 20, 25, 50, 100)
DIODE_VOLTS = (400, 600, 800, 1000)
_E24 = (10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91)
SERIES = {"E6": _E24[::4], "E12": _E24[::2], "E24": _E24}  # IEC 60063


def next_made(least: float, sizes: Sequence[float]) -> float | None:
    """The smallest size that is not below ``least``; None above the largest."""
    return next((size for size in sizes if size >= least * (1 - 1e-9)), None)


def preferred(amount: float, series: str) -> float:
    """The value of a series nearest by ratio; of two alike the larger."""
    return min(_around(amount, series), key=lambda step: (round(abs(math.log(step / amount)), 9), -step))


def above(amount: float, series: str) -> float:
    """The least value of a series that is not below an amount."""
    return next(step for step in _around(amount, series) if step >= amount * (1 - 1e-9))


def _around(amount: float, series: str) -> Sequence[float]:
    """The values of a series in the amount's decade and in those beside it, the least first."""
    decade = math.floor(math.log10(amount)) - 1
    return [float(f"{step}e{tens}") for tens in (decade - 1, decade, decade + 1) for step in SERIES[series]]
