"""Quantities as printed on parts and drawings, read into exact values.

`470 1/2 W` is 470 ohm and half a watt; `1 1/2 W`, one figure before the fraction, can be read two ways and is refused.
"""

import re
from collections.abc import Mapping
from decimal import Decimal
from functools import cache
from types import MappingProxyType

from netcheck.core.diagnostic import Flaw
from netcheck.core.quantity import Current, Dimension, Quantity
from netcheck.core.spelling import spelled
from netcheck.language.grammar import spellings, unit_terminals
from netcheck.language.near import near
from netcheck.language.slip import clipped
from netcheck.language.units import measure

__all__ = ["bare", "has_power", "quantity", "unknown_unit"]

_BEYOND_ALL = Decimal("1e-15"), Decimal("1e12")
# Common practice, wider by tenfold or more than what sets have: a number outside has its point or its unit wrong.
_MADE = {
    Dimension.RESISTANCE: (Decimal("1e-3"), Decimal("1e12")),
    Dimension.CAPACITANCE: (Decimal("1e-14"), Decimal(10)),
    Dimension.INDUCTANCE: (Decimal("1e-9"), Decimal("1e5")),
    Dimension.VOLTAGE: (Decimal("1e-3"), Decimal("1e6")),
    Dimension.CURRENT: (Decimal("1e-7"), Decimal("1e4")),
    Dimension.POWER: (Decimal("1e-4"), Decimal("1e6")),
}
_LONGEST = 25
"""Decimal keeps 28 figures, so that every product of such a number and a unit's factor is exact."""

_NUMBERS = "numbers are written as in `20`, `.05`, `4.7` or `1/2`"
_NUMBER_MARKS = "0123456789.,/½¼¾+- \t"
_FRACTION = re.compile(
    r"[0-9]+\.?[0-9]*|\.[0-9]+|(?P<above>[0-9]+)/(?P<below>[0-9]+)|(?P<whole>[0-9]*)(?P<vulgar>[½¼¾])"
)
_LETTERED = r"(?P<whole>[0-9]*)(?P<letter>(?<=[0-9])[^0-9]|R(?=[0-9]))(?P<tenths>[0-9]*)"
_POWER = r"(?P<figures>[0-9]{1,25}\.?[0-9]{0,25}|\.[0-9]{1,25})[eE](?P<power>[+-]?[0-9]{1,3}) ?(?P<unit>.*)"
_VULGAR: Mapping[str, Decimal] = MappingProxyType({"½": Decimal("0.5"), "¼": Decimal("0.25"), "¾": Decimal("0.75")})

_UNSURE_OHM, _UNSURE_FARAD = "UNSURE_OHM", "UNSURE_FARAD"
_RKM: Mapping[str, str] = MappingProxyType(
    {
        "RKM_OHM": "OHM",
        "RKM_KILOHM": "KILOHM",
        "RKM_MEGOHM": "MEGOHM",
        "RKM_PICOFARAD": "PICOFARAD",
        "RKM_NANOFARAD": "NANOFARAD",
        "RKM_MICROFARAD": "MICROFARAD",
        "RKM_UNSURE_FARAD": _UNSURE_FARAD,
    }
)
# Bare numbers: what a message proposes to write after them.
_USUAL: Mapping[Dimension, str] = MappingProxyType(
    {
        Dimension.INDUCTANCE: "H",
        Dimension.VOLTAGE: "V",
        Dimension.CURRENT: "mA",
        Dimension.POWER: "W",
        Dimension.FREQUENCY: "Hz",
        Dimension.SENSITIVITY: "ohm/V",
        Dimension.TOLERANCE: "%",
        Dimension.GAUGE: "AWG",
        Dimension.LUGS: "lugs",
        Dimension.PINS: "pins",
        Dimension.WIRES: "wires",
        Dimension.PLATES: "plates",
    }
)


def quantity(text: str) -> Quantity | Flaw:
    """The value of a QUANTITY of the grammar, in its dimension's unit, or why it can't be read."""
    number, unit = _split(text)
    family, current = _family(unit)
    if family and number:
        return _measured(text, number, family, current)
    lettered = re.fullmatch(_LETTERED, text)
    if lettered and lettered["letter"] in _letters():
        plain = f"{lettered['whole'] or 0}.{lettered['tenths'] or 0}"
        return _measured(text, plain, _letters()[lettered["letter"]], Current.UNSAID)
    return unknown_unit(number, unit)


