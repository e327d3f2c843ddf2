"""Resistance between points against elimination in exact fractions."""

import math
import time
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from netcheck.electrical.network.elements import (
    Capacitor,
    Conduction,
    Inductor,
    Network,
    Rectifier,
    Resistor,
    VoltageSource,
)
from netcheck.electrical.running.resistance import paths, resistances

Path = tuple[int, int, float]
OHMS = st.one_of(st.just(0.0), st.floats(0.01, 1e7))


def exact(count: int, listed: list[Path], a: int, b: int) -> float:
    """One ampere from a to b: Gauss-Jordan elimination of the nodal equations, joined points being one."""
    names = joined(count, listed)
    if names[a] == names[b]:
        return 0.0
    reached = reachable(names, listed, names[a])
    if names[b] not in reached:
        return math.inf
    unknown = sorted(reached - {names[b]})
    rows = {name: [Fraction(0)] * len(unknown) + [Fraction(int(name == names[a]))] for name in unknown}
    for x, y, ohms in listed:
        for one, other in ((names[x], names[y]), (names[y], names[x])):
            if ohms and one != other and one in rows:
                rows[one][unknown.index(one)] += 1 / Fraction(ohms)
                if other in rows:
                    rows[one][unknown.index(other)] -= 1 / Fraction(ohms)
    return solved(list(rows.values()), unknown.index(names[a]))


def joined(count: int, listed: list[Path]) -> list[int]:
    names = list(range(count))
    for one, other, ohms in listed:
        if ohms == 0:
            names = [names[other] if name == names[one] else name for name in names]
    return names


def reachable(names: list[int], listed: list[Path], start: int) -> set[int]:
    reached = {start}
    for _ in names:
        reached |= {names[y] for x, y, _ in listed if names[x] in reached}
        reached |= {names[x] for x, y, _ in listed if names[y] in reached}
    return reached


def solved(rows: list[list[Fraction]], at: int) -> float:
    for k in range(len(rows)):
        pivot = next(row for row in range(k, len(rows)) if rows[row][k])
        rows[k], rows[pivot] = rows[pivot], rows[k]
        rows[k] = [value / rows[k][k] for value in rows[k]]
        for row in range(len(rows)):
            if row != k and rows[row][k]:
                rows[row] = [x - rows[row][k] * y for x, y in zip(rows[row], rows[k], strict=True)]
    return float(rows[at][-1])


@given(st.lists(st.tuples(st.integers(0, 6), st.integers(0, 6), OHMS), max_size=14))
def test_resistance_is_exact(listed: list[Path]) -> None:
    found = resistances(7, listed)
    for a in range(7):
        for b in range(a + 1):
            assert found[a, b] == pytest.approx(exact(7, listed, a, b), rel=1e-11)
            assert found[b, a] == found[a, b]


def test_a_lead_beside_a_megohm() -> None:
    listed = [(0, 1, 0.01), (1, 2, 10e6), (2, 0, 22e6), (2, 3, 0.01)]
    assert resistances(4, listed)[0, 1] == pytest.approx(exact(4, listed, 0, 1), rel=1e-13)


def test_a_hundred_nets() -> None:
    rng = Random(4)  # noqa: S311 - trials are repeated
    listed = [(node, rng.randrange(node), 10 ** rng.uniform(0, 7)) for node in range(1, 100)]
    listed += [(rng.randrange(100), rng.randrange(100), 10 ** rng.uniform(0, 7)) for _ in range(150)]
    start = time.perf_counter()
    found = resistances(100, listed)
    assert time.perf_counter() - start < 0.2
    # Foster's theorem: the shares of all resistors in the resistance between their ends add up to the nets less one.
    assert sum(found[a, b] / ohms for a, b, ohms in listed) == pytest.approx(99.0, rel=1e-12)


def test_what_an_ohmmeter_meets() -> None:
    law = Conduction(((0.7, 0.0), (0.75, 1.0)))
    parts = (VoltageSource("W", 0, 1, 100.0, 60.0, 50.0), Rectifier("CR", 1, 2, law), Capacitor("C", 2, 0, 1e-5))
    network = Network(4, (*parts, Inductor("L", 2, 3, 10.0, 200.0), Resistor("R", 3, 0, 1000.0)))
    unplugged = resistances(4, paths(network))
    assert unplugged[2, 0] == pytest.approx(1200.0)
    assert unplugged[1, 0] == math.inf
    winding = resistances(4, paths(network, unplugged=False))
    assert winding[1, 0] == pytest.approx(50.0)
    assert winding[1, 2] == pytest.approx(1250.0)
    either = resistances(4, paths(network, unplugged=False, conducting=True))
    assert either[1, 2] == 0.0
    assert either[2, 0] == pytest.approx(1 / (1 / 50 + 1 / 1200))
