"""A capacitor keeps its charge after the plug is pulled: nothing in the circuit empties it.

No path of resistors, chokes and windings leads from one end to the other, as the switches are drawn: tubes that
have cooled draw nothing. It tells of what nobody expects: a capacitor of paper or film that holds a tenth of a
joule at more than 60 V, and any that holds more than 600 V and is not to be touched: from 0.1 mfd up, and a smaller
one of more than 45 microcoulombs, as .05 mfd from 900 V on. (.01 mfd has them only from 4500 V on.) Everybody knows
that the electrolytics of a common set have to be discharged; `netcheck supply` lists every one, with how long it
takes as the switches stand and with the worst thing open: a standby switch, a fuse in B+, a resistor, a choke or
field coil, a winding, a speaker.

Wrong:

    mains 120 V 60 Hz
    cord P1
    transformer T1
    winding T1 primary black-a black-b 120 V 10 ohm
    winding T1 high red-a red-b 120 V 20 ohm
    diode D1 1000 V 1 A
    capacitor C1 16 mfd 400 V
    tube V1 6J5
    resistor R1 22k 5 W
    net line-a: P1.1, T1.black-a
    net line-b: P1.2, T1.black-b
    net high: T1.red-a, D1.anode
    net B+: D1.cathode, C1.1, R1.1
    net plate: R1.2, V1.plate
    net ground: chassis, T1.red-b, C1.2, V1.cathode, V1.heater-1, V1.heater-2
    spare V1.grid "not of interest"

Right:

    mains 120 V 60 Hz
    cord P1
    transformer T1
    winding T1 primary black-a black-b 120 V 10 ohm
    winding T1 high red-a red-b 120 V 20 ohm
    diode D1 1000 V 1 A
    capacitor C1 16 mfd 400 V
    resistor R1 22k 5 W
    net line-a: P1.1, T1.black-a
    net line-b: P1.2, T1.black-b
    net high: T1.red-a, D1.anode
    net B+: D1.cathode, C1.1, R1.1
    net ground: chassis, T1.red-b, C1.2, R1.2

Source: 60 V of direct current as the limit of touch, IEC/EN 61010-1; 0.1 mfd up to 450 V, 45 microcoulombs to 15 kV
and 350 mJ above, IEC 60335-1 8.1.4.
"""

from collections.abc import Iterator
from math import isfinite
from typing import TYPE_CHECKING

from netcheck.core.caution import DISCHARGE
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.electrical.network.supplies import is_driven, translated
from netcheck.engine.headline import fitting
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph

if TYPE_CHECKING:
    from netcheck.electrical.network.elements import Capacitor

COMMON_VOLTS = 600.0  # up to which the electrolytics of receivers go on a high line
HARMFUL_JOULES = 0.1  # a third of what IEC 60335-1 lets be touched at the highest volts


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    if not is_driven(graph):
        return
    from netcheck.electrical.emptied import charged, emptied
    from netcheck.electrical.stress import charges
    from netcheck.electrical.study import missing

    if missing(graph):
        return
    volts, elements = charges(graph), translated(graph).network.elements
    bounded = [one for one in charged(graph, volts) if isfinite(volts[one.name])]
    unexpected = [one for one in bounded if _is_unexpected(one, abs(volts[one.name]))]
    empty = emptied((*elements, *unexpected))
    held = [one for one in unexpected if one.name not in empty]
    if not held:
        return
    names = [one.name for one in held]
    most = max(abs(volts[name]) for name in names)
    what = f"may hold {most:.0f} V and nothing empties"
    every = f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else names[0]
    them = "them" if len(names) > 1 else "it"
    yield Finding(
        fitting(f"{every} {what} {them}", f"{names[0]} and {len(names) - 1} more {what} them"),
        tuple(Label(place) for place in dict.fromkeys(graph.circuit.parts[name].place for name in names)),
        do=f"discharge each by hand ({DISCHARGE}); a bleeder across B+ would do it",
        why="calculated (the highest voltage running, cold or at switch-on): no resistance leads from end to end",
        touched=Touched((), tuple(names)),
    )


def _is_unexpected(one: "Capacitor", volts: float) -> bool:
    return volts > COMMON_VOLTS or (not one.polarised and one.farads * volts**2 / 2 > HARMFUL_JOULES)


RULE = Rule("stays-charged", Grade.NOTE, _check, __doc__, About.DESIGN)
