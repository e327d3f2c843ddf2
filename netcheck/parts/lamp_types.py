"""What pilot lamps take, by the number on the base."""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from functools import cache

from msgspec import Struct

from netcheck.core.kind import Standing

__all__ = ["LampType", "lamp_type_of", "lamp_types"]


class LampType(Struct, frozen=True):
    """The volts and amperes that a lamp is made for."""

    number: str
    volts: Decimal
    amperes: Decimal
    standing: Standing
    source: str


# Numbers | volts | A | where that was read, or that it is from memory.
_TABLE = """
40 40A 1847            | 6.3 | .15 | memory: lamp makers' lists
47                     | 6.3 | .15 | source: pinballmedic.net/tech-tips/lamps.html
44 46                  | 6.3 | .25 | memory: lamp makers' lists
755                    | 6.3 | .15 | memory: lamp makers' lists
41 43                  | 2.5 | .5  | memory: lamp makers' lists
42 45                  | 3.2 | .35 | memory: lamp makers' lists
1490                   | 3.2 | .16 | memory: lamp makers' lists
48 49                  | 2.0 | .06 | memory: lamp makers' lists
50 51                  | 7.5 | .22 | memory: lamp makers' lists
55                     | 7.0 | .41 | memory: lamp makers' lists
53                     | 14.4 | .12 | memory: lamp makers' lists
57                     | 14  | .24 | memory: lamp makers' lists
292                    | 2.9 | .17 | memory: lamp makers' lists
313                    | 28  | .17 | memory: lamp makers' lists
1815                   | 14  | .2  | memory: lamp makers' lists
1891                   | 14  | .24 | memory: lamp makers' lists
1892                   | 14.4 | .12 | memory: lamp makers' lists
"""


@cache
def lamp_types() -> Mapping[str, LampType]:
    """Every lamp of the table by its number."""
    return {row.number: row for row in _rows()}


def lamp_type_of(number: str) -> LampType | None:
    """What a lamp takes, by its number with or without the ``#``."""
    return lamp_types().get(number.upper().lstrip("#").strip())


def _rows() -> Iterator[LampType]:
    for line in _TABLE.strip().splitlines():
        numbers, volts, amperes, said = (field.strip() for field in line.split("|"))
        word, _, source = said.partition(": ")
        standing = Standing.SOURCE if word == "source" else Standing.MEMORY
        for number in numbers.split():
            yield LampType(number, Decimal(volts), Decimal(amperes), standing, source)
