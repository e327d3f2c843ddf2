"""What tubes drop, stand and draw, by type: rectifiers, regulators, what hangs on the supply, heaters.

All figures are from memory unless a row names where one was read; what a file states goes before them.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache

__all__ = [
    "Appetite", "Heater", "RectifierTube", "appetite_of", "heater_of", "rectifier_tube_of", "regulator_volts_of",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class RectifierTube:
    """One plate "drops ``volts`` at ``amperes``"; it stands ``inverse_volts`` backwards and ``peak`` amperes.

    ``mean`` is the direct current that one plate may carry. ``gas`` is True where the drop hardly depends on the
    current (mercury vapour). A limit of 0 is unknown. ``source`` says where a limit was read, if not from memory.
    """

    volts: float
    amperes: float
    inverse_volts: float = 0.0
    peak: float = 0.0
    mean: float = 0.0
    gas: bool = False
    source: str = "from memory"


@dataclass(frozen=True, slots=True)
class Appetite:
    """Typical currents of a tube's plate and screen, in amperes; ``power`` is True for an output tube."""

    plate: float
    screen: float
    power: bool


@dataclass(frozen=True, slots=True)
class Heater:
    """Volts and amperes of a heater from end to end; ``tap`` are those from ``heater-1`` to its tap, 0 without."""

    volts: float
    amperes: float
    tap: float = 0.0


# Types | volts dropped by one plate | at mA | peak inverse volts | peak mA of a plate | direct mA of a plate
_RECTIFIERS = """
5Y3 5Y3G 5Y3GT 5Y4G                 |  50 | 125 | 1400 |  400 |  62.5
5U4 5U4G 5U4GA 5U4GB 5Z3 5X4G       |  44 | 225 | 1550 | 1000 | 112.5 | peak: monoandstereo.com, tube of the month 5U4
5T4                                 |  45 | 225 | 1550 |  675 | 112.5
5W4 5W4GT                           |  45 | 100 | 1400 |  300 |  50
5Z4                                 |  20 | 125 | 1400 |  375 |  62.5
5R4 5R4GY 5R4GYA 5R4GYB             |  67 | 250 | 2800 |  650 | 125
5AR4 GZ34                           |  17 | 225 | 1500 |  750 | 125
5V4 5V4G 5V4GA 83V                  |  25 | 175 | 1400 |  525 |  87.5
80                                  |  60 | 125 | 1400 |  400 |  62.5
83                                  |  15 | 225 | 1550 | 1000 | 112.5 | gas
6X4 6X4W 12X4                       |  22 |  70 | 1250 |  210 |  35
6X5 6X5G 6X5GT 7Y4                  |  22 |  70 | 1250 |  210 |  35
84 6Z4                              |  20 |  60 | 1250 |  180 |  30
35Z5 35Z5G 35Z5GT 35Z3 35Z4GT 45Z5GT|  21 | 200 |  700 |  600 | 100
35W4                                |  18 | 200 |  330 |  600 | 100
25Z5 25Z6 25Z6G 25Z6GT 50Y6GT       |  22 | 150 |  700 |  450 |  75
117Z3                               |  15 |  90 |  330 |  540 |  90
117Z6GT                             |  16 | 120 |  700 |  360 |  60
EZ80 6V4                            |  20 |  90 | 1000 |  270 |  45
EZ81 6CA4                           |  18 | 150 | 1300 |  450 |  75   | peak: diyaudio.com, thread 382833
EZ40                                |  20 |  90 | 1000 |  270 |  45
AZ41                                |  40 |  70 | 1400 |  200 |  35
"""
# Types | plate mA | screen mA: output tubes in class A, then small ones; each unit of a double tube.
_OUTPUT = """
6V6 6V6G 6V6GT 6V6GTA 12V6GT 7C5    | 45 | 4.5
6AQ5 6AQ5A 6005 12AQ5               | 45 | 4.5
6L6 6L6G 6L6GA 6L6GB 6L6GC 5881 KT66| 72 | 5
6550 KT88                           | 87 | 6
EL34 6CA7                           | 70 | 10
6BQ5 EL84                           | 48 | 5.5
50L6 50L6GT 50C5 50B5 50A5 25C5     | 49 | 4
35L6 35L6GT 35C5 35B5 35A5          | 40 | 3
25L6 25L6G 25L6GT                   | 49 | 4
6F6 6F6G 6F6GT 42 2A5               | 34 | 6.5
6K6G 6K6GT 41                       | 32 | 5.5
43 25A6 25A6G                       | 20 | 4
47                                  | 31 | 6
45                                  | 34 | 0
2A3                                 | 60 | 0
"""
_SMALL = """
12BA6 6BA6                          | 11  | 4.3
12BE6 6BE6 6BY6                     | 2.8 | 7
12SA7 12SA7GT 6SA7 6SA7GT           | 3.4 | 8.5
6SK7 6SK7GT 12SK7 12SK7GT           | 9.2 | 2.6
6K7 6K7G 6K7GT 12K7GT 6D6 78 58     | 7   | 1.8
6A8 6A8G 6A8GT 12A8GT 6A7           | 3.5 | 2.7
6AU6 6AU6A 12AU6 6CB6 6CB6A         | 9   | 3.5
6SQ7 6SQ7GT 12SQ7 12SQ7GT           | 0.9 | 0
6AV6 12AV6 6AT6 12AT6 75            | 1   | 0
12AX7 12AX7A ECC83 7025 6SL7GT 6SL7 | 1.2 | 0
6SJ7 6SJ7GT 12SJ7 12SJ7GT 6J7 6C6 77| 2   | 0.6
"""
# Types | volts
_REGULATORS = """
0A2 OA2 0D3 VR150 | 150
0B2 OB2 0C3 VR105 | 108
0A3 VR75          |  75
0B3 VR90          |  90
"""
# Types | heater volts | heater mA | volts from heater-1 to the tap
_HEATERS = """
12BA6 12BE6 12BD6 12AV6 12AT6 12AU6 12AL5 12SA7 12SA7GT 12SK7 12SK7GT 12SQ7 12SQ7GT| 12.6 | 150
12SJ7 12SJ7GT 12SR7 12SL7GT 12K7GT 12A8GT 12Q7GT 12J5GT 12J7GT 12H6 14A7             | 12.6 | 150
12AX7 12AX7A ECC83 7025 12AU7 12AU7A ECC82 12AT7 ECC81 12AY7                        | 12.6 | 150 | 6.3
35W4                                                                                | 35   | 150 | 29.5
35Z5 35Z5G 35Z5GT                                                                   | 35   | 150 | 7.5
45Z5GT                                                                              | 45   | 150 | 7.5
35Z3 35Z4GT 35L6 35L6GT 35C5 35B5 35A5                                              | 35   | 150
50L6 50L6GT 50C5 50B5 50A5 50C6G 50Y6GT                                             | 50   | 150
117Z3                                                                               | 117  |  40
117Z6GT                                                                             | 117  |  75
25L6 25L6G 25L6GT 25A6 25A6G 25Z5 25Z6 25Z6G 25Z6GT 43 25C5 25W4GT 25BQ6GT           | 25   | 300
6SK7 6SK7GT 6SA7 6SA7GT 6SQ7 6SQ7GT 6SJ7 6SJ7GT 6K7 6K7G 6K7GT 6J7 6J7G 6J7GT 6Q7    | 6.3  | 300
6Q7G 6Q7GT 6A8 6A8G 6A8GT 6H6 6H6GT 6C5 6J5 6J5GT 6D6 6C6 6A7 75 76 77 78 36 37      | 6.3  | 300
6BA6 6BE6 6AU6 6AU6A 6AV6 6AT6 6AL5 6CB6 6CB6A 6SL7 6SL7GT 6F5 6F5GT                  | 6.3  | 300
6BH6 6BJ6                                                                           | 6.3  | 150
6SN7 6SN7GT 6CG7 6FQ7                                                               | 6.3  | 600
6V6 6V6G 6V6GT 6AQ5 6J6                                                             | 6.3  | 450
12SN7GT                                                                             | 12.6 | 300
12C5                                                                                | 12.6 | 600
"""