def bare(text: str, dimension: Dimension) -> Quantity | Flaw:
    """A number written without a unit, where a value of the dimension is expected; ohms alone may be so."""
    number, unit = _split(text)
    if unit:
        return unknown_unit(number, unit)
    amounts = _amounts(text, text)
    if isinstance(amounts, Flaw):
        return amounts
    if dimension is Dimension.RESISTANCE:
        return _measured(text, text, "OHM", Current.UNSAID)
    if dimension is Dimension.CAPACITANCE:
        return Flaw(f"{clipped(text)} can mean {text} mfd or {text} mmfd", f"write `{text} mfd` or `{text} mmfd`")
    return Flaw(f"{clipped(text)} has no unit", f"write `{text} {_USUAL[dimension]}`")


def unknown_unit(number: str, word: str) -> Flaw:
    """What is said of a number followed by a word that is no unit; an empty word stands for none."""
    if power := re.fullmatch(_POWER, f"{number}{'' if word[:1] in 'eE' else ' '}{word}".strip()):
        return Flaw(f"{clipped(power[0])} has a power of ten", _in_full(power))
    if not word:
        return Flaw(f"{clipped(number)} has no unit", "write the unit after it, as in `20 mfd`, `470k` or `450 V`")
    if number.strip(_NUMBER_MARKS):
        return Flaw(f"{clipped(number)} is not a number", _NUMBERS)
    meant = _spelled().get(near(word.lower(), _spelled(), cutoff=0.6), "")
    proposal = f"{number} {meant}".strip() if len(number) <= _LONGEST else meant
    hint = f"did you mean `{proposal}`?" if meant else "units are written as in `20 mfd`, `470k` or `450 V`"
    return Flaw(f"unknown unit {clipped(word)}", hint)


def has_power(text: str) -> bool:
    """Whether a number is written with a power of ten, as ``1e+06``, which the language has not."""
    return re.fullmatch(_POWER, text) is not None


def _in_full(written: re.Match[str]) -> str:
    """What to write for a number with a power of ten, where that is a number of a size that a part has."""
    unit = written["unit"]
    plain = f"{Decimal(written['figures']).scaleb(int(written['power'])):f} {unit}"
    read = quantity(plain) if unit and len(plain) <= _LONGEST else None
    if not isinstance(read, Quantity):
        return "write the number in full"
    short = spelled(read.amount, read.dimension)
    same = quantity(short)
    is_other = isinstance(same, Quantity) and same.amounts == read.amounts and short != plain
    return f"write `{plain}` or `{short}`" if is_other else f"write `{plain}`"


def _measured(text: str, number: str, family: str, current: Current) -> Quantity | Flaw:
    if family in (_UNSURE_OHM, _UNSURE_FARAD):
        return _both_readings(text, number, family)
    amounts = _amounts(text, number)
    if isinstance(amounts, Flaw):
        return amounts
    factor, dimension = measure(family)
    sized = tuple((amount * factor).normalize() for amount in amounts)
    flaw = _misfit(text, sized, dimension)
    return flaw or Quantity(sized, dimension, text, current)


def _misfit(text: str, amounts: tuple[Decimal, ...], dimension: Dimension) -> Flaw | None:
    if dimension is not Dimension.VOLTAGE:
        if len(amounts) > 1:
            return Flaw(f"{clipped(text)} is not one value", "write one number; only volts have a centre tap")
        if amounts[0] < 0:
            return Flaw(f"{clipped(text)} is less than nothing", "only volts are written with a minus")
    least, most = _MADE.get(dimension, _BEYOND_ALL)
    if any(amount and not least <= abs(amount) <= most for amount in amounts):
        read = f": {spelled(least, dimension)} to {spelled(most, dimension)} is read" * (dimension in _MADE)
        return Flaw(f"{clipped(text)} is not a size that a part can have", f"check the number and its unit{read}")
    return None


