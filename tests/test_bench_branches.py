"""What two probes find in each kind of part, of a good one at least and at most, and what is said to be open."""

from math import inf

import pytest

from netcheck.bench.branches import Makes, branches_of, open_parts
from tests.paper import circuit

OHMS, JUNCTION, CAPACITOR = Makes.OHMS, Makes.JUNCTION, Makes.CAPACITOR
Way = tuple[str, str, str, Makes, float, float | None, float]

# A part as typed | its ways: name, ends, what they make, least, nominal and most ohms. Limits are common practice:
# 20 % where nothing is printed, a cold filament from a twentieth of its hot ohms, a voice coil from 0.6 of what may be
# its impedance, halves of a winding that are never equal, a control's end within a fiftieth.
WAYS: dict[str, list[Way]] = {
    "resistor X1 1k 1 W": [("X1", "1", "2", OHMS, 800, 1000, 1200)],
    "resistor X1 1k 5%": [("X1", "1", "2", OHMS, 950, 1000, 1050)],
    "resistor X1": [("X1", "1", "2", OHMS, 0, None, inf)],
    "candohm X1 200 ohm 30 ohm": [
        ("X1 1 to 2", "1", "2", OHMS, 160, 200, 240), ("X1 2 to 3", "2", "3", OHMS, 24, 30, 36),
    ],
    "lamp X1 6.3 V 150 mA": [("X1", "1", "2", OHMS, 2.1, 5.25, 42)],
    "lamp X1 6.3 V": [("X1", "1", "2", OHMS, 0, None, inf)],
    "lamp X1 150 mA": [("X1", "1", "2", OHMS, 0, None, inf)],
    "fuse X1 1 A": [("X1", "1", "2", OHMS, 0, 0.1, 10)],
    "choke X1 8 H 200 ohm": [("X1", "1", "2", OHMS, 160, 200, 240)],
    "choke X1 8 H": [("X1", "1", "2", OHMS, 0, None, inf)],
    "speaker X1 3.2 ohm": [("X1", "1", "2", OHMS, 1.92, 3.2, 3.84)],
    "speaker X1": [("X1", "1", "2", OHMS, 0, None, inf)],
    "switch X1": [("X1 1 to 2", "1", "2", OHMS, 0, 0.05, 1)],
    "switch X1 drawn radio\nposition X1 radio: 1 2, 4 5\nposition X1 phono: 1 3, 4 6": [
        ("X1 1 to 2", "1", "2", OHMS, 0, 0.05, 1), ("X1 4 to 5", "4", "5", OHMS, 0, 0.05, 1),
    ],
    "switch X1\nposition X1 on: 1 2": [],
    "pot X1 500k": [("X1 ccw to wiper", "ccw", "wiper", OHMS, 0, 0.05, 1e4), ("X1", "ccw", "cw", OHMS, 4e5, 5e5, 6e5)],
    "pot X1": [("X1 ccw to wiper", "ccw", "wiper", OHMS, 0, None, inf), ("X1", "ccw", "cw", OHMS, 0, None, inf)],
    "rheostat X1 30 ohm": [("X1", "1", "wiper", OHMS, 24, 30, 36)],
    "transformer X1 grounded": [],
    "transformer X1\nwinding X1 high red-a tap red-b 250-0-250 V 180 ohm\nwinding X1 heater green-a green-b 6.3 V": [
        ("X1 high 1", "red-a", "tap", OHMS, 45, 90, 135), ("X1 high 2", "tap", "red-b", OHMS, 45, 90, 135),
        ("X1 heater", "green-a", "green-b", OHMS, 0, None, inf),
    ],
    "transformer X1\nwinding X1 primary black-a black-b 117 V 6 ohm": [
        ("X1 primary", "black-a", "black-b", OHMS, 4.8, 6, 7.2),
    ],
    "diode X1 1N4007": [("X1", "anode", "cathode", JUNCTION, inf, inf, inf)],
    "selenium X1 130 V 100 mA": [("X1", "-", "+", JUNCTION, 1e4, inf, inf)],
    "selenium X1 130 V 75 mA bridge": [
        (f"X1 {a} to {b}", a, b, JUNCTION, 1e4, inf, inf)
        for a, b in (("-", "ac-1"), ("-", "ac-2"), ("ac-1", "+"), ("ac-2", "+"))
    ],
    "electrolytic X1 10 mfd 50 V": [("X1", "+", "-", CAPACITOR, 5e4, inf, inf)],
    "capacitor X1 .01 mfd paper": [("X1", "1", "2", CAPACITOR, 1e6, inf, inf)],
    "capacitor X1 .01 mfd film": [("X1", "1", "2", CAPACITOR, inf, inf, inf)],
    "battery X1 90 V": [],
}  # fmt: skip
OPEN = {
    "battery X1 90 V": "X1 (battery) out",
    "switch X1\nposition X1 on: 1 2": "X1: its position is not said, all its contacts are taken as open",
}


@pytest.mark.parametrize("typed", WAYS)
def test_what_a_meter_finds_in_a_good_part(typed: str) -> None:
    part = circuit(f"state rewired\n{typed}\nresistor R9 1k\nnet a: R9.1\n").parts["X1"]
    found = [*branches_of(part, tubes_in=True)]
    assert [(one.name, one.a, one.b, one.makes) for one in found] == [way[:4] for way in WAYS[typed]]
    for one, (*_, low, nominal, high) in zip(found, WAYS[typed], strict=True):
        assert one.part == "X1"
        assert (one.low, one.high) == pytest.approx((low, high))
        assert one.ohms == (None if nominal is None else pytest.approx(nominal))
        assert one.polarised is typed.startswith(("diode", "selenium", "electrolytic"))
    assert open_parts(part) == OPEN.get(typed, "")
