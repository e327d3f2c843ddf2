"""The linear programmes against an independent solver, and the bounds that they give."""

from typing import Any

import numpy as np
import pytest
from scipy.optimize import linprog

from netcheck.electrical.proof import simplex
from netcheck.electrical.proof.bounds import Contradiction, StatedReading, bounds
from netcheck.electrical.proof.simplex import Programme
from tests.circuits import circuit


@pytest.mark.parametrize("seed", range(80))
def test_least_values_are_those_of_an_independent_solver(seed: int) -> None:
    rng = np.random.default_rng(seed)
    rows, equals, columns = (int(rng.integers(*ends)) for ends in ((1, 9), (0, 4), (2, 12)))
    matrix = rng.normal(size=(rows + equals, columns)) * (rng.random((rows + equals, columns)) < 0.6)
    matrix *= 10.0 ** rng.uniform(-3, 3, size=columns)
    # A feasible right side two times in three; some have a row twice.
    inside = np.maximum(rng.normal(size=columns), 0) / np.abs(matrix).max(axis=0).clip(1e-9)
    right = matrix @ inside if seed % 3 else rng.normal(size=rows + equals)
    at_most, limits, equal, totals = matrix[:rows], right[:rows] + rng.random(rows), matrix[rows:], right[rows:]
    if seed % 4 == 0:
        at_most, limits = np.vstack([at_most, at_most[0]]), np.append(limits, limits[0])
        equal, totals = np.vstack([equal, equal[:1]]), np.append(totals, totals[:1])
    programme = Programme(at_most, limits, equal, totals)
    for costs in (rng.normal(size=columns), np.abs(rng.normal(size=columns))):
        other = linprog(costs, A_ub=at_most, b_ub=limits, A_eq=equal, b_eq=totals, bounds=(0, None))
        assert programme.feasible == (other.status != 2)
        if other.status == 0:
            assert programme.least(costs) == pytest.approx(other.fun, rel=1e-4, abs=1e-4)
        elif other.status == 3:
            assert programme.least(costs) == -np.inf


def test_a_search_that_is_given_up_claims_nothing_and_the_next_begins_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    """The least of -x - 2y under x + y <= 3, y <= 2 is -5 at (1, 2), by hand."""
    at_most, none = np.array([[1.0, 1.0], [0.0, 1.0]]), np.empty((0, 2))
    programme = Programme(at_most, np.array([3.0, 2.0]), none, np.empty(0))
    costs = np.array([-1.0, -2.0])
    with monkeypatch.context() as impatient:
        impatient.setattr(simplex, "PATIENCE", 0)
        assert programme.least(costs) == -np.inf
        unsettled = Programme(at_most, np.array([3.0, 2.0]), np.array([[1.0, 0.0]]), np.array([9.0]))
        assert unsettled.feasible
    assert programme.least(costs) == pytest.approx(-5.0, rel=1e-5)
    assert unsettled.least(costs) == -np.inf


def unknown(_a: int, _b: int) -> int:
    return 0


def k_above_b(a: int, b: int) -> int:
    return int((a, b) == (2, 3)) - int((a, b) == (3, 2))


@pytest.mark.parametrize(("ohms", "read"), [("1e6", 100.0), ("0.5", 50.0)])
def test_a_divider_is_bounded_by_its_tolerances(ohms: str, read: float) -> None:
    """100 V behind an ohm, of which two of half an ohm leave half."""
    network = circuit(f"B B1 p 0 100\nR R1 p m {ohms} 0.1\nR R2 m 0 {ohms} 0.1")
    found = bounds(network, [StatedReading(1, 0, read, 0.01)], [(2, 0)], lambda a, b: 1 if (a, b) != (0, 1) else -1)
    assert isinstance(found, tuple)
    assert (found[0].low, found[0].high) == pytest.approx((0.99 * read * 0.9 / 2, 1.01 * read * 1.1 / 2), rel=1e-6)


