"""Switching on and pulling the plug, against closed forms."""

import math

import pytest

from netcheck.electrical.network.elements import (
    Capacitor,
    Conduction,
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Resistor,
    VoltageSource,
)
from netcheck.electrical.running.discharge import Discharge, discharge
from netcheck.electrical.running.switch_on import switch_on

SILICON = Conduction(((0.7, 0.0), (0.75, 1.0)))
IDEAL = Conduction(((0.0, 0.0), (1e-5, 1.0)))
MAINS = VoltageSource("line", 1, 0, 100.0, 50.0, 10.0)


def network(*elements: Element) -> Network:
    return Network(1 + max(node for one in elements for node in ends(one)), elements)


def ends(one: Element) -> tuple[int, int]:
    match one:
        case Capacitor(plus=a, minus=b) | VoltageSource(plus=a, minus=b) | Load(plus=a, minus=b):
            return a, b
        case Rectifier(anode=a, cathode=b) | Resistor(a=a, b=b) | Inductor(a=a, b=b):
            return a, b
        case _:
            raise AssertionError(one)


@pytest.mark.parametrize(
    ("farads", "ohms", "volts", "at_60", "at_50"),
    [
        (40e-6, 220e3, 400.0, 16.69, 18.30),
        (100e-6, 100e3, 450.0, 20.15, None),
        (47e-6, 470e3, 350.0, 38.96, None),
        (0.1e-6, 1e6, 170.0, 0.104, None),
    ],
)
def test_a_bleeder(farads: float, ohms: float, volts: float, at_60: float, at_50: float | None) -> None:
    (found,) = discharge(network(Capacitor("C", 1, 0, farads), Resistor("R", 1, 0, ohms)), {"C": volts})
    assert found.seconds == pytest.approx([ohms * farads * math.log(volts / limit) for limit in (60, 50)], rel=1e-7)
    assert found.seconds[0] == pytest.approx(at_60, rel=5e-3)  # RC ln(V0/V)
    assert at_50 is None or found.seconds[1] == pytest.approx(at_50, rel=5e-3)


def test_below_the_limit_from_the_start() -> None:
    (found,) = discharge(network(Capacitor("C", 1, 0, 1e-6), Resistor("R", 1, 0, 1e6)), {"C": -55.0})
    assert found.seconds[0] == 0.0
    assert found.seconds[1] == pytest.approx(math.log(1.1), rel=1e-6)


def test_no_path_never_discharges() -> None:
    supply = network(MAINS, Rectifier("CR", 1, 2, SILICON), Capacitor("C", 2, 0, 40e-6), Load("V", 2, 0, 0.05))
    assert discharge(supply, {"C": 140.0}) == (Discharge("C", (None, None)),)


def test_one_bleeder_open() -> None:
    parts = (Capacitor("C1", 1, 0, 40e-6), Resistor("R1", 1, 2, 1e3), Capacitor("C2", 2, 0, 40e-6))
    bleeders = (Resistor("R2", 2, 0, 100e3), Resistor("R3", 2, 0, 100e3))
    whole = {one.name: one for one in discharge(network(*parts, *bleeders), {"C1": 400.0, "C2": 400.0})}

    def opened(resistor: str) -> dict[str, Discharge]:
        left = (one for one in (*parts, *bleeders) if one.name != resistor)
        found = discharge(network(*left), {"C1": 400.0, "C2": 400.0})
        return {one.name: one for one in found}

    assert whole["C2"].seconds[0] == pytest.approx(51e3 * 80e-6 * math.log(400 / 60), rel=0.03)
    assert opened("R1")["C1"] == Discharge("C1", (None, None))  # it leaves the first capacitor alone
    for bleeder in ("R2", "R3"):
        assert opened(bleeder)["C2"].seconds[0] == pytest.approx(101e3 * 80e-6 * math.log(400 / 60), rel=0.03)


