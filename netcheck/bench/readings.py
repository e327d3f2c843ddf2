"""What people write down from a meter, and whether it is what was expected."""

import math
import re
from collections.abc import Mapping
from enum import Enum

from msgspec import Struct

from netcheck.bench.expected import BEEPS, MOST, TOLD_APART, Expected, Want
from netcheck.core.diagnostic import Flaw

__all__ = ["FORWARD", "Reading", "Unit", "agrees", "reading_of"]

FORWARD = (0.05, 1.5)  # volts that a junction shows on the diode range of a meter


class Unit(Enum):
    """What a number was read in."""

    OHMS = "ohm"
    VOLTS = "volt"


class Reading(Struct, frozen=True):
    """A reading between ``low`` and ``high``; both alike where a number was written. ``text`` is as written."""

    text: str
    low: float
    high: float
    unit: Unit = Unit.OHMS


_BEEP = frozenset({"beep", "beeps", "b", "short", "shorted", "joined", "yes", "y"})
_OPEN = frozenset({"ol", "o.l", "o.l.", "0l", "open", "inf", "infinite", "infinity", "\N{INFINITY}", "no", "n", "none",
                   "no beep", "nobeep", "silent", "nothing", "over", "overload"})  # fmt: skip
_BLANK = frozenset({"", "-", "--", "?", "n/a", "skipped"})
_SIZES: Mapping[str, float] = {"": 1.0, "r": 1.0, "k": 1e3, "M": 1e6, "meg": 1e6, "g": 1e9}
_NUMBER = re.compile(
    r"""(?P<sign>[-+]?)(?P<whole>\d*)(?:[.,](?P<part>\d+))?\s*
        (?P<size>meg(?:s|a|ohms?)?|kilo|[kKmMgGrR]?)(?P<after>\d*)\s*
        (?P<unit>mV|V|volts?|ohms?|\N{GREEK CAPITAL LETTER OMEGA}|\N{OHM SIGN}|)""",
    re.VERBOSE | re.IGNORECASE,
)
_BOUNDS: Mapping[str, str] = {"<": "<", "\N{LESS-THAN OR EQUAL TO}": "<", "below": "<", "under": "<", "less than": "<",
                              ">": ">", "\N{GREATER-THAN OR EQUAL TO}": ">", "above": ">", "over": ">",
                              "more than": ">", "~": "", "about": "", "ca": "", "ca.": ""}  # fmt: skip


def reading_of(text: str) -> Reading | Flaw | None:
    """The reading that a cell holds; None for a blank, a flaw for what can't be read or can be read two ways."""
    plain = " ".join(text.split())
    word = plain.lower()
    if word in _BLANK:
        return None
    if word in _BEEP:
        return Reading(plain, 0.0, BEEPS)
    if word in _OPEN:
        return Reading(plain, MOST, math.inf)
    mark = next((mark for mark in sorted(_BOUNDS, key=len, reverse=True) if word.startswith(mark)), "")
    number = _number(plain[len(mark) :].strip())
    if number is None:
        return Flaw(
            f"`{plain}` is no reading", "write ohms (`0.3`, `2k2`, `2.2 k`, `1.5 meg`), `beep`, `OL` or nothing"
        )
    if isinstance(number, Flaw):
        return number
    amount, unit = number
    low, high = {"<": (-math.inf if unit is Unit.VOLTS else 0.0, amount), ">": (amount, math.inf)}.get(
        _BOUNDS.get(mark, ""), (amount, amount)
    )
    return Reading(plain, low, high, unit)


def _number(text: str) -> tuple[float, Unit] | Flaw | None:
    found = _NUMBER.fullmatch(text)
    if found is None or not (found["whole"] or found["part"]) or (found["part"] and found["after"]):
        return None
    size, unit = found["size"], found["unit"].lower()
    if size == "m" and not unit.startswith(("v", "m")):
        return Flaw(f"`{text}` can be read two ways", "write `meg` for megohm, or the ohms as they are: `0.02`")
    digits = f"{found['whole'] or '0'}.{found['part'] or found['after'] or '0'}"
    amount = float(digits) * (-1.0 if found["sign"] == "-" else 1.0)
    if unit.startswith("v") or unit == "mv":
        return amount * (1e-3 if unit == "mv" or size == "m" else _size(size)), Unit.VOLTS
    return None if amount < 0 else (amount * _size(size), Unit.OHMS)


def _size(size: str) -> float:
    word = size.lower()
    return _SIZES["meg"] if word.startswith("meg") or size == "M" else _SIZES[word[:1]]


def agrees(reading: Reading, expected: Expected) -> bool:
    """Whether a reading is one that was expected."""
    if expected.want is Want.CONDUCTS:
        if reading.unit is Unit.VOLTS:
            return reading.low <= FORWARD[1] and reading.high >= FORWARD[0]
        return reading.low < MOST and (reading.high > expected.low or expected.low == 0)
    if reading.unit is Unit.VOLTS:
        return True  # a voltage says nothing about ohms
    if expected.want is Want.BEEP:
        return reading.low <= TOLD_APART
    if expected.want is Want.SILENT:
        return reading.high > BEEPS
    return reading.low <= expected.high and reading.high >= min(expected.low, MOST)
