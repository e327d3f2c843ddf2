"""The running supply against closed forms: rectifiers without and with source resistance, chokes, filters, no load."""

import itertools
import math
from collections.abc import Mapping

import pytest

from netcheck.electrical.network.elements import (
    Capacitor,
    Conduction,
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Regulator,
    Resistor,
    VoltageSource,
)
from netcheck.electrical.network.laws import selenium, silicon, vacuum
from netcheck.electrical.running.branches import Condition
from netcheck.electrical.running.steady import Steady, steady, steady_in

HERTZ = 60.0
TURN = 2 * math.pi * HERTZ
IDEAL = Conduction(((0.0, 0.0), (1e-5, 1.0)))
TIGHT = Condition(leak=0.0)
LOADS = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)
SHARES = (0.001, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0)
HUGE = 10.0  # farads


def supply(kind: str, volts: float, ohms: float, farads: float) -> tuple[Element, ...]:
    """A rectifier circuit with its output at node 1; ``volts`` is the peak of what one rectifier is fed with."""

    def source(plus: int, minus: int) -> VoltageSource:
        return VoltageSource("W", plus, minus, volts, HERTZ, ohms)

    def diode(anode: int, cathode: int) -> Rectifier:
        return Rectifier("CR", anode, cathode, IDEAL)

    def cap(plus: int, minus: int) -> Capacitor:
        return Capacitor("C", plus, minus, farads)

    cascade = (source(2, 0), cap(3, 2), diode(0, 3), diode(3, 1), cap(1, 0))
    circuits: Mapping[str, tuple[Element, ...]] = {
        "half-wave": (source(2, 0), diode(2, 1), cap(1, 0)),
        "centre-tap": (source(2, 0), source(0, 3), diode(2, 1), diode(3, 1), cap(1, 0)),
        "bridge": (source(2, 3), diode(2, 1), diode(3, 1), diode(0, 2), diode(0, 3), cap(1, 0)),
        "full-wave doubler": (source(2, 3), diode(2, 1), diode(0, 2), cap(1, 3), cap(3, 0)),
        "half-wave doubler": cascade,
        "tripler": (source(2, 0), cap(3, 2), diode(0, 3), diode(3, 4), cap(4, 0), cap(1, 3), diode(4, 1)),
    }
    return circuits[kind]


def run(*elements: Element, condition: Condition = TIGHT) -> Steady:
    found = steady_in(Network(5, elements), condition)
    assert found.converged
    return found


def without_resistance(load: float, period: float) -> tuple[float, float]:
    """Mean and least volts, the peak being 1: exact for no source resistance."""
    off = math.pi - math.atan(load)
    low, high = 0.0, math.pi / 2
    for _ in range(100):
        on = (low + high) / 2
        early = math.sin(on) < math.sin(off) * math.exp(-(period + on - off) / load)
        low, high = (on, high) if early else (low, on)
    mean = (math.cos(low) - math.cos(off) + load * (math.sin(off) - math.sin(low))) / period
    return mean, math.sin(low)


@pytest.mark.parametrize("load", LOADS)
@pytest.mark.parametrize(("kind", "period"), [("half-wave", 2 * math.pi), ("centre-tap", math.pi), ("bridge", math.pi)])
def test_rectifiers_without_resistance(kind: str, period: float, load: float) -> None:
    mean, least = without_resistance(load, period)
    found = run(*supply(kind, 100.0, 0.0, 50e-6), Resistor("R", 1, 0, load / TURN / 50e-6)).capacitors[0].volts
    assert found.mean / 100 == pytest.approx(mean, abs=1e-6)  # exact for no source resistance
    assert found.swing / 100 == pytest.approx(1 - least, abs=1e-5)


def test_the_closed_form_is_the_table() -> None:
    assert without_resistance(10.0, 2 * math.pi) == pytest.approx(
        (0.7906, 0.5891), abs=5e-5
    )  # exact for no source resistance
    assert with_resistance(0.05, 2.0)[0] * 2 == pytest.approx(1.2909, abs=5e-5)  # exact for a large capacitor


