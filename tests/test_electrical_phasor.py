"""Volts at one frequency: against the closed form, and against plain nodal analysis by numpy."""

import cmath
import math
from random import Random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from netcheck.electrical.mains.impedance import passages
from netcheck.electrical.mains.phasor import Admittance, potentials
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit


@given(
    st.floats(1e-10, 1e-6),
    st.floats(1e2, 1e7),
    st.sampled_from(["series", "parallel"]),
    st.sampled_from([(120, 60), (230, 50)]),
)
def test_one_capacitor_and_one_resistor_against_the_closed_form(
    farads: float, ohms: float, arranged: str, mains: tuple[int, int]
) -> None:
    volts, hertz = mains
    in_series = arranged == "series"
    turn = 2 * math.pi * hertz * farads
    branches = [
        Admittance("C1", 0, 1 if in_series else 2, 1j * turn),
        Admittance("R1", 1 if in_series else 0, 2, 1 / ohms),
    ]
    found = potentials(branches, {0: complex(volts), 2: 0j})
    whole = sum(b.admittance * found[b.a] for b in branches if b.b == 2)
    expected = volts / math.hypot(ohms, 1 / turn) if in_series else volts * math.hypot(1 / ohms, turn)
    assert abs(whole) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("seed", range(40))
def test_random_networks_against_nodal_analysis(seed: int) -> None:
    """Ladders with cross-links, of resistors, capacitors and chokes over six decades, by numpy's linear solver."""
    rng = Random(seed)  # noqa: S311 (a reproducible draw)
    count = rng.randint(4, 30)
    pairs = [(at, at + 1) for at in range(count - 1)]
    pairs += [(rng.randrange(count), rng.randrange(count)) for _ in range(rng.randint(1, 2 * count))]
    branches = [Admittance(f"Z{n}", a, b, _admittance(rng)) for n, (a, b) in enumerate(pairs)]
    held = {0: 120 + 0j, count - 1: 0j}
    matrix, right = np.zeros((count, count), complex), np.zeros(count, complex)
    for branch in branches:
        for one, other in ((branch.a, branch.b), (branch.b, branch.a)):
            matrix[one, one] += branch.admittance
            matrix[one, other] -= branch.admittance
    for node, volts in held.items():
        matrix[node], matrix[node, node], right[node] = 0, 1, volts
    expected = np.linalg.solve(matrix, right)
    found = potentials(branches, held)
    assert max(abs(found[node] - expected[node]) for node in range(count)) < 1e-7 * 120


def _admittance(rng: Random) -> complex:
    size = 10 ** rng.uniform(-7, -1)
    kind = rng.choice(("resistor", "capacitor", "choke"))
    if kind == "resistor":
        return complex(size)
    return 1j * size if kind == "capacitor" else 1 / complex(0.2 / size, 1 / size)


def test_what_hangs_on_nothing_held_is_left_out() -> None:
    found = potentials([Admittance("R1", 0, 1, 1), Admittance("R2", 5, 6, 1)], {0: 1 + 0j})
    assert found[1] == 1
    assert {found[5], found[6]} == {0}


def test_coil_and_capacitor_that_cancel_are_no_division_by_zero() -> None:
    found = potentials([Admittance("C1", 0, 1, 1j), Admittance("L1", 1, 2, -1j)], {0: 1 + 0j, 2: 0j})
    assert cmath.isfinite(found[1])


def test_the_paths_of_a_tube_come_in_one_order() -> None:
    """Names of electrodes are hashed anew in each run, and what is summed in another order is another number."""
    text = (
        "basing X1: 1 plate-d, 2 plate-b, 3 plate-c, 4 plate-a, 5 cathode, 6 heater-1, 7 heater-2, 8 grid-a, 9 grid-b, "
        "10 grid-c, 11 grid-d\n"
        "tube V1 X1\nresistor R1 1k\nnet ground: chassis, V1.5, R1.1\nnet B+: V1.1, V1.2, V1.3, V1.4, R1.2\n"
    )
    found = passages(CircuitGraph(circuit(text)), 60.0)
    plates = [each.does.one for each in found if each.does.valve]
    assert plates == ["plate-a", "plate-b", "plate-c", "plate-d"]
