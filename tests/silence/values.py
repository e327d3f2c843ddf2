"""Values as printed on parts, in SI units: ``22 mfd``, ``2.7k``, ``1/2 W``, ``290-0-290 V``."""

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction

__all__ = ["amperes", "farads", "henries", "ohms", "volts", "watts"]

_FIGURE = r"(\d*\.?\d+(?:/\d+)?)"
_OHMS: Mapping[str, float] = {"ohm": 1.0, "k": 1e3, "meg": 1e6}
_FARADS: Mapping[str, float] = {"mfd": 1e-6, "uF": 1e-6, "mmfd": 1e-12}
_AMPERES: Mapping[str, float] = {"A": 1.0, "mA": 1e-3}


def ohms(words: Iterable[str]) -> float | None:
    """The resistance among the words of a declaration."""
    return _with(words, _OHMS)


def farads(words: Iterable[str]) -> float | None:
    """The capacitance."""
    return _with(words, _FARADS)


def amperes(words: Iterable[str]) -> float | None:
    """The current."""
    return _with(words, _AMPERES)


def henries(words: Iterable[str]) -> float | None:
    """The inductance."""
    return _with(words, {"H": 1.0, "mH": 1e-3})


def watts(words: Iterable[str]) -> float | None:
    """The power."""
    return _with(words, {"W": 1.0})


def volts(words: Iterable[str]) -> tuple[float, ...]:
    """The volts, several for a tapped winding."""
    found = (re.fullmatch(r"([\d./-]+) ?V", word) for word in words)
    said = next((match[1] for match in found if match), "")
    return tuple(float(Fraction(each)) for each in said.split("-")) if said else ()


def _with(words: Iterable[str], units: Mapping[str, float]) -> float | None:
    pattern = re.compile(rf"{_FIGURE} ?({'|'.join(units)})")
    found = (pattern.fullmatch(word) for word in words)
    return next((float(Fraction(match[1])) * units[match[2]] for match in found if match), None)