def with_resistance(share: float, k: float) -> tuple[float, float]:
    """Cosine of half the conduction angle, and peak current times the source's ohms, the peak being 1, C large."""
    low, high = 0.0, math.pi / 2
    for _ in range(100):
        half = (low + high) / 2
        low, high = (low, half) if math.tan(half) - half > k * math.pi * share else (half, high)
    return math.cos(low), 1 - math.cos(low)


@pytest.mark.parametrize("share", SHARES)
@pytest.mark.parametrize(
    ("kind", "k", "times"),
    [
        ("half-wave", 1.0, 1),
        ("centre-tap", 0.5, 1),
        ("bridge", 0.5, 1),
        ("full-wave doubler", 2.0, 2),
        ("half-wave doubler", 2.0, 2),
    ],
)
def test_rectifiers_into_a_huge_capacitor(kind: str, k: float, times: int, share: float) -> None:
    found = run(*supply(kind, 100.0, 1000.0 * share, HUGE), Resistor("R", 1, 0, 1000.0))
    cosine, peak = with_resistance(share, k)
    assert found.nodes[1] / 100 == pytest.approx(times * cosine, abs=1e-5)  # exact for a large capacitor
    assert found.rectifiers[0].amperes.high * 10 * share == pytest.approx(peak, abs=1e-5)


@pytest.mark.parametrize(
    ("ohms", "at_60", "at_100"),
    [(22, 150.8, 144.8), (33, 146.2, 138.5), (47, 141.1, 131.3), (68, 134.4, 121.9), (100, 125.4, 109.3),
     (150, 113.1, 92.1)],
)  # fmt: skip
def test_series_resistor_behind_a_rectifier(ohms: float, at_60: float, at_100: float) -> None:
    elements = (VoltageSource("line", 1, 0, 117 * math.sqrt(2), HERTZ, 0.0), Resistor("R", 1, 2, ohms))
    rest = (Rectifier("CR", 2, 3, IDEAL), Capacitor("C", 3, 0, HUGE))
    for amperes, volts in ((0.06, at_60), (0.1, at_100)):
        found = run(*elements, *rest, Load("set", 3, 0, amperes))
        assert found.nodes[3] == pytest.approx(volts, abs=0.06)  # the closed form for a large capacitor
        heat = found.resistors[0]
        assert heat.watts > 3 * heat.amperes.mean**2 * ohms
        assert heat.watts == pytest.approx(heat.amperes.rms**2 * ohms)


@pytest.mark.parametrize(
    ("kind", "times", "inverse"),
    [
        ("half-wave", 1, 2),
        ("centre-tap", 1, 2),
        ("bridge", 1, 1),
        ("full-wave doubler", 2, 2),
        ("half-wave doubler", 2, 2),
        ("tripler", 3, 2),
    ],
)
def test_no_load(kind: str, times: int, inverse: int) -> None:
    found = run(*supply(kind, 100.0, 10.0, 50e-6), condition=Condition(warm=False))
    output = found.nodes[1] / 100 if kind != "tripler" else sum(c.volts.mean for c in found.capacitors[::2]) / 100
    assert output == pytest.approx(times, rel=1e-4)  # ideal rectifiers, less the leakage of rectifiers taken as 1 nS
    assert max(rectifier.inverse_volts for rectifier in found.rectifiers) / 100 == pytest.approx(inverse, rel=1e-4)


def test_no_load_rise_is_for_cold_sets() -> None:
    elements = (VoltageSource("W", 2, 0, 100.0, HERTZ, 10.0, rise=0.05), Rectifier("CR", 2, 1, IDEAL))
    network = Network(3, (*elements, Capacitor("C", 1, 0, 50e-6), Load("V", 1, 0, 0.001)))
    assert steady(network, warm=False, line=1.1).nodes[1] == pytest.approx(115.5, rel=1e-4)
    assert steady(network, line=1.1).nodes[1] < 110.0


