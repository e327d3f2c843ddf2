"""What is printed on parts: codes of capacitors, suffixes of tube types, the marks of a can, a sheet's convention."""

import re
from collections.abc import Iterable, Mapping
from decimal import Decimal

from netcheck.core.diagnostic import Diagnostic, Flaw
from netcheck.core.kind import Family, PartKind
from netcheck.core.quantity import Dimension, Quantity
from netcheck.core.spelling import spelled
from netcheck.language import tree
from netcheck.language.values import bare, quantity
from netcheck.model.messages import stop

__all__ = ["TUBE_SUFFIXES", "coded", "conventions", "unitless"]

_CODE = r"(?P<figures>[1-9][0-9])(?P<zeros>[0-6])(?P<letter>[FGJKMZ]?)"
# Tolerance letters of IEC 60062; Z is one-sided and says nothing that is compared.
_TOLERANCE: Mapping[str, str] = {"F": "1%", "G": "2%", "J": "5%", "K": "10%", "M": "20%"}
_PICO = Decimal("1e-12")
_MOST_PAPER = Decimal("100e-6")
"""No paper, mica or ceramic capacitor of a tube set has so many farads."""

TUBE_SUFFIXES = frozenset(
    {"A", "B", "C", "G", "GA", "GB", "GC", "GT", "GTA", "GTB", "GTY", "GY", "MG", "W", "WA", "WGT"}
)
"""What says bulb, base or make of a tube, and may stand apart from the type: ``6V6 GT``."""

_SORTS: Mapping[str, Dimension] = {
    "capacitors": Dimension.CAPACITANCE,
    "condensers": Dimension.CAPACITANCE,
    "resistors": Dimension.RESISTANCE,
    "coils": Dimension.INDUCTANCE,
}


def coded(text: str) -> tuple[Quantity, ...]:
    """Capacitance and tolerance of a printed code with its letter (``473J`` is 47 nF, 5 %); empty for anything else."""
    found = re.fullmatch(_CODE, text)
    if found is None or not found["letter"]:
        return ()
    farads = Quantity((_farads(found),), Dimension.CAPACITANCE, text)
    percent = quantity(_TOLERANCE[found["letter"]]) if found["letter"] in _TOLERANCE else None
    return (farads, percent) if isinstance(percent, Quantity) else (farads,)


def unitless(text: str, kind: PartKind, said: Mapping[Dimension, str]) -> Quantity | Flaw:
    """A number without its unit: by the sheet's convention, else what may be read of it."""
    dimension = kind.principal
    if dimension is None:
        return Flaw(f"`{text}` has no unit", "write the unit after it")
    if dimension in said:
        return _by_convention(text, said[dimension], kind)
    found = re.fullmatch(_CODE, text)
    if dimension is Dimension.CAPACITANCE and found is not None and not found["letter"]:
        value = spelled(_farads(found), Dimension.CAPACITANCE)
        return Flaw(f"`{text}` can be a printed code for {value}, or {text} mmfd", f"write `{value}` or `{text} mmfd`")
    return bare(text, dimension)


def _by_convention(text: str, unit: str, kind: PartKind) -> Quantity | Flaw:
    value = quantity(f"{text} {unit}")
    if isinstance(value, Quantity) and kind.family is Family.CAPACITOR and value.amount >= _MOST_PAPER:
        headline = f"`{text}` would be {text} {unit} by the convention of this sheet, which no such part has"
        return Flaw(headline, f"write `{text} mmfd` or `{text} mfd`")
    return value


def _farads(code: re.Match[str]) -> Decimal:
    return (Decimal(f"{code['figures']}e{code['zeros']}") * _PICO).normalize()


def conventions(statements: Iterable[tree.Convention]) -> tuple[Mapping[Dimension, str], tuple[Diagnostic, ...]]:
    """The unit of each sort of part that a file's numbers are in, and what is wrong with those lines."""
    found: dict[Dimension, str] = {}
    problems: list[Diagnostic] = []
    for statement in statements:
        dimension = _SORTS.get(statement.what.text)
        one = quantity(f"1 {statement.unit.text}")
        if dimension is None:
            do = "write it as in `all capacitors in mfd` or `all resistors in ohms`"
            problems.append(
                stop("unknown-word", statement.what.place, f"`{statement.what.text}` is no sort of part", do)
            )
        elif isinstance(one, Flaw) or one.dimension is not dimension:
            what = f"`{statement.unit.text}` is no unit of {statement.what.text}"
            do = "write it as in `all capacitors in mfd` or `all resistors in ohms`"
            problems.append(stop("unreadable-value", statement.unit.place, what, do))
        else:
            found[dimension] = statement.unit.text
    return found, tuple(problems)
