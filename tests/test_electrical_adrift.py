"""What hangs on capacitors alone lies anywhere between its neighbours: held against leakages drawn at random."""

from random import Random

import numpy as np
import pytest

from netcheck.electrical.network.elements import Capacitor, Element, Network, Rectifier, Resistor
from netcheck.electrical.proof.adrift import Span, adrift, spans
from tests.circuits import SILICON

PAIR = (Resistor("R1", 1, 0, 1e5), Capacitor("C1", 1, 2, 1e-5), Capacitor("C2", 2, 0, 1e-5))


def test_the_middle_of_two_in_series_is_anywhere_between_their_ends() -> None:
    network = Network(3, PAIR)
    assert adrift(network) == {2}
    assert spans(network, (0.0, 300.0, 150.0)) == (
        {"C1": Span(0.0, 300.0), "C2": Span(0.0, 300.0)}, {2: Span(0.0, 300.0)},
    )  # fmt: skip


def test_a_resistor_or_a_rectifier_settles_it() -> None:
    for more in (Resistor("R2", 2, 0, 1e6), Rectifier("D1", 0, 2, SILICON)):
        assert adrift(Network(3, (*PAIR, more))) == frozenset()
        assert spans(Network(3, (*PAIR, more)), (0.0, 300.0, 150.0)) == ({}, {})


def test_two_that_meet_with_their_minus_are_told_by_the_sense_of_their_leads() -> None:
    network = Network(3, (PAIR[0], PAIR[1], Capacitor("C2", 0, 2, 1e-5)))
    assert spans(network, (0.0, 300.0, 0.0))[0]["C2"] == Span(-300.0, 0.0)


@pytest.mark.parametrize("seed", range(20))
def test_no_leakage_brings_a_capacitor_out_of_its_span(seed: int) -> None:
    rng = Random(seed)  # noqa: S311 - repeatable, not secret
    fixed, loose = rng.randint(2, 4), rng.randint(1, 4)
    count = fixed + loose
    volts = [0.0, *(rng.uniform(-400, 400) for _ in range(fixed - 1)), *loose * (0.0,)]
    elements: list[Element] = [Resistor(f"R{n}", n, 0, 1e5) for n in range(1, fixed)]
    for node in range(fixed, count):
        for other in rng.sample(range(node), 2):
            elements.append(Capacitor(f"C{len(elements)}", node, other, 1e-5))
    network = Network(count, tuple(elements))
    found, nodes = spans(network, volts)
    assert adrift(network) == set(nodes) == set(range(fixed, count))
    for _ in range(50):
        seen = _leaking(network, volts, fixed, rng)
        for one in elements:
            if isinstance(one, Capacitor):
                at = seen[one.plus] - seen[one.minus]
                assert found[one.name].low - 1e-6 <= at <= found[one.name].high + 1e-6


def _leaking(network: Network, volts: list[float], fixed: int, rng: Random) -> list[float]:
    """The potentials with a random conductance across every capacitor, by nodal analysis."""
    matrix = np.zeros((network.count, network.count))
    for one in network.elements:
        if isinstance(one, Capacitor):
            siemens = 10 ** rng.uniform(-9, -5)
            ends = [one.plus, one.minus]
            matrix[np.ix_(ends, ends)] += siemens * np.array([[1, -1], [-1, 1]])
    held = np.array(volts[:fixed])
    inner = np.linalg.solve(matrix[fixed:, fixed:], -matrix[fixed:, :fixed] @ held)
    return [*volts[:fixed], *inner.tolist()]
