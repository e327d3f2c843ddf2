"""Random supplies: the engine finds where they repeat themselves, Kirchhoff's laws hold for means, and it is quick."""

import time
from random import Random

import pytest

from netcheck.electrical.network.elements import Capacitor, Inductor, Load, Network, Resistor, VoltageSource
from netcheck.electrical.running.steady import Steady, steady
from tests.supplies import FRONTS, Bench, Drive, random_supply

GROUPS = 15
GROUP = 20
LOAD_KNEE = 60.0  # volts: above every knee that the supplies have


def supplies(group: int) -> list[Network]:
    return [random_supply(Random(f"{group} {at}")) for at in range(GROUP)]  # noqa: S311 - trials are repeated


@pytest.mark.parametrize("group", range(GROUPS))
def test_every_random_supply_converges(group: int) -> None:
    for network in supplies(group):
        found = steady(network)
        assert found.converged, network
        assert_means(network, found)


def assert_means(network: Network, found: Steady) -> None:
    """A mean capacitor current is none, a mean choke voltage is its resistance's, and no rectifier conducts back."""
    volts = sum(one.peak for one in network.elements if isinstance(one, VoltageSource))
    for one in found.capacitors:
        assert one.amperes.mean == pytest.approx(0.0, abs=1e-6 * max(one.amperes.rms, 1e-4))
        assert one.volts.low <= one.volts.mean <= one.volts.high
    chokes = [one for one in network.elements if isinstance(one, Inductor)]
    for choke, heat in zip(chokes, found.inductors, strict=True):
        across = found.nodes[choke.a] - found.nodes[choke.b]
        assert across == pytest.approx(choke.ohms * heat.amperes.mean, abs=1e-6 * volts)
    resistors = [one for one in network.elements if isinstance(one, Resistor)]
    for resistor, heat in zip(resistors, found.resistors, strict=True):
        across = found.nodes[resistor.a] - found.nodes[resistor.b]
        assert across == pytest.approx(resistor.ohms * heat.amperes.mean, abs=1e-6 * volts)
    assert all(one.amperes.mean > -2e-9 * volts for one in found.rectifiers)  # what leaks


@pytest.mark.parametrize("kind", sorted(FRONTS))
def test_the_rectifiers_give_what_the_loads_draw(kind: str) -> None:
    bench = Bench(Random(kind), negative=False, hertz=50.0)  # noqa: S311 - trials are repeated
    drive = Drive(300.0, 20.0, 0.04, bench.law(0.04))
    out = FRONTS[kind](bench, drive)
    kept = [one for one in bench.elements if not (isinstance(one, Resistor) and 0 in (one.a, one.b))]
    found = steady(Network(bench.count, (*kept, Load("V", out, 0, 0.04))))
    assert found.nodes[out] > LOAD_KNEE
    fed = [one.amperes.mean for one in found.rectifiers]
    share = 2 if kind in ("centre-tap", "bridge") else 1
    assert fed == pytest.approx([0.04 / share] * len(fed), rel=1e-4)


def chain(sections: int) -> Network:
    """A full-wave supply with a choke, and then resistors and capacitors, each feeding a tube."""
    bench = Bench(Random("chain"), negative=False, hertz=60.0)  # noqa: S311 - trials are repeated
    out = FRONTS["centre-tap"](bench, Drive(495.0, 100.0, 0.125, bench.law(0.125)))
    middle = bench.node()
    bench.choke(out, middle, 10.0, 200.0)
    bench.capacitor(middle, 0, 20e-6)
    for at in range(sections):
        node = bench.node()
        bench.resistor(middle if at % 3 == 0 else node - 1, node, 4700.0)
        bench.capacitor(node, 0, 10e-6)
        bench.load(node, 0, 0.001)
    return Network(bench.count, tuple(bench.elements))


@pytest.mark.parametrize("reactive", [15, 30])
def test_a_long_chain_of_filters_settles(reactive: int) -> None:
    """How long it takes is told by ``python -m tests.benchmarks.supplies``: no test fails on a clock."""
    network = chain(reactive - 3)
    assert sum(isinstance(one, Capacitor | Inductor) for one in network.elements) == reactive
    assert steady(network).converged


def timed(network: Network) -> float:
    start = time.perf_counter()
    assert steady(network).converged
    return time.perf_counter() - start