def _amounts(text: str, number: str) -> tuple[Decimal, ...] | Flaw:
    if "," in number:
        return _comma(text, number)
    if len(number) > _LONGEST:
        return Flaw(f"{clipped(text)} has too many figures", "round it; no part is that exact")
    sign, size = (number[0], number[1:]) if number[:1] in ("+", "-") else ("", number)
    mixed = size.split()
    taps = mixed if len(mixed) > 1 else size.split("-")
    amounts = tuple(amount for amount in map(_fraction, taps) if amount is not None)
    if not amounts or len(amounts) < len(taps) or size != size.strip():
        return Flaw(f"{clipped(text)} is not a number", _NUMBERS)
    if len(mixed) > 1:
        rest = text[len(number) :]
        return Flaw(f"{clipped(text)} is two numbers", f"write `{sign}{sum(amounts, Decimal()).normalize():f}{rest}`")
    if len(taps) > 1 and (len(taps) < 3 or amounts.count(Decimal()) != 1):  # one lead is the 0 of the others
        return Flaw(f"{clipped(text)} is not one value", "only a tapped winding is written so: `310-0-310 V`")
    return tuple(-amount for amount in amounts) if sign == "-" else amounts


def _fraction(number: str) -> Decimal | None:
    shape = _FRACTION.fullmatch(number)
    if shape is None or (shape["below"] and not int(shape["below"])):
        return None
    if shape["vulgar"]:
        return Decimal(shape["whole"] or 0) + _VULGAR[shape["vulgar"]]
    return Decimal(shape["above"]) / Decimal(shape["below"]) if shape["below"] else Decimal(number)


def _comma(text: str, number: str) -> Flaw:
    unit = text[len(number) :]
    whole, *groups = number.split(",")
    thousands = all(len(group.partition(".")[0]) == 3 for group in groups)  # figures in a group
    plain = f"{whole}{'' if thousands else '.'}{''.join(groups)}{unit}"
    return Flaw(f"a comma ends an item, so {clipped(text)} is not one number", f"write `{plain}`")


def _both_readings(text: str, number: str, family: str) -> Flaw:
    shown = clipped(text)
    if family == _UNSURE_OHM:
        headline = f"{shown} can mean {number} thousand ohms (on old drawings) or {number} million ohms"
        return Flaw(headline, f"write `{number}k` or `{number} meg`{_as_code(number)}")
    amounts = _amounts(number, number)
    if isinstance(amounts, Flaw):
        return amounts
    headline = f"{shown} can mean {number} microfarads (on old parts) or {number} thousandths of a farad"
    return Flaw(headline, f"write `{number} mfd` or `{(amounts[0] * 1000).normalize():f} mfd`")


def _as_code(number: str) -> str:
    """What else three figures before an M are, where they are printed on a capacitor."""
    if not re.fullmatch(r"[1-9][0-9][0-6]", number):
        return ""
    picofarads = int(number[:2]) * 10 ** int(number[2])
    return f"; as a code printed on a capacitor: `{spelled(picofarads * Decimal('1e-12'), Dimension.CAPACITANCE)} 20%`"


def _split(text: str) -> tuple[str, str]:
    """The number that a text begins with, and what follows it."""
    unit = text.lstrip(_NUMBER_MARKS)
    return text[: len(text) - len(unit)].strip(), unit


def _family(unit: str) -> tuple[str, Current]:
    """The unit's terminal in the grammar, and whether AC or DC is said; empty where there is no such unit."""
    family = _in_any_case().get(unit.lower()) or _as_spelled().get(unit, "")
    if family == "VOLT_DC":
        return family, Current.DC
    if family:
        return family, Current.UNSAID
    kind = {"ac": Current.AC, "dc": Current.DC}.get(unit[-2:].lower())
    if kind and _in_any_case().get(unit[:-2].strip(" \t").lower()) == "VOLT":
        return "VOLT", kind
    return "", Current.UNSAID


@cache
def _as_spelled() -> Mapping[str, str]:
    """The spellings that stand for their unit in this case only, to their units."""
    families = (*unit_terminals(), _UNSURE_OHM, _UNSURE_FARAD)
    return MappingProxyType({word: f for f in families for word, any_case in spellings(f) if not any_case})


@cache
def _in_any_case() -> Mapping[str, str]:
    """The other spellings in lower case, to their units."""
    return MappingProxyType({word.lower(): f for f in unit_terminals() for word, any_case in spellings(f) if any_case})


@cache
def _letters() -> Mapping[str, str]:
    """The letters that stand in the place of the decimal point, to their units."""
    return MappingProxyType({word: unit for terminal, unit in _RKM.items() for word, _ in spellings(terminal)})


@cache
def _spelled() -> Mapping[str, str]:
    """Every unit's spelling in lower case, to the spelling itself."""
    sure = (word for family in unit_terminals() for word, _ in spellings(family))
    return MappingProxyType({word.lower(): word for word in reversed(tuple(sure))})
