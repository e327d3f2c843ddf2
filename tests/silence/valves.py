"""What the sets' tubes take and drop: heater volts and amperes, plate and screen milliamperes, a rectifier's drop.

From memory of the tube manuals, written down apart from the program's tables.
"""

from collections.abc import Mapping
from dataclasses import dataclass

__all__ = ["VALVES", "Valve"]


@dataclass(frozen=True, slots=True)
class Valve:
    """``drop`` are the volts at ``amperes`` of one plate of a rectifier, 0 for others; currents in amperes."""

    heater_volts: float
    heater_amperes: float
    plate: float = 0.0
    screen: float = 0.0
    drop: float = 0.0
    amperes: float = 0.0


_ROWS = """
5Y3GT   5    2    0     0     50 .125
5U4G    5    3    0     0     44 .225
35Z5GT  35   .15  0     0     21 .2
6SA7    6.3  .3   .0034 .0085 0  0
6SK7    6.3  .3   .0092 .0026 0  0
6SJ7    6.3  .3   .003  .0008 0  0
6SQ7    6.3  .3   .0009 0     0  0
6J5     6.3  .3   .004  0     0  0
6V6GT   6.3  .45  .045  .0045 0  0
6L6     6.3  .9   .06   .005  0  0
6SN7    6.3  .6   .004  0     0  0
12BA6   12.6 .15  .011  .0044 0  0
12BE6   12.6 .15  .003  .007  0  0
12AV6   12.6 .15  .0008 0     0  0
6AV6    6.3  .3   .001  0     0  0
50C5    50   .15  .049  .004  0  0
12AU7   12.6 .15  .004  0     0  0
12SQ7GT 12.6 .15  .0009 0     0  0
50L6GT  50   .15  .049  .004  0  0
"""
VALVES: Mapping[str, Valve] = {
    name: Valve(*map(float, figures)) for name, *figures in (row.split() for row in _ROWS.strip().splitlines())
}