def test_choke_input() -> None:
    peak = 350 * math.sqrt(2)
    sources = (VoltageSource("W1", 1, 0, peak, HERTZ, 0.0), VoltageSource("W2", 0, 2, peak, HERTZ, 0.0))
    rectifiers = (Rectifier("V1", 1, 3, IDEAL), Rectifier("V2", 2, 3, IDEAL))
    choke, capacitor = Inductor("L", 3, 4, 20.0, 1e-3, 1e9), Capacitor("C", 4, 0, 20e-6)
    found = run(*sources, *rectifiers, choke, capacitor, Resistor("R", 4, 0, 5000.0))
    assert found.nodes[4] == pytest.approx(2 * peak / math.pi, rel=1e-5)  # 0.9 V_rms, 315.1 V
    assert found.inductors[0].amperes.low > 0  # above the critical 4.42 H of R / (6 pi f)
    factor = math.sqrt(2) / (12 * TURN**2 * 20.0 * 20e-6)
    assert found.capacitors[0].volts.ripple / found.nodes[4] == pytest.approx(factor, rel=0.03)  # 1 / (w^2 L C - 1)
    critical = Inductor("L", 3, 4, 3.0, 1e-3, 1e9)
    assert run(*sources, *rectifiers, critical, capacitor, Resistor("R", 4, 0, 5000.0)).nodes[4] > 316.0


@pytest.mark.parametrize(
    ("hertz", "ohms", "henries", "farads", "ratio"),
    [
        (120.0, 1000.0, 0.0, 40e-6, 0.0331),
        (60.0, 1000.0, 0.0, 30e-6, 0.0881),
        (120.0, 470.0, 0.0, 50e-6, 0.0563),
        (120.0, 0.0, 10.0, 8e-6, 0.02248),
        (120.0, 0.0, 10.0, 16e-6, 0.01112),
        (120.0, 0.0, 10.0, 20e-6, 0.00887),
        (120.0, 0.0, 4.0, 40e-6, 0.01112),
    ],
)
def test_filter_sections(hertz: float, ohms: float, henries: float, farads: float, ratio: float) -> None:
    series = Inductor("L", 1, 2, henries, 30.0, 1e9) if henries else Resistor("R", 1, 2, ohms)
    found = run(VoltageSource("W", 1, 0, 1.0, hertz, 0.0), series, Capacitor("C", 2, 0, farads))
    assert found.capacitors[0].volts.high == pytest.approx(ratio, rel=2e-3)  # 1 / (w^2 L C - 1)


def test_ripple_of_a_constant_current() -> None:
    found = run(*supply("half-wave", 165.46, 0.0, 2000e-6), Load("set", 1, 0, 0.06)).capacitors[0]
    assert found.volts.swing == pytest.approx(0.06 / (HERTZ * 2000e-6), rel=0.05)  # I / (f C), where it is small


def test_three_segments_are_the_vacuum_law() -> None:
    fine = Conduction(tuple((v, 0.125 * (v / 50) ** 1.5) for v in range(0, 210, 5)))
    volts = []
    for law in (vacuum(50, 0.125), fine):
        sources = (VoltageSource("a", 1, 0, 495.0, HERTZ, 100.0), VoltageSource("b", 0, 2, 495.0, HERTZ, 100.0))
        rectifiers = (Rectifier("p", 1, 3, law), Rectifier("q", 2, 3, law))
        volts.append(run(*sources, *rectifiers, Capacitor("C", 3, 0, 20e-6), Load("set", 3, 0, 0.125)).nodes[3])
    assert volts[0] == pytest.approx(volts[1], rel=1e-3)


def test_laws_of_dry_rectifiers() -> None:
    assert silicon().corners == ((0.7, 0.0), (0.75, 1.0))
    assert selenium(5).corners == ((5.0, 0.0), (20.0, 1.0))  # 1 V and 3 ohms a plate, from memory


def test_a_regulator_holds_its_volts() -> None:
    elements = (
        VoltageSource("battery", 1, 0, 200.0, 0.0, 0.0),
        Resistor("R", 1, 2, 5000.0),
        Regulator("V", 2, 0, 105.0),
    )
    found = run(*elements, Capacitor("C", 2, 0, 1e-6))
    assert found.nodes[2] == pytest.approx(105.0, abs=0.05)
    low = run(VoltageSource("battery", 1, 0, 90.0, 0.0, 0.0), *elements[1:], Capacitor("C", 2, 0, 1e-6))
    assert low.nodes[2] == pytest.approx(90.0, abs=1e-3)


