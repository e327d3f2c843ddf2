"""Sizes that parts are made in, for what is ordered new."""

import math
from collections.abc import Sequence

__all__ = ["CAPACITOR_VOLTS", "DIODE_VOLTS", "RESISTOR_WATTS", "next_made", "preferred"]

# Working volts DC, watts and inverse volts that shops have (common practice; catalogues differ).
CAPACITOR_VOLTS = (16, 25, 35, 50, 63, 100, 160, 200, 250, 350, 400, 450, 500, 550, 600)
FILM_VOLTS = (100, 250, 400, 630, 1000, 1600, 2000)
RESISTOR_WATTS = (0.5, 1, 2, 3, 5, 7, 10, 15, 20, 25, 50, 100)
DIODE_VOLTS = (400, 600, 800, 1000)
_E24 = (10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91)
_E12 = _E24[::2]
_E6 = _E24[::4]
SERIES = {"E6": _E6, "E12": _E12, "E24": _E24}  # IEC 60063


def next_made(least: float, sizes: Sequence[float]) -> float | None:
    """The smallest size that is not below ``least``; None above the largest."""
    return next((size for size in sizes if size >= least * (1 - 1e-9)), None)


def preferred(amount: float, series: str) -> float:
    """The value of a series nearest by ratio; of two alike the larger."""
    decade = 10.0 ** math.floor(math.log10(amount) - 1)
    steps = [step * tens for tens in (decade / 10, decade, decade * 10) for step in SERIES[series]]
    return min(steps, key=lambda step: (round(abs(math.log(step / amount)), 9), -step))