def test_a_link_of_no_ohms_between_two_resistors_bounds_both_its_ends_alike() -> None:
    network = circuit("B B1 p 0 100\nR R1 p m 1e6 0.1\nR W1 m n 0\nR R2 n 0 1e6 0.1")
    found = bounds(network, [StatedReading(1, 0, 100.0, 0.01)], [(2, 0), (3, 0)], lambda a, b: 0 if a == b else 1)
    assert isinstance(found, tuple)
    assert found[0] == found[1]
    assert (found[1].low, found[1].high) == pytest.approx((99.0 * 0.9 / 2, 101.0 * 1.1 / 2), rel=1e-6)


def test_an_unknown_sign_only_widens_the_bounds() -> None:
    network = circuit("S W a 0 300\nX CR1 a k\nR R1 k b 1000\nJ V1 b 0 0.01 0.1")
    wide, known = (bounds(network, [StatedReading(2, 0, 300.0, 0.01)], [(3, 0)], sign) for sign in (unknown, k_above_b))
    assert isinstance(wide, tuple)
    assert isinstance(known, tuple)
    assert wide[0].low <= known[0].low <= known[0].high <= wide[0].high
    assert (known[0].low, known[0].high) == pytest.approx((297 - 11 * 1.2, 303 - 9 * 0.8))


def test_readings_that_cannot_all_be_true_are_named() -> None:
    network = circuit("S W a 0 300\nX CR1 a k\nR R1 k b 1000\nJ V1 b 0 0.01 0.1")
    low, high = StatedReading(2, 0, 200.0, 0.1), StatedReading(3, 0, 300.0, 0.1)
    found = bounds(network, [low, high, StatedReading(1, 0, 0.0)], [], k_above_b)
    assert found == Contradiction((low, high))


def test_a_regulator_holds_a_point_at_what_it_keeps_and_a_twentieth_more() -> None:
    """From 250 V through 5 kilohm onto a tube of 150 V: it takes what it must, and is out below."""
    network = circuit("B B1 p 0 250\nR R1 p a 5000 0.1\nG VR1 a 0 150")
    found = bounds(network, [], [(2, 0)], lambda a, b: 1 if (a, b) in ((1, 2), (1, 0), (2, 0)) else -1)
    assert isinstance(found, tuple)
    assert found[0].high == pytest.approx(157.5, rel=1e-6)


def test_a_battery_the_other_way_round_is_a_tenth_off_below_the_common() -> None:
    network = circuit("B B1 p 0 -100\nR R1 p 0 1e6 0.1")
    found = bounds(network, [], [(1, 0)], lambda a, _: -1 if a == 1 else 1)
    assert isinstance(found, tuple)
    assert (found[0].low, found[0].high) == pytest.approx((-110, -90), rel=1e-5)


def test_of_many_readings_those_are_in_doubt_without_which_the_rest_fit(monkeypatch: pytest.MonkeyPatch) -> None:
    """As found one by one, by fewer programmes than there are readings."""
    network = circuit("S W a 0 300\nX CR1 a k\nR R1 k b 1000\nJ V1 b 0 0.01 0.1")
    sound = [StatedReading(1, 0, 0.0, hundredths / 100) for hundredths in range(30)]
    low, high = StatedReading(2, 0, 200.0, 0.1), StatedReading(3, 0, 300.0, 0.1)
    readings = [*sound[:7], high, *sound[7:20], low, *sound[20:]]
    alone = [
        reading
        for reading in readings
        if not isinstance(bounds(network, [r for r in readings if r is not reading], [], k_above_b), Contradiction)
    ]
    programmes: list[int] = []
    repaired = Programme._repaired

    def counting(programme: Programme, helped: Any) -> float:  # noqa: ANN401 - numpy's
        programmes.append(1)
        return repaired(programme, helped)

    monkeypatch.setattr(Programme, "_repaired", counting)
    assert bounds(network, readings, [], k_above_b) == Contradiction((high, low)) == Contradiction(tuple(alone))
    assert len(programmes) < len(readings)
