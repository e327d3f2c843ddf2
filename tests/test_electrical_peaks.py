"""What filter capacitors are charged to before the tubes draw current."""

import math
from random import Random

import pytest

from netcheck.electrical.network.elements import Inductor
from netcheck.electrical.proof.peaks import cold_peaks
from netcheck.electrical.running.branches import Condition
from netcheck.electrical.running.steady import steady_in
from tests.circuits import circuit
from tests.supplies import random_supply
from tests.test_electrical_verdicts import stage

PEAK = 117 * math.sqrt(2)

# No-load volts in peaks of the winding: facts.md 5.1, calculated.
NO_LOAD = [
    ("half-wave", "S W a 0 V\nI D1 a k\nE C1 k 0", {"C1": 1}),
    ("centre-tap", "S W a 0 V\nS X 0 b V\nI D1 a k\nI D2 b k\nE C1 k 0", {"C1": 1}),
    ("bridge", "S W a b V\nI D1 a k\nI D2 b k\nI D3 0 a\nI D4 0 b\nE C1 k 0", {"C1": 1}),
    ("bridge with bleeder", "S W a b V\nI D1 a k\nI D2 b k\nI D3 0 a\nI D4 0 b\nE C1 k 0\nR R k 0 1e5", {"C1": 1}),
    ("full-wave doubler", "S W a m V\nI D1 a k\nI D2 0 a\nE C1 k m\nE C2 m 0\nE C3 k 0", {"C1": 1, "C2": 1, "C3": 2}),
    ("cascade doubler", "S W a 0 V\nE C1 b a\nI D1 0 b\nI D2 b k\nE C2 k 0", {"C1": 1, "C2": 2}),
    (
        "tripler",
        "S W a 0 V\nE C1 b a 1e3\nI D1 0 b\nI D2 b c\nE C2 c 0\nE C3 k b 1e3\nI D3 c k\nR R1 k o 1e5\nE C4 o 0 1e4",
        {"C1": 1, "C2": 2, "C3": 2, "C4": 3},
    ),
    ("bias, plus at chassis", "S W a 0 V\nI D1 n a\nE C1 0 n", {"C1": 1}),
    ("filter choke", "S W a 0 V\nI D1 a k\nE C1 k 0\nL L1 k b 10\nE C2 b 0", {"C1": 1, "C2": 1}),
    ("reversed", "S W a 0 V\nI D1 a k\nE C1 0 k", {"C1": -1}),
]


@pytest.mark.parametrize(("text", "peaks"), [case[1:] for case in NO_LOAD], ids=[case[0] for case in NO_LOAD])
def test_no_load_volts_are_those_of_the_circuit(text: str, peaks: dict[str, float]) -> None:
    found = cold_peaks(circuit(text.replace("V", f"{PEAK} 0.01")))
    assert found == pytest.approx({name: times * PEAK for name, times in peaks.items()}, rel=6.4e-5)


def test_line_and_no_load_rise_raise_the_peak() -> None:
    network = circuit("S W a 0 100 50 0.05\nI D1 a k\nE C1 k 0")
    assert cold_peaks(network)["C1"] == pytest.approx(105.0, rel=1e-5)
    assert cold_peaks(network, 1.1)["C1"] == pytest.approx(115.5, rel=1e-5)


def test_a_published_supply_puts_more_on_its_parts_than_they_stand() -> None:
    """facts.md 11.1 with ideal rectifiers, no rise and its regulators open: 459.6 V on 450 V parts."""
    text = (
        "S T1a h1 CT {0}\nS T1b CT h2 {0}\nI D1 h1 X\nI D2 h2 X\nE C1 X CT 100 450\nR R1 X BP 1500\nE C2 BP CT 100 450"
    )
    found = cold_peaks(circuit(text.format(325 * math.sqrt(2)) + "\nR R4 0 CT 36000"))
    assert found == pytest.approx({"C1": 459.62, "C2": 459.62}, abs=0.02)


def test_a_bleeder_divides_the_peak_of_what_it_feeds() -> None:
    found = cold_peaks(circuit("S W a 0 300\nI D1 a k\nE C1 k 0\nR R1 k b 10000\nR R2 b 0 20000\nE C2 b 0"))
    assert found == pytest.approx({"C1": 300, "C2": 200}, rel=1e-5)


def test_what_a_damper_lifts_has_no_bound_and_its_supply_keeps_one() -> None:
    found = cold_peaks(stage("damper, boost and flyback"))
    assert found["C1"] == pytest.approx(329.3, abs=0.01)
    assert found["C2"] == found["C3"] == math.inf


def test_a_signal_detector_has_no_bound_downwards() -> None:
    assert cold_peaks(circuit("U D1 a 0\nL L1 a b 1\nE C1 b 0\nR R1 b 0 1e6"))["C1"] == -math.inf


@pytest.mark.parametrize("seed", range(40))
def test_random_supplies_settle_at_the_peak_and_never_run_above_it(seed: int) -> None:
    network = random_supply(Random(seed))  # noqa: S311 - repeatable, not secret
    peaks = cold_peaks(network)
    cold = steady_in(network, Condition(warm=False, leak=1e-12))
    for duty in cold.capacitors:
        assert duty.volts.high <= peaks[duty.name] * 1.0001 + 0.01
    if not any(isinstance(element, Inductor) for element in network.elements):
        running = steady_in(network, Condition(line=1.05))
        assert all(duty.volts.high <= peaks[duty.name] + 0.1 for duty in running.capacitors)
