"""Whether a set is fed straight off the line: a transformer or a capacitor between keeps its direct current away."""

import pytest

from netcheck.electrical.mains.off_the_line import is_off_the_line
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

SUPPLY = "electrolytic C1 47 mfd 250 V\nresistor R1 22k\nnet B+: D1.cathode, C1+, R1.1\n"
BEHIND = "transformer T1\nwinding T1 primary 1 2 117 V\nwinding T1 high 3 4 117 V\ndiode D1 1N4007\n"
BEHIND += "net a: P1.1, T1.1{a}\nnet b: P1.2, T1.2{b}\nnet high: T1.3, D1.anode{high}\nnet c: T1.4, C1-, R1.2{c}\n"
STRAIGHT = "diode D1 1N4007\n{between}net a: P1.1, {first}\nnet in: {last}, D1.anode\nnet b: P1.2, C1-, R1.2\n"
HEATER = "tube V1 50L6GT\nresistor R1 560 ohm\nnet a: P1.1, R1.1\nnet h: R1.2, V1.2\nnet b: V1.7, P1.2\n"


def _between(part: str, first: str, last: str) -> str:
    return f"{STRAIGHT.format(between=part, first=first, last=last)}{SUPPLY}"


def _behind(extra: str = "", **nets: str) -> str:
    ends = dict.fromkeys(("a", "b", "high", "c"), "") | {name: f", {points}" for name, points in nets.items()}
    return f"{BEHIND.format(**ends)}{extra}{SUPPLY}"


SETS = {
    "a rectifier behind a resistor": (_between("resistor R2 33 ohm\n", "R2.1", "R2.2"), True),
    "behind a fuse": (_between("fuse F1 1 A\n", "F1.1", "F1.2"), True),
    "a heater alone": (HEATER, True),
    "behind a capacitor": (_between("capacitor C2 1 mfd 250 V\n", "C2.1", "C2.2"), False),
    "behind a transformer": (_behind(), False),
    # Pins of a plug are not joined, nor are the lugs of a strip.
    "that and a plug": (_behind("plug J2 4 pins\n", a="J2.1", b="J2.2", high="J2.3", c="J2.4"), False),
    "that and a strip": (_behind("strip TS1 4 lugs\n", a="TS1.1", b="TS1.2", high="TS1.3", c="TS1.4"), False),
    # One side of the line on the other side of the transformer feeds nothing.
    "that and one side joined": (_behind("resistor R9 1 ohm\nwire R9.1 to P1.2\n", c="R9.2"), False),
    "that and both sides joined": (
        _behind("resistor R9 1 ohm\nresistor R8 1 ohm\nwire R9.1 to P1.2\nwire R8.1 to P1.1\n", c="R9.2", high="R8.2"),
        True,
    ),
    "no cord": (_between("resistor R2 33 ohm\n", "R2.1", "R2.2").replace("P1.", "J1."), False),
}


@pytest.mark.parametrize("name", SETS)
def test_what_is_fed_off_the_line(name: str) -> None:
    text, fed = SETS[name]
    inlet = "plug J1 2 pins" if "J1." in text else "cord P1"
    assert is_off_the_line(CircuitGraph(circuit(f"mains 117 V 60 Hz\n{inlet}\n{text}"))) is fed
