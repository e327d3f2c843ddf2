"""What the sweep charges and what an output tube's cathode feeds: nobody's figure, unless the file states it.

With the tube's own current stated a stacked line is Kirchhoff's law: what comes through R2 and the cathode flows out.
"""

from math import isnan

import pytest

from netcheck.electrical.shared_out import say_fed, say_pumped
from netcheck.electrical.table.supply import supply
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

SET = """state drawn
mains 117 V 60 Hz
cord P1
transformer T1
winding T1 primary black-a black-b 117 V 5 ohm
winding T1 high red-a red-b 200 V 60 ohm
diode D1 1N4007
electrolytic C1 100 mfd 400 V
resistor R1 10k 20 W
net a: P1.1, T1.black-a
net b: P1.2, T1.black-b
net high: T1.red-a, D1.anode
net B+: D1.cathode, C1+, R1.1
net ground: chassis, T1.red-b, C1-, R1.2
"""
DAMPER = """tube V1 6AX4GT
transformer T2 "flyback"
winding T2 all 1 2 3 20 ohm
capacitor C3 .1 mfd 1000 V
resistor R3 2.2 meg 1/2 W
resistor R4 1 meg 1/2 W
resistor R5 470k 1/2 W
net B+: V1.5, C3.2
net boost: V1.3, T2.1, C3.1, R3.1
net height: R3.2, R4.1
net small: R4.2, R5.1
net ground: R5.2
"""
STACK = """tube V2 6W6GT
resistor R10 470k 1/2 W
resistor R11 100 ohm 1 W
resistor R2 10k 5 W
resistor R12 22k 5 W
electrolytic C2 40 mfd 400 V
transformer T3 "output"
winding T3 primary blue red 250 ohm
net grid: V2.5, R10.1
net cathode: V2.8, R11.1
net B+: V2.4, T3.red, R2.1
net plate: V2.3, T3.blue
net B+3: R11.2, R10.2, R2.2, R12.1, C2+
net ground: R12.2, C2-
"""


def graph_of(text: str) -> CircuitGraph:
    return CircuitGraph(circuit(SET + text))


def running_of(text: str) -> dict[str, float]:
    return {row.name: row.running for row in supply(graph_of(text)).lines}


def test_what_a_damper_charges_has_no_running_figure_and_all_else_has() -> None:
    volts = running_of(DAMPER)
    assert {name for name, each in volts.items() if isnan(each)} == {"boost", "height", "small"}
    assert volts["B+"] == pytest.approx(285, rel=0.1)
    assert "supply boost to B+ ... V" in say_pumped(graph_of(DAMPER))


def test_with_its_volts_stated_the_boost_is_told() -> None:
    text = DAMPER + 'supply boost to B+ 250 V "of the sheet"\n'
    volts = running_of(text)
    assert volts["boost"] == pytest.approx(volts["B+"] + 250, rel=0.01)
    assert volts["small"] == pytest.approx(volts["boost"] * 470 / 3670, rel=0.01)
    assert not say_pumped(graph_of(text))


def test_a_bleeder_from_the_boost_leaves_the_line_that_the_supply_holds() -> None:
    volts = running_of(DAMPER + "resistor R6 1 meg 1 W\nnet boost: R6.1\nnet B+: R6.2\n")
    assert isnan(volts["boost"])
    assert not isnan(volts["B+"])


def test_a_detector_is_no_damper() -> None:
    detector = """tube V1 6AL5
resistor R3 220k 1/2 W
resistor R4 22k 1/2 W
net bias: V1.1, R3.1, R4.1
net det: V1.7
net ground: R4.2
net B+: R3.2
"""
    assert running_of(detector)["bias"] == pytest.approx(285 * 22 / 242, rel=0.1)
    assert not say_pumped(graph_of(detector))


def test_a_line_that_a_cathode_feeds_has_no_running_figure() -> None:
    volts = running_of(STACK)
    assert {name for name, each in volts.items() if isnan(each)} == {"B+3", "cathode", "grid"}
    assert "`draws plate ... mA`" in say_fed(graph_of(STACK))


def test_with_the_plate_current_stated_it_has() -> None:
    text = STACK + "draws plate 20 mA\ndraws B+3 30 mA\n"
    volts = running_of(text)
    screen = 0.004  # of the tube, as usual
    inflow = 0.020 + screen + (volts["B+"] - volts["B+3"]) / 10_000
    assert inflow == pytest.approx(0.030 + volts["B+3"] / 22_000, rel=0.01)
    assert not say_fed(graph_of(text))


def test_a_tail_without_a_filter_is_taken_at_the_usual_current() -> None:
    text = STACK.replace("electrolytic C2 40 mfd 400 V\n", "").replace(", C2+", "").replace(", C2-", "")
    assert not isnan(running_of(text)["B+3"])
    assert not say_fed(graph_of(text))


def test_a_damper_has_no_row_among_rectifiers() -> None:
    """Its inverse volts come in pulses that no figure of the supply has: none is not what it sees."""
    assert [row.name for row in supply(graph_of(DAMPER)).rectifiers] == ["D1"]