def rectifier_tube_of(tube_type: str) -> RectifierTube | None:
    """What a rectifier tube drops and stands; None where the type is not in the table."""
    found = _found(_RECTIFIERS, tube_type)
    if found is None:
        return None
    volts, amperes, inverse, peak, mean = map(float, found[:5])
    said = found[5] if len(found) > len("VAIPM") else ""
    source = "from memory" if said in ("", "gas") else said
    return RectifierTube(volts, amperes / 1000, inverse, peak / 1000, mean / 1000, gas=said == "gas", source=source)


def appetite_of(tube_type: str) -> Appetite | None:
    """What a tube typically draws; None where the type is not in the tables."""
    for table, power in ((_OUTPUT, True), (_SMALL, False)):
        found = _found(table, tube_type)
        if found is not None:
            return Appetite(float(found[0]) / 1000, float(found[1]) / 1000, power)
    return None


def regulator_volts_of(tube_type: str) -> float | None:
    """The volts that a gas regulator keeps; None where the type is none of the table."""
    found = _found(_REGULATORS, tube_type)
    return None if found is None else float(found[0])


def heater_of(tube_type: str) -> Heater | None:
    """A tube's heater; None where the type is not in the table."""
    found = _found(_HEATERS, tube_type)
    if found is None:
        return None
    volts, milliamperes, *tap = map(float, found)
    return Heater(volts, milliamperes / 1000, *tap)


def _found(table: str, tube_type: str) -> tuple[str, ...] | None:
    names = (name.upper().replace("-", "").replace(" ", "") for name in tube_type.split("/"))
    return next((row for name in names if (row := _rows(table).get(name)) is not None), None)


@cache
def _rows(table: str) -> Mapping[str, tuple[str, ...]]:
    return dict(_read(table))


def _read(table: str) -> Iterator[tuple[str, tuple[str, ...]]]:
    for line in table.strip().splitlines():
        types, *figures = (field.strip() for field in line.split("|"))
        for name in types.split():
            yield name, tuple(figures)
