"""What silicon diodes are rated for, by type, and who says so."""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from functools import cache

from msgspec import Struct

from netcheck.core.kind import Standing

__all__ = ["SILICON_MARGIN", "DiodeType", "diode_type_of", "diode_types"]

SILICON_MARGIN = 1.2
"""Times the inverse volts of a high line, for what comes along the line on top of it (common practice)."""


class DiodeType(Struct, frozen=True):
    """Inverse volts that repeat each period, mean amperes into a resistor, and amperes once for half a cycle."""

    type: str
    inverse_volts: Decimal
    mean_amperes: Decimal
    surge_amperes: Decimal
    standing: Standing
    source: str


# Types | volts of each | mean A | surge A (8.3 ms) | where that was read, or that it is from memory.
_TABLE = """
1N4001 1N4002 1N4003 1N4004 1N4005 1N4006 1N4007 | 50 100 200 400 600 800 1000 | 1 | 30 | source: dtsheet.com/doc/260565
1N5391 1N5392 1N5393 1N5394 1N5395 1N5396 1N5397 1N5398 1N5399 \
| 50 100 200 300 400 500 600 800 1000 | 1.5 | 50 | source: dtsheet.com/doc/1148583
1N5400 1N5401 1N5402 1N5403 1N5404 1N5405 1N5406 1N5407 1N5408 \
| 50 100 200 300 400 500 600 800 1000 | 3 | 200 | source: dtsheet.com/doc/1276725
UF4001 UF4002 UF4003 UF4004 UF4005 UF4006 UF4007 \
| 50 100 200 400 600 800 1000 | 1 | 30 | memory: as dtsheet.com/doc/1286897
UF5400 UF5401 UF5402 UF5404 UF5406 UF5407 UF5408 \
| 50 100 200 400 600 800 1000 | 3 | 150 | memory: makers' data
BY133 | 1300 | 1 | 30  | source: dtsheet.com/doc/333296
FR107 RL207 6A10 | 1000 1000 1000 | 1 2 6 | 30 70 400 | memory: makers' data
BY127 | 1250 | 1 | 40  | memory: makers' data
1N2069 1N2070 1N2071 | 200 400 600 | .75 | 6 | memory: makers' data
"""


@cache
def diode_types() -> Mapping[str, DiodeType]:
    """Every type of the table by its name."""
    return {row.type: row for row in _rows()}


def diode_type_of(name: str) -> DiodeType | None:
    """The ratings of a type as printed on the part; a final G (glass passivated) changes none of them."""
    plain = name.upper().replace("-", "").replace(" ", "")
    types = diode_types()
    return types.get(plain) or types.get(plain.removesuffix("G"))


def _rows() -> Iterator[DiodeType]:
    for line in _TABLE.strip().splitlines():
        types, *figures, said = (field.strip() for field in line.split("|"))
        word, _, source = said.partition(": ")
        standing = Standing.SOURCE if word == "source" else Standing.MEMORY
        names = types.split()
        volts, mean, surge = (_each(figure, len(names)) for figure in figures)
        for row in zip(names, volts, mean, surge, strict=True):
            yield DiodeType(*row, standing, source)


def _each(figures: str, count: int) -> tuple[Decimal, ...]:
    """A figure for every type, or one for all of them."""
    said = tuple(map(Decimal, figures.split()))
    return said * count if len(said) == 1 else said
