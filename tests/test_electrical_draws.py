"""Which way a stated current flows on a line above or below the common, and the ohms of a winding that states none."""

import pytest

from netcheck.electrical.drawn import drawn
from netcheck.electrical.network.elements import Load
from netcheck.electrical.network.translate import Translation, network_of
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

SUPPLY = """mains 117 V 60 Hz
cord P1
transformer T1
winding T1 primary p1 p2 117 V
winding T1 high r1 r2 {winding}
diode D1 1N4007
electrolytic C1 40 mfd 450 V
resistor R1 1k 5 W
resistor R2 100 ohm 5 W
electrolytic C2 40 mfd 450 V
net in-a: P1.1, T1.p1
net in-b: P1.2, T1.p2
net x: T1.r1, D1.anode
net B+1: D1.cathode, C1+, R1.1
net B+2: R1.2, C2+
net minus: T1.r2, C1-, R2.1
net ground: chassis, R2.2, C2-
draws B+2 40 mA
"""


def translation(winding: str, more: str = "") -> Translation:
    return network_of(CircuitGraph(circuit(SUPPLY.format(winding=winding) + more)))


@pytest.mark.parametrize(
    ("chart", "ends"),
    [
        ("", ("B+2", "chassis")),
        ("volts B+2 240 V", ("B+2", "chassis")),
        ("volts B+2 -20 V", ("chassis", "B+2")),  # the sheet knows better than the rectifier
        ("volts minus -20 V", ("B+2", "chassis")),  # of another line
        ("volts B+2 to minus -20 V", ("B+2", "chassis")),  # not against the common
        ("volts minus -20 V\nvolts B+2 240 V", ("B+2", "chassis")),
        ("volts B+2 0 V", ("B+2", "chassis")),  # says neither
    ],
)
def test_a_line_draws_from_the_side_that_its_own_chart_says(chart: str, ends: tuple[str, str]) -> None:
    network = translation("250 V 200 ohm", f"{chart}\n").network
    found = [(network.names[one.plus], network.names[one.minus]) for one in network.elements if isinstance(one, Load)]
    assert found == [ends]


@pytest.mark.parametrize(
    ("fed", "ends"),
    [
        ("battery BT1 45 V\nnet A: BT1+, R1.1\nnet ground: BT1-\n", ("B", "chassis")),
        ("battery BT1 45 V\nnet A: BT1-, R1.1\nnet ground: BT1+\n", ("chassis", "B")),
        ("supply A to chassis 45 V\nnet A: R1.1\n", ("B", "chassis")),
        ("supply A to chassis -45 V\nnet A: R1.1\n", ("chassis", "B")),
    ],
)
def test_a_line_behind_a_resistor_lies_where_its_battery_puts_it(fed: str, ends: tuple[str, str]) -> None:
    text = f"resistor R1 1k 5 W\nelectrolytic C1 40 mfd 100 V\n{fed}net B: R1.2, C1+\nnet ground: chassis, C1-\n"
    network = network_of(CircuitGraph(circuit(text + "draws B 5 mA\n"))).network
    found = [(network.names[one.plus], network.names[one.minus]) for one in network.elements if isinstance(one, Load)]
    assert [tuple(name.replace("ground", "chassis") for name in pair) for pair in found] == [ends]


@pytest.mark.parametrize(
    ("winding", "said"),
    [
        ("6.3 V", "T1 high: 0.1 ohm"),
        ("12.6 V", "T1 high: 0.1 ohm"),
        # 3 % of 13 V at 40 mA are 9.75 ohm, as windings are made to fall under their load (common practice).
        ("13 V", "T1 high: 9.75 ohm, 3 % of its volts at 40 mA"),
        ("240 V", "T1 high: 180 ohm, 3 % of its volts at 40 mA"),
    ],
)
def test_a_heaters_winding_is_thick_and_any_other_falls_by_three_hundredths(winding: str, said: str) -> None:
    assert said in translation(winding).defaults


def test_of_a_fuse_that_feeds_nothing_known_no_current_is_told() -> None:
    fed = "mains 117 V 60 Hz\ncord P1\nfuse F1 1 A\nswitch S1\nnet a: P1.1, F1.1\nnet b: F1.2, S1.1\n"
    battery = "battery BT1 90 V\nresistor R1 1k 5 W\nelectrolytic C1 40 mfd 450 V\n"
    nets = "net B+: BT1+, R1.1\nnet k: R1.2, C1+\nnet ground: chassis, BT1-, C1-\n"
    assert drawn(CircuitGraph(circuit(fed + battery + nets))) is None


DAMPER = """tube V1 6AX4GT
transformer T2 "flyback"
winding T2 all 1 2 3 20 ohm
capacitor C3 .1 mfd 1000 V
net B+2: V1.5, C3.2
net boost: V1.3, T2.1, C3.1
"""


def test_a_line_with_the_plate_of_a_damper_on_it_lies_above_the_common() -> None:
    network = translation("250 V 200 ohm", DAMPER).network
    found = [(network.names[one.plus], network.names[one.minus]) for one in network.elements if isinstance(one, Load)]
    assert found == [("B+2", "chassis")]
