"""The units that values are written in and their factors, in the notation of pint, which tests hold them against."""

from collections.abc import Mapping
from decimal import Decimal
from functools import cache
from types import MappingProxyType

from netcheck.core.quantity import Dimension

__all__ = ["DEFINITIONS", "units"]

# The units, named like the grammar's terminals; a name with a dimension in brackets is what numbers are kept in.
DEFINITIONS = """
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


@cache
def units() -> Mapping[str, tuple[Decimal, Dimension]]:
    """Each unit's factor to the unit that its dimension is kept in."""
    dimensions = {d.value.lower().replace("/", "_per_"): d for d in Dimension}
    kept: dict[str, tuple[Decimal, Dimension]] = {}
    for line in DEFINITIONS.strip().splitlines():
        name, _, said = line.partition(" = ")
        factor, _, base = said.rpartition(" ")
        kept[name] = (Decimal(factor or 1), dimensions[name] if said[0] == "[" else kept[base][1])
    return MappingProxyType({name.upper(): unit for name, unit in kept.items()})
