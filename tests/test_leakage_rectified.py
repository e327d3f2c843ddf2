"""Rectifiers on the way of the line, missing values, and more switches than can be tried: what reaches the chassis."""

import math

import pytest

from netcheck.electrical.mains.leakage import LIMIT, leaks
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit
from tests.test_electrical_leakage import leak_of

BRIDGE = """
mains 120 V 60 Hz
cord P1{kind}
selenium SE1 130 V 100 mA bridge
{between}
net a: {hot}, SE1.ac-1
net b: {cold}, SE1.ac-2
net minus: SE1-, {near}
net frame: chassis, {far}
"""


@pytest.mark.parametrize(
    ("between", "ends"),
    [("resistor X1 2.2k", "12"), ("choke X1 20 H 2000 ohm", "12"), ("coil X1 2 mH 2000 ohm", "12")],
)
def test_a_rectifier_is_a_way_of_the_line_wherever_it_lies(between: str, ends: str) -> None:
    near, far = (f"X1.{end}" for end in ends)
    text = BRIDGE.format(kind="", hot="P1.1", cold="P1.2", between=between, near=near, far=far)
    assert leak_of(text).amperes > 10 * LIMIT
    assert {"X1", "SE1"} <= set(leak_of(text).parts)


@pytest.mark.parametrize(("near", "far"), [("R1.1", "R1.2"), ("R1.2", "R1.1")])
@pytest.mark.parametrize("between", ["", "fuse F1 1 A"], ids=["straight", "through a fuse"])
def test_the_direct_current_of_a_bleeder_is_the_peak_by_its_ohms(near: str, far: str, between: str) -> None:
    text = f"""
        mains 120 V 60 Hz
        cord P1 polarized
        {between}
        diode D1 1000 V 1 A
        electrolytic C1 40 mfd 250 V
        resistor R1 220k
        net hot: P1.hot, D1.anode
        net B+: D1.cathode, C1+, {near}
        net bus: P1.neutral, C1-
        net {"low: F1.1" if between else "frame: chassis"}, {far}
        {"net frame: chassis, F1.2" if between else ""}
    """
    leak = leak_of(text)
    assert leak.amperes == pytest.approx(120 * math.sqrt(2) / 220_050)
    assert leak.direct == pytest.approx(leak.amperes)
    assert [way.part for way in leak.ways] == ["R1"]


def test_a_doubler_makes_twice_the_peak() -> None:
    text = """
        mains 120 V 60 Hz
        cord P1 polarized
        diode D1 1000 V 1 A
        diode D2 1000 V 1 A
        electrolytic C1 40 mfd 250 V
        electrolytic C2 40 mfd 450 V
        resistor R1 470k
        net hot: P1.hot, C1-
        net mid: C1+, D1.cathode, D2.anode
        net B+: D2.cathode, C2+, R1.1
        net bus: P1.neutral, C2-, D1.anode
        net frame: chassis, R1.2
    """
    assert leak_of(text).direct == pytest.approx(2 * 120 * math.sqrt(2) / 470_000, rel=2e-3)


@pytest.mark.parametrize(("part", "word"), [("resistor R2", "ohms"), ("capacitor R2", "mfd"), ("pot R2", "ohms")])
def test_a_value_that_is_missing_is_asked_for_and_no_current_is_made_up(part: str, word: str) -> None:
    ends = ("ccw", "cw") if part.startswith("pot") else ("1", "2")
    text = f"""
        mains 120 V 60 Hz
        cord P1
        resistor R1 22k
        {part}
        net a: P1.1, R1.1
        net b: P1.2, R1.2, R2.{ends[0]}
        net frame: chassis, R2.{ends[1]}
    """
    leak = leak_of(text)
    assert leak.unsaid == (("R2", word),)
    assert leak_of(text.replace(part, f"{part} {'10 meg' if word == 'ohms' else '100 pF'}")).unsaid == ()


def test_of_what_leaks_too_much_already_no_missing_value_is_asked_for() -> None:
    """22k from one side of 120 V pass 5.5 mA, whatever the resistor from the other side has."""
    sides = "mains 120 V 60 Hz\ncord P1\nresistor R1 22k\nresistor R2\nnet a: P1.1, R1.1\nnet b: P1.2, R2.1\n"
    leak = leak_of(f"{sides}net frame: chassis, R1.2, R2.2\n")
    assert leak.amperes == pytest.approx(120 / 22_000)
    assert leak.parts == ("R1",)
    assert leak.unsaid == ()


def test_on_a_direct_line_a_rectifier_passes_what_the_line_has_and_no_peak() -> None:
    line = "mains 110 V DC\ncord P1\ndiode D1 1000 V 1 A\nelectrolytic C1 40 mfd 250 V\nresistor R1 220k\n"
    leak = leak_of(
        f"{line}net a: P1.1, D1.anode\nnet b: P1.2, C1-\nnet c: D1.cathode, C1+, R1.1\nnet f: chassis, R1.2\n"
    )
    assert leak.amperes == pytest.approx(110 / 220_050)


def test_more_switches_than_can_be_tried_together_are_moved_two_at_a_time() -> None:
    count = 13
    switches = "\n".join(f"switch S{n} drawn open\nresistor R{n} 1 meg" for n in range(count))
    nets = "\n".join(f"net t{n}: S{n}.2, R{n}.1" for n in range(count))
    ones, twos = (", ".join(f"{letter}{n}.{end}" for n in range(count)) for letter, end in (("S", 1), ("R", 2)))
    text = f"mains 120 V 60 Hz\ncord P1 polarized\n{switches}\n{nets}\nnet a: P1.hot, {ones}\n"
    leak = leak_of(f"{text}net b: P1.neutral\nnet frame: chassis, {twos}\n")
    assert not leak.complete
    assert leak.amperes == pytest.approx(2 * 120e-6, rel=1e-3)


def test_on_a_direct_line_a_rectifier_is_the_fifty_ohm_it_is_taken_for() -> None:
    direct = "mains 220 V DC\ncord P1 polarized\ndiode D1 1N4007\nresistor R1 100k 1 W\n"
    nets = "net a: P1.hot, D1.anode\nnet b: D1.cathode, R1.1\nnet c: P1.neutral\nnet ground: chassis, R1.2\n"
    assert leak_of(direct + nets).amperes == pytest.approx(220 / 100_050)


def test_without_a_cord_nothing_leaks() -> None:
    assert leaks(CircuitGraph(circuit("resistor R1 1k\nnet a: R1.1\n"))) == ()