def test_a_load_lets_go_below_its_knee() -> None:
    found = run(
        VoltageSource("battery", 1, 0, 10.0, 0.0, 1000.0), Load("V", 1, 0, 0.05, 20.0), Capacitor("C", 1, 0, 1e-6)
    )
    assert found.nodes[1] == pytest.approx(10.0 * 400 / 1400)  # 20 V / 50 mA is 400 ohms


def test_capacitors_in_a_loop() -> None:
    """Two in parallel, one across the line: each gets its share of the current, and none is in the way."""
    line = (VoltageSource("line", 1, 0, 100.0, HERTZ, 0.0), Capacitor("X", 1, 0, 0.1e-6), Rectifier("CR", 1, 2, IDEAL))
    pair = (Capacitor("C1", 2, 0, 20e-6), Capacitor("C2", 2, 0, 30e-6))
    found = run(*line, *pair, Resistor("R", 2, 0, 5 / TURN / 50e-6))
    assert found.nodes[2] / 100 == pytest.approx(without_resistance(5.0, 2 * math.pi)[0], abs=1e-4)
    across, one, other = found.capacitors
    assert across.amperes.rms == pytest.approx(100 / math.sqrt(2) * TURN * 0.1e-6, rel=1e-4)
    assert one.amperes.rms / other.amperes.rms == pytest.approx(2 / 3, rel=1e-2)


def test_what_has_nothing_to_remember() -> None:
    found = run(VoltageSource("W", 1, 0, 100.0, HERTZ, 10.0), Resistor("R", 1, 0, 90.0))
    assert found.resistors[0].amperes.rms == pytest.approx(1 / math.sqrt(2))
    assert found.sources[0].watts == pytest.approx(5.0)


@pytest.mark.parametrize("first", range(3))
def test_sources_in_a_ring_that_cancel_hold_their_nodes_wherever_the_ring_begins(first: int) -> None:
    """10 V, 10 V more, and 20 V back: none has a resistance of its own, and nothing is left round the ring."""
    ring = [
        VoltageSource("W1", 1, 0, 10.0, 0.0, 0.0), VoltageSource("W2", 2, 1, 10.0, 0.0, 0.0),
        VoltageSource("W3", 0, 2, -20.0, 0.0, 0.0),
    ]  # fmt: skip
    found = run(*ring[first:], *ring[:first], Resistor("R", 2, 0, 100.0))
    assert found.nodes[:3] == pytest.approx((0.0, 10.0, 20.0))
    assert found.resistors[0].amperes.mean == pytest.approx(0.2)


def test_mixed_frequencies_do_not_repeat() -> None:
    sources = [VoltageSource("W", node, 0, 10.0, hertz, 1.0) for node, hertz in ((1, 50.0), (2, 60.0))]
    with pytest.raises(ValueError, match="frequencies"):
        steady(Network(3, tuple(itertools.chain(sources))))


def test_a_load_of_no_current_is_insulation_as_that_of_a_cold_tube_is() -> None:
    """A cathode that is cut off hangs on nothing else; 0 mA may be stated."""
    elements = (VoltageSource("W", 1, 0, 100.0, 0.0, 1.0), Load("V1", 1, 2, 0.0), Resistor("R", 2, 0, 1e12))
    nothing, cold = run(*elements), run(*elements, condition=Condition(leak=0.0, warm=False))
    assert nothing.nodes[2] == pytest.approx(cold.nodes[2], rel=1e-9)
    assert nothing.nodes[2] > 1.0


def test_the_current_of_a_source_is_told_where_it_can_be_measured() -> None:
    """Through its resistance; one without resistance is a voltage that is held, and no current is claimed of it."""
    found = run(
        VoltageSource("W1", 1, 0, 100.0, 0.0, 10.0),
        VoltageSource("W2", 2, 0, 50.0, 0.0, 0.0),
        Resistor("R", 1, 2, 90.0),
    )
    assert [one.name for one in found.sources] == ["W1"]
    assert found.sources[0].watts == pytest.approx(0.5**2 * 10.0)
