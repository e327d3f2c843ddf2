"""The units that values are written in and their factors; the only importer of pint."""

import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from decimal import Decimal
from functools import cache
from types import MappingProxyType
from typing import Any

from netcheck.core.quantity import Dimension

__all__ = ["ORDINARY", "measure", "worked_out"]

ORDINARY: Mapping[str, tuple[Decimal, Dimension]] = MappingProxyType(
    {
        "OHM": (Decimal(1), Dimension.RESISTANCE),
        "KILOHM": (Decimal("1e3"), Dimension.RESISTANCE),
        "MEGOHM": (Decimal("1e6"), Dimension.RESISTANCE),
        "MICROFARAD": (Decimal("1e-6"), Dimension.CAPACITANCE),
        "PICOFARAD": (Decimal("1e-12"), Dimension.CAPACITANCE),
        "HENRY": (Decimal(1), Dimension.INDUCTANCE),
        "VOLT": (Decimal(1), Dimension.VOLTAGE),
        "VOLT_DC": (Decimal(1), Dimension.VOLTAGE),
        "AMPERE": (Decimal(1), Dimension.CURRENT),
        "MILLIAMPERE": (Decimal("1e-3"), Dimension.CURRENT),
        "WATT": (Decimal(1), Dimension.POWER),
        "HERTZ": (Decimal(1), Dimension.FREQUENCY),
        "OHM_PER_VOLT": (Decimal(1), Dimension.SENSITIVITY),
        "PERCENT": (Decimal(1), Dimension.TOLERANCE),
        "AWG": (Decimal(1), Dimension.GAUGE),
        "LUGS": (Decimal(1), Dimension.LUGS),
        "PINS": (Decimal(1), Dimension.PINS),
    }
)
"""What almost every list is written in. pint, which takes longer to load than a small list to check, works out the
others, and a test holds these against it."""

# The units, named like the grammar's terminals; a name with a dimension in brackets is what numbers are kept in.
_DEFINITIONS = """
ohm = [resistance]
kilohm = 1000 ohm
megohm = 1000000 ohm
farad = [capacitance]
microfarad = 1e-6 farad
nanofarad = 1e-9 farad
picofarad = 1e-12 farad
henry = [inductance]
millihenry = 1e-3 henry
microhenry = 1e-6 henry
volt = [voltage]
kilovolt = 1000 volt
millivolt = 1e-3 volt
volt_dc = volt
ampere = [current]
milliampere = 1e-3 ampere
microampere = 1e-6 ampere
watt = [power]
milliwatt = 1e-3 watt
hertz = [frequency]
kilohertz = 1000 hertz
megahertz = 1000000 hertz
ohm_per_volt = [sensitivity]
percent = [tolerance]
awg = [gauge]
lugs = [lugs]
pins = [pins]
wires = [wires]
plates = [plates]
"""


def measure(name: str) -> tuple[Decimal, Dimension]:
    """A unit's factor to the unit that its dimension is kept in; it is named like the grammar's terminal."""
    return ORDINARY.get(name) or worked_out()[name]


@cache
def worked_out() -> Mapping[str, tuple[Decimal, Dimension]]:
    """The same of all units, from their definitions."""
    dimensions = {d.value.lower().replace("/", "_per_"): d for d in Dimension}
    found = {}
    with _numpy_left_out():
        import pint  # only a run that meets such a unit pays for the import

        registry: pint.UnitRegistry[Decimal] = pint.UnitRegistry(None, non_int_type=Decimal)
        registry.load_definitions(_DEFINITIONS.strip().splitlines())
        for definition in _DEFINITIONS.split("\n"):
            if name := definition.partition(" =")[0]:
                base = registry.Quantity(Decimal(1), name).to_base_units()
                found[name.upper()] = (Decimal(base.magnitude), dimensions[str(base.units)])
    return MappingProxyType(found)


@contextmanager
def _numpy_left_out() -> Iterator[None]:
    """Has what is imported meanwhile, if it was not yet, do without numpy and be forgotten afterwards.

    pint imports numpy wherever it is installed, for arrays that no netlist has: half of what reading a value
    would cost. A program that uses pint itself finds it unloaded afterwards, and loads it with numpy.
    """
    if {"numpy", "pint"} & sys.modules.keys():
        yield
        return
    hidden: dict[str, Any] = {"numpy": None}  # importing such a module fails, as if it were not installed
    sys.modules.update(hidden)
    try:
        yield
    finally:
        for name in [name for name in sys.modules if name == "numpy" or name.partition(".")[0] == "pint"]:
            del sys.modules[name]