def test_one_capacitor_charges_another_again() -> None:
    """The small one falls at once and comes back: what counts is the last time."""
    parts = (Capacitor("big", 1, 0, 100e-6), Resistor("R1", 1, 2, 100e3), Capacitor("small", 2, 0, 1e-6))
    small = discharge(network(*parts, Resistor("R2", 2, 0, 100e3)), {"big": 300.0})[1]
    assert small.seconds[0] == pytest.approx(100e-6 * 200e3 * math.log(150 / 60), rel=0.02)


def test_a_rectifier_lets_charge_out_one_way_only() -> None:
    parts = (Capacitor("C", 1, 0, 40e-6), Resistor("R", 2, 0, 10e3))
    (out,) = discharge(network(*parts, Rectifier("CR", 1, 2, IDEAL)), {"C": 300.0})
    assert out.seconds[0] == pytest.approx(0.4 * math.log(5), rel=1e-5)
    (held,) = discharge(network(*parts, Rectifier("CR", 2, 1, IDEAL)), {"C": 300.0})
    assert held.seconds == (None, None)


def test_a_winding_is_not_counted_on() -> None:
    """A dead winding would empty the capacitor, an unplugged line would not: the slower is told."""
    assert discharge(network(MAINS, Capacitor("C", 1, 0, 40e-6)), {"C": 300.0})[0].seconds == (None, None)


def test_surge_into_an_empty_capacitor() -> None:
    supply = network(MAINS, Rectifier("CR", 1, 2, IDEAL), Capacitor("C", 2, 0, 1.0))
    found = switch_on(supply, line=1.1, cycles=3)
    assert found.rectifiers[0].amperes == pytest.approx(11.0, rel=1e-3)  # all of the line's peak over 10 ohms
    assert found.rectifiers[0].inverse_volts == pytest.approx(110.0, rel=0.05)


def test_without_a_choke_nothing_overshoots() -> None:
    supply = network(MAINS, Rectifier("CR", 1, 2, IDEAL), Capacitor("C", 2, 0, 50e-6))
    found = switch_on(supply)
    assert found.quiet
    assert 98.0 < found.capacitors[0].high < 100.0


def test_a_choke_overshoots() -> None:
    """A battery behind a choke nearly doubles: 1 + exp(-pi zeta / sqrt(1 - zeta^2)) with zeta = R/2 sqrt(C/L)."""
    battery, choke = VoltageSource("battery", 1, 0, 100.0, 0.0, 0.0), Inductor("L", 1, 2, 10.0, 100.0, 1e9)
    found = switch_on(network(battery, choke, Rectifier("CR", 2, 3, IDEAL), Capacitor("C", 3, 0, 20e-6)))
    zeta = 50 * math.sqrt(20e-6 / 10)
    peak = 100 * (1 + math.exp(-math.pi * zeta / math.sqrt(1 - zeta**2)))
    assert found.capacitors[0].high == pytest.approx(peak, rel=1e-4)


def test_a_doubler_reverses_its_output_at_first() -> None:
    """For the first half cycle the output capacitor is charged the wrong way by no more than the rectifiers drop."""
    line = VoltageSource("line", 1, 0, 165.0, 60.0, 5.0)
    first, second = Rectifier("CR1", 0, 2, SILICON), Rectifier("CR2", 2, 3, SILICON)
    found = switch_on(network(line, Capacitor("C1", 2, 1, 50e-6), first, second, Capacitor("C2", 3, 0, 50e-6)))
    coupling, output = found.capacitors
    assert coupling.low < -50.0
    assert output.low == pytest.approx(0.0, abs=0.1)
    assert output.high == pytest.approx(330.0, rel=0.02)


def test_cold_tubes_draw_nothing_at_switch_on() -> None:
    heated = Rectifier("V1", 1, 2, IDEAL, cold=False)
    supply = network(MAINS, heated, Capacitor("C", 2, 0, 50e-6), Load("V2", 2, 0, 0.05))
    assert switch_on(supply).capacitors[0].high == pytest.approx(0.0, abs=1e-3)
    assert switch_on(supply, warm=True).capacitors[0].high > 50.0
