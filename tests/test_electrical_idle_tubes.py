"""A tube whose cathode and screen were typed on each other's pins is within every rating, and carries nothing.

By Kirchhoff: what hangs on one point of a circuit alone carries no current, and the plate's way leads to that point.
"""

import pytest

from tests.paper import checked

SET = """state rewired
mains 117 V 60 Hz
cord P1
fuse F1 1 A slow
transformer T1
winding T1 primary black-a black-b 117 V 5 ohm
winding T1 high red-a red-b 200 V 60 ohm
winding T1 heater green-a green-b 6.3 V
diode D1 1N4007
tube V1 6V6GT
resistor R2 240 ohm 1 W
resistor R3 470 ohm 5 W
electrolytic C1 47 mfd 400 V
electrolytic C2 25 mfd 25 V
net in: P1.1, F1.1
net a: F1.2, T1.black-a
net b: P1.2, T1.black-b
net high: T1.red-a, D1.anode
net B+: D1.cathode, C1+, V1.screen, R3.1
net plate: V1.plate, R3.2
net k: V1.cathode, R2.1, C2+
net h: T1.green-a, V1.2
net ground: chassis, T1.red-b, C1-, C2-, R2.2, T1.green-b, V1.7
spare V1.grid "not of interest"
"""
SWAPPED = SET.replace("V1.screen", "x").replace("V1.cathode", "V1.screen").replace("x", "V1.cathode")
TOLD = (
    "NO CURRENT flows through V1 (cathode at 282 V): its cathode and its plate are fed from the same point; "
    "check whether electrodes are on each other's pins"
)


def told(text: str) -> list[str]:
    report = checked(text)
    assert report.built
    return [line for line in report.closing if line.startswith("NO CURRENT")]


@pytest.mark.parametrize("grid", ["spare", "on a resistor"])
def test_cathode_and_screen_on_each_others_pins_are_told(grid: str) -> None:
    text = SWAPPED
    if grid == "on a resistor":
        text = text.replace(
            'spare V1.grid "not of interest"', "resistor R4 470k\nnet g: V1.grid, R4.1\nat ground: R4.2"
        )
    assert told(text) == [TOLD]


FOLLOWER = SET.replace("V1.plate, R3.2", "R3.2").replace("V1.screen, R3.1", "V1.screen, V1.plate, R3.1")
NO_PLATE = SWAPPED.replace("V1.plate, R3.2", "R3.2").replace('"not of interest"', '"not yet"\nspare V1.plate "not yet"')
COUPLED = (
    SWAPPED.replace("V1.plate, R3.2", "R3.2") + "capacitor C3 .01 mfd 600 V\nnet p: V1.plate, C3.1\nat ground: C3.2\n"
)


@pytest.mark.parametrize(
    "text",
    [
        SET,
        FOLLOWER,
        SWAPPED.replace("winding T1 high red-a red-b 200 V", "winding T1 high red-a red-b"),
        NO_PLATE,
        COUPLED,
    ],
    ids=["as it should be", "a cathode follower", "nothing is calculated", "no plate", "a plate behind a capacitor"],
)
def test_a_tube_that_conducts_or_of_which_nothing_is_known_is_not(text: str) -> None:
    assert told(text) == []


def test_two_are_told_in_one_line() -> None:
    two = "tube V2 6J5\nresistor R9 22k 1/2 W\nat B+: V2.cathode, R9.1\nnet p2: R9.2, V2.plate\nat ground: V2.2\n"
    two += 'at h: V2.7\nspare V2.grid "not of interest"\n'
    (said,) = told(SWAPPED + two)
    assert said.startswith("NO CURRENT flows through V1 (cathode at 282 V) and V2 (cathode at 282 V): their cathodes ")
    assert " and their plates are fed from the same point; " in said


@pytest.mark.parametrize(("bias", "volts"), [("100 ohm", ""), ("240 ohm", "12 V")])
def test_a_tube_on_a_point_near_the_common_is_left(bias: str, volts: str) -> None:
    """Its plate and cathode on a bias point of some volts: nobody takes that for a supply."""
    low = "tube V2 6J5\nresistor R9 22k 1/2 W\nat k: V2.cathode, R9.1\nnet p2: R9.2, V2.plate\nat ground: V2.2\n"
    low += 'at h: V2.7\nspare V2.grid "not of interest"\n'
    said = "".join(told(SET.replace("R2 240 ohm", f"R2 {bias}") + low))
    assert said.partition("(cathode at ")[2].partition(")")[0] == volts


def test_of_more_than_five_the_last_are_counted() -> None:
    more = "".join(
        f"tube V{n} 6J5\nresistor R{n}9 22k 1/2 W\nat B+: V{n}.cathode, R{n}9.1\nnet p{n}: R{n}9.2, V{n}.plate\n"
        f'at ground: V{n}.2\nat h: V{n}.7\nspare V{n}.grid "not of interest"\n'
        for n in range(2, 8)
    )
    (said,) = told(SWAPPED + more)
    assert ", V4 (cathode at 282 V) and 3 more: their cathodes" in said
