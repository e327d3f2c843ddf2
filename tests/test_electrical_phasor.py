"""Volts at one frequency: against the closed form, and against plain nodal analysis by numpy."""

import cmath
import math
from random import Random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from netcheck.electrical.mains.impedance import passages, with_cold_heaters
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


TURN = 2 * math.pi * 60
BASED = "basing X1: 1 heater-1, 2 heater-2, 3 grid-3, 4 cathode, 5 plate, 6 grid-1, 7 grid-2\ntube V1 X1"
TWO, ONE = (
    "basing X2: 1 plate-a, 2 cathode, 3 grid-a\ntube V1 X2",
    "basing X3: 1 heater-1, 2 heater-2, 3 plate, 4 grid\ntube V1 X3",
)
# What is declared, two of its ends, and the ohms between them at 60 Hz and for direct current; None passes nothing.
PASSED = [
    ("resistor R1 1k", "1 2", 1000, 1000),
    ("resistor R1 1/2 W", "1 2", 0.01, 0.01),
    ("pot RV1 500k", "ccw wiper", 250_000, 250_000),
    ("pot RV1 500k", "wiper cw", 250_000, 250_000),
    ("pot RV1 500k tapped", "tap wiper", 0.01, 0.01),
    ("rheostat R1 10 ohm", "1 wiper", 5, 5),
    ("candohm R1 300 ohm 25 ohm", "1 2", 300, 300),
    ("candohm R1 300 ohm 25 ohm", "2 3", 25, 25),
    ("capacitor C1 .1 mfd", "1 2", -1j / (TURN * 1e-7), None),
    ("capacitor C1 600 V", "1 2", -0.01j, None),
    ("electrolytic C1 10 mfd", "+ -", -1j / (TURN * 1e-5), None),
    ("choke L1 8 H 200 ohm", "1 2", complex(200, TURN * 8), 200),
    ("choke L1 8 H", "1 2", complex(50, TURN * 8), 50),
    ("choke L1 200 ohm", "1 2", 200, 200),
    ("transformer T1\nwinding T1 primary a b 117 V 6 ohm", "a b", 10, 10),
    ("transformer T1\nwinding T1 high a ct b 300-0-300 V", "ct b", 10, 10),
    ("lamp LM1 6.3 V 150 mA", "1 2", 42, 42),
    ("lamp LM1 6.3 V", "1 2", 40, 40),
    ("lamp LM1 150 mA", "1 2", 40, 40),
    ("lamp LM1 neon", "1 2", 1000, 1000),
    ("speaker SP1 3.2 ohm", "1 2", 3.2, 3.2),
    ("speaker SP1", "1 2", 4, 4),
    ("battery BT1 90 V", "+ -", 1, 1),
    ("diode D1 1N4007", "anode cathode", 50, 50),
    ("diode D1 germanium", "anode cathode", None, None),
    ("tube V1 6V6GT", "heater-1 heater-2", 14, 14),
    ("tube V1 6V6GT", "plate cathode", None, 5000),
    ("tube V1 5Y3GT", "plate-1 heater-2", 50, 50),
    ("tube V1 12AX7", "heater-1 heater-tap", 42, 42),
    ("tube V1 12AX7", "heater-tap heater-2", 42, 42),
    ("tube V1 35Z5GT", "heater-1 heater-tap", 7.5 / 0.15, 7.5 / 0.15),
    ("tube V1 35Z5GT", "heater-tap heater-2", 27.5 / 0.15, 27.5 / 0.15),
    (TWO, "plate-a cathode", None, 5000),
    (ONE, "plate heater-2", None, 5000),
    (BASED, "heater-1 heater-2", 50, 50),
    (BASED, "plate cathode", None, 5000),
    (BASED, "grid-2 cathode", None, 5000),
    (BASED, "grid-1 cathode", None, None),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "ends", "ohms", "direct"), PASSED, ids=[f"{text} {ends}" for text, ends, *_ in PASSED]
)
def test_what_each_kind_passes(text: str, ends: str, ohms: complex | None, direct: float | None) -> None:
    graph = CircuitGraph(circuit(f"{text}\nresistor R99 1k\nnet ground: chassis, R99.1, R99.2\n"))
    name = text.rsplit("\n", maxsplit=1)[-1].split()[1]
    for hertz, expected in ((60.0, ohms), (0.0, direct)):
        found = [
            each.does
            for each in passages(graph, hertz)
            if each.part == name and {each.does.one, each.does.other} == set(ends.split())
        ]
        siemens = [each.direct if not hertz else each.turning for each in found]
        assert [each for each in siemens if each] == ([] if expected is None else [pytest.approx(1 / expected)])


@pytest.mark.parametrize(
    ("text", "flags"),
    [
        ("resistor R1 1k", {""}),
        ("resistor R1", {"ohms"}),
        ("pot RV1", {"ohms"}),
        ("capacitor C1", {"mfd"}),
        ("capacitor C1 1 mfd", {""}),
        ("choke L1", {""}),
        ("diode D1 1N4007", {"one way"}),
        ("tube V1 5Y3GT", {"hot", "one way"}),
        (BASED, {"", "valve, one way"}),
        ("tube V1 6V6GT", {"hot", "valve, one way"}),
    ],
)
def test_what_is_one_way_and_what_is_not_said(text: str, flags: set[str]) -> None:
    found = passages(CircuitGraph(circuit(f"{text}\nresistor R99 1k\nnet ground: chassis, R99.1, R99.2\n")), 60.0)
    said = {
        ", ".join(
            word
            for word, is_so in (
                ("valve", each.valve),
                ("one way", each.one_way),
                ("hot", each.heater),
                (each.unsaid, each.unsaid),
            )
            if is_so
        )
        for each in (passage.does for passage in found)
    }
    assert said == flags


def test_what_has_both_ends_on_one_net_passes_nothing() -> None:
    """Nor has a control a passage from an end that it has not, nor a capacitor one for direct current."""
    text = (
        "resistor R1 1k\npot RV1 500k\ncapacitor C1 1 mfd\nnet a: R1.1, R1.2, RV1.ccw, C1.1\nnet b: RV1.wiper, RV1.cw\n"
    )
    found = passages(CircuitGraph(circuit(text)), 0.0)
    assert [(each.part, each.does.one, each.does.other) for each in found] == [("RV1", "ccw", "wiper")]
    assert isinstance(passages(CircuitGraph(circuit(text)), 0.0), tuple)


def test_a_passage_is_a_branch_of_either_network() -> None:
    (coil,) = passages(CircuitGraph(circuit("choke L1 1 H 100 ohm\nnet a: L1.1\nnet b: L1.2\n")), 50.0)
    assert coil.branch().admittance == pytest.approx(1 / complex(100, 2 * math.pi * 50))
    direct = coil.branch(direct=True).admittance
    assert direct == pytest.approx(0.01)
    assert isinstance(direct, complex)


def test_a_cold_heater_has_a_seventh_of_its_ohms_and_only_a_known_one() -> None:
    hot = passages(
        CircuitGraph(circuit("tube V1 6V6GT\nresistor R1 14 ohm\nnet a: V1.2, R1.1\nnet b: V1.7, R1.2\n")), 60.0
    )
    (one, other) = [each for each in with_cold_heaters(hot) if each.does.turning]
    assert (1 / one.does.direct, 1 / other.does.direct) == pytest.approx((2.0, 14.0))
