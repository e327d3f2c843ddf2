"""What tubes drop and draw, by type: rectifiers and output tubes.

All rows are from memory; what a file states in `draws` goes before them.
"""

from dataclasses import dataclass

__all__ = ["Appetite", "RectifierTube", "appetite_of", "rectifier_tube_of", "regulator_volts_of"]


@dataclass(frozen=True, slots=True)
class RectifierTube:
    """A plate "drops ``volts`` at ``amperes``" and stands ``inverse_volts`` backwards."""

    volts: float
    amperes: float
    inverse_volts: float


@dataclass(frozen=True, slots=True)
class Appetite:
    """Typical currents of an output tube's plate and screen, in amperes."""

    plate: float
    screen: float


# Types | volts dropped by one plate | at mA | peak inverse volts. From memory.
_RECTIFIERS = """
5Y3 5Y3G 5Y3GT 5Y4G                 | 50 | 125 | 1400
5U4 5U4G 5Z3                        | 44 | 225 | 1550
80                                  | 60 | 125 | 1400
6X4 6X4W 12X4                       | 22 |  70 | 1250
6X5 6X5G 6X5GT 7Y4                  | 22 |  70 | 1250
84 6Z4                              | 20 |  60 | 1250
35Z5 35Z5G 35Z5GT 35Z3 45Z5GT       | 21 | 200 |  700
35W4                                | 18 | 200 |  330
25Z5 25Z6 25Z6G 25Z6GT 50Y6GT       | 22 | 150 |  700
117Z3                               | 15 |  90 |  330
5AR4 GZ34                           | 17 | 225 | 1700
EZ80 6V4                            | 20 |  90 | 1000
EZ81 6CA4                           | 18 | 150 | 1300
5V4 5V4G 83V                        | 25 | 175 | 1400
"""
# Types | plate mA | screen mA in class A (6L6: one tube). From memory.
_APPETITES = """
6V6 6V6G 6V6GT        | 45 | 4.5
6L6 6L6G 6L6GC        | 72 | 5
50L6GT                | 49 | 4
50C5                  | 49 | 4
6F6 6F6G 6F6GT        | 34 | 4
"""
# Types | volts. From memory.
_REGULATORS = """
0A2 OA2 | 150
0B2 OB2 | 108
"""


def rectifier_tube_of(tube_type: str) -> RectifierTube | None:
    """The drop of a rectifier tube; None where the type is not in the table."""
    found = _row(_RECTIFIERS, tube_type)
    return RectifierTube(found[0], found[1] / 1000, found[2]) if found else None


def appetite_of(tube_type: str) -> Appetite | None:
    """What an output tube draws; None where the type is not in the table."""
    found = _row(_APPETITES, tube_type)
    return Appetite(found[0] / 1000, found[1] / 1000) if found else None


def regulator_volts_of(tube_type: str) -> float | None:
    """The volts that a gas regulator keeps; None where the type is none of the table."""
    found = _row(_REGULATORS, tube_type)
    return found[0] if found else None


def _row(table: str, tube_type: str) -> tuple[float, ...] | None:
    names = {name.upper().replace("-", "").replace(" ", "") for name in tube_type.split("/")}
    for line in table.strip().splitlines():
        types, *figures = line.split("|")
        if names.intersection(types.split()):
            return tuple(float(figure) for figure in figures)
    return None
