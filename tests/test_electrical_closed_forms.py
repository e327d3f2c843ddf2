"""Small pieces of the engine against formulas and against networkx: laws, the least ohms, what is emptied, fuses."""

from random import Random

import networkx as nx
import pytest

from netcheck.electrical.emptied import charged, emptied
from netcheck.electrical.fuses import SOLD, fuse_for
from netcheck.electrical.network.elements import Capacitor, Conduction, Element, Inductor, Resistor, VoltageSource
from netcheck.electrical.network.laws import gas, selenium, silicon, vacuum
from netcheck.electrical.network.least_ohms import least_ohms
from netcheck.model.graph import CircuitGraph
from tests import paper
from tests.circuits import circuit


def _drop(law: Conduction, amperes: float) -> float:
    """The volts at a current, along the straight segments and on past the last."""
    for (low, start), (high, end) in zip(law.corners, law.corners[1:], strict=False):
        if amperes <= end or (high, end) == law.corners[-1]:
            return low + (high - low) * (amperes - start) / (end - start)
    raise AssertionError


@pytest.mark.parametrize("share", [0.1, 0.25, 0.5, 1.0, 2.0, 4.0, 5.5])
def test_a_tube_follows_the_three_halves_law_up_to_its_pulses(share: float) -> None:
    """A 5Y3 drops 50 V at 125 mA; its pulses are six times as high (Schade 1943)."""
    law = vacuum(50.0, 0.125)
    highest = 50.0 * 6 ** (2 / 3)
    assert _drop(law, 0.125 * share) == pytest.approx(50.0 * share ** (2 / 3), abs=0.0175 * highest)
    assert _drop(vacuum(100.0, 0.125), 0.125 * share) == pytest.approx(2 * _drop(law, 0.125 * share))
    assert _drop(vacuum(50.0, 0.25), 0.25 * share) == pytest.approx(_drop(law, 0.125 * share))


@pytest.mark.parametrize(
    ("law", "size", "amperes", "volts"),
    [
        ("silicon", 1, 0.0, 0.7),
        ("silicon", 1, 2.0, 0.8),
        ("silicon", 4, 1.0, 3.0),
        ("selenium", 5, 0.0, 5.0),
        ("selenium", 5, 0.1, 6.5),
        ("gas", 15, 0.0, 15.0),
        ("gas", 15, 0.2, 16.0),
    ],
)
def test_a_plate_drops_its_volts_and_something_by_its_current(
    law: str, size: int, amperes: float, volts: float
) -> None:
    made = {"silicon": lambda: silicon(size), "selenium": lambda: selenium(size), "gas": lambda: gas(size)}
    assert _drop(made[law](), amperes) == pytest.approx(volts)
    assert silicon() == silicon(1)


@pytest.mark.parametrize(
    ("volts", "names"),
    [
        ({"C1": 60.0, "C2": 60.1, "C3": 500.0}, ["C2"]),
        ({"C1": -60.1, "C2": -60.0, "C3": 500.0}, ["C1"]),
        ({"C1": 100.0, "C2": 100.0, "R1": 100.0}, ["C1", "C2"]),
        ({}, []),
    ],
)
def test_a_charge_that_can_hurt_is_over_60_v_in_a_tenth_of_a_microfarad(
    volts: dict[str, float], names: list[str]
) -> None:
    text = "mains 117 V 60 Hz\ncord P1\ndiode D1 1N4007\nelectrolytic C1 8 mfd\ncapacitor C2 .1 mfd\n"
    text += "capacitor C3 .09 mfd\nresistor R1 22k\nnet a: P1.1, D1.anode\nnet k: D1.cathode, C1+, C2.1, C3.1, R1.1\n"
    text += "net ground: chassis, P1.2, C1-, C2.2, C3.2, R1.2\n"
    assert sorted(one.name for one in charged(CircuitGraph(paper.circuit(text)), volts)) == names


@pytest.mark.parametrize("seed", range(30))
def test_the_least_ohms_are_those_of_the_shortest_path(seed: int) -> None:
    rng = Random(seed)  # noqa: S311 - repeatable, not secret
    count = rng.randint(2, 12)
    edges = [(rng.randrange(count), rng.randrange(count), rng.randint(0, 9)) for _ in range(rng.randint(1, 2 * count))]
    paths: dict[int, list[tuple[int, float]]] = {}
    graph = nx.MultiGraph()
    graph.add_nodes_from(range(count))
    for a, b, ohms in edges:
        paths.setdefault(a, []).append((b, ohms))
        paths.setdefault(b, []).append((a, ohms))
        graph.add_edge(a, b, weight=ohms)
    sources = rng.sample(range(count), rng.randint(1, 2))
    assert least_ohms(paths, sources) == nx.multi_source_dijkstra_path_length(graph, set(sources))


@pytest.mark.parametrize("seed", range(40))
def test_what_is_emptied_has_a_way_from_end_to_end(seed: int) -> None:
    """Resistors, chokes and windings that stay where they are empty a capacitor, nothing else does."""
    rng = Random(seed)  # noqa: S311 - repeatable, not secret
    count = rng.randint(2, 14)
    graph, elements = nx.Graph(), list[Element]()
    graph.add_nodes_from(range(count))
    for at in range(rng.randint(1, count + 3)):
        a, b, kind = rng.randrange(count), rng.randrange(count), rng.choice("RLWUCC")
        if kind == "C":
            elements.append(Capacitor(f"C{at}", a, b, 1e-6))
            continue
        made: dict[str, Element] = {
            "R": Resistor(f"R{at}", a, b, 1e3),
            "L": Inductor(f"L{at}", a, b, 5.0, 100.0),
            "W": VoltageSource(f"W{at}", a, b, 9.0, 60.0, 1.0, stays=True),
            "U": VoltageSource(f"U{at}", a, b, 9.0, 60.0, 1.0, stays=False),
        }
        elements.append(made[kind])
        if kind != "U":
            graph.add_edge(a, b)
    expected = {e.name for e in elements if isinstance(e, Capacitor) and nx.has_path(graph, e.plus, e.minus)}
    assert emptied(elements) == expected


def test_a_rectifier_or_a_tube_empties_nothing() -> None:
    assert emptied(circuit("E C1 k 0\nD D1 0 k\nT V1 k 0\nJ load k 0 0.01\nG VR1 k 0 150").elements) == frozenset()


@pytest.mark.parametrize("at", range(len(SOLD)))
def test_a_fuse_is_the_least_that_carries_half_as_much_again(at: int) -> None:
    assert fuse_for(SOLD[at] / 1.5 * 0.999) == SOLD[at]
    assert fuse_for(SOLD[at] / 1.5 * 1.001) == SOLD[min(at + 1, len(SOLD) - 1)]
    assert list(SOLD) == sorted(SOLD)
    assert fuse_for(0.5) == 0.75
