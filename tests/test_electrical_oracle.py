"""The running supply against another hand's integration: modified nodal analysis under scipy's solve_ivp."""

import itertools
import math
from random import Random

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from netcheck.electrical.network.elements import (
    Capacitor,
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Resistor,
    VoltageSource,
)
from netcheck.electrical.running.steady import Steady, steady
from tests.soundness.oracle import one_period
from tests.soundness.taken_over import wiring
from tests.supplies import random_supply

LEAK = 1e-9  # siemens across a blocked rectifier, as the engine has it
Vector = NDArray[np.float64]


class Nodal:
    """Node potentials and capacitor currents for given capacitor volts and choke currents, by Newton's method.

    Capacitors side by side are one. Every current through a rectifier or load is a sum of bends:
    ``siemens * max(0, volts - bend)``.
    """

    def __init__(self, network: Network) -> None:
        self.network = network
        elements = network.elements
        self.chokes = [one for one in elements if isinstance(one, Inductor)]
        self.pairs = sorted({(one.plus, one.minus) for one in elements if isinstance(one, Capacitor)})
        self.farads = np.array([
            sum(c.farads for c in elements if isinstance(c, Capacitor) and (c.plus, c.minus) == pair)
            for pair in self.pairs
        ])  # fmt: skip
        n = network.count - 1
        self.fixed, self.pushed, self.wave = np.zeros((n + 1, n + 1)), np.zeros(n + 1), np.zeros(n + 1)
        bends: list[tuple[int, int, float, float]] = []
        self.turn = 0.0
        for one in elements:
            bends += self._place(one)
        self.ends = np.zeros((n + 1, len(bends)))
        for at, (a, b, _, _) in enumerate(bends):
            self.ends[a, at] += 1
            self.ends[b, at] -= 1
        self.ends = self.ends[1:]
        self.bends, self.siemens = np.array([b[2] for b in bends]), np.array([b[3] for b in bends])
        self.holds = np.zeros((n + 1, len(self.pairs)))
        for at, (plus, minus) in enumerate(self.pairs):
            self.holds[plus, at], self.holds[minus, at] = 1, -1
        self.holds = self.holds[1:]
        self.last = np.zeros(n + len(self.pairs))

    def _place(self, one: Element) -> list[tuple[int, int, float, float]]:
        match one:
            case Resistor(a=a, b=b, ohms=ohms) | Inductor(a=a, b=b, core_ohms=ohms):
                self._stamp(a, b, 1 / ohms)
            case VoltageSource(plus=a, minus=b, peak=peak, ohms=ohms):
                self._stamp(a, b, 1 / ohms)
                self.wave[a] += peak / ohms
                self.wave[b] -= peak / ohms
                self.turn = 2 * math.pi * one.hertz
            case Load(plus=a, minus=b, amperes=amperes, knee_volts=knee):
                return [(a, b, 0.0, amperes / knee), (a, b, knee, -amperes / knee)]  # never backwards
            case Rectifier():
                return self._rectifier(one)
            case _:
                pass
        return []

    def _stamp(self, a: int, b: int, siemens: float) -> None:
        self.fixed[np.ix_([a, b], [a, b])] += siemens * np.array([[1, -1], [-1, 1]])

    def _rectifier(self, one: Rectifier) -> list[tuple[int, int, float, float]]:
        (first, _), *_ = one.law.corners
        self._stamp(one.anode, one.cathode, LEAK)
        self.pushed[one.anode] += LEAK * first
        self.pushed[one.cathode] -= LEAK * first
        found, slope = [], LEAK
        for (v, i), (w, j) in itertools.pairwise(one.law.corners):
            found.append((one.anode, one.cathode, v, (j - i) / (w - v) - slope))
            slope = (j - i) / (w - v)
        return found

    def rates(self, time: float, stored: Vector) -> Vector:
        """What capacitor volts and choke currents change by a second."""
        volts, amperes = stored[: len(self.pairs)], stored[len(self.pairs) :]
        push = (self.pushed + self.wave * math.sin(self.turn * time))[1:]
        for choke, current in zip(self.chokes, amperes, strict=True):
            for node, sign in ((choke.a, -1), (choke.b, 1)):
                if node:
                    push[node - 1] += sign * current
        n = len(push)
        x = self.last
        for _ in range(50):
            over = self.ends.T @ x[:n] - self.bends
            slopes = np.where(over > 0, self.siemens, 0.0)
            system = np.block(
                [
                    [self.fixed[1:, 1:] + self.ends @ (slopes[:, None] * self.ends.T), self.holds],
                    [self.holds.T, np.zeros((len(volts), len(volts)))],
                ]
            )
            after = np.linalg.solve(system, np.concatenate([push + self.ends @ (slopes * self.bends), volts]))
            settled = np.array_equal(over > 0, self.ends.T @ after[:n] > self.bends)
            x = after
            if settled:
                break
        self.last = x
        nodes = np.concatenate([[0.0], x[:n]])
        across = [
            (nodes[one.a] - nodes[one.b] - one.ohms * i) / one.henries
            for one, i in zip(self.chokes, amperes, strict=True)
        ]
        return np.concatenate([x[n:] / self.farads, across])


def start_of(nodal: Nodal, found: Steady) -> Vector:
    capacitors = [one for one in nodal.network.elements if isinstance(one, Capacitor)]
    volts = dict.fromkeys(nodal.pairs, 0.0)
    for one, value, farads in zip(capacitors, found.start, (c.farads for c in capacitors), strict=False):
        volts[one.plus, one.minus] += value * farads
    return np.array([*(np.array(list(volts.values())) / nodal.farads), *found.start[len(capacitors) :]])


@pytest.mark.parametrize("seed", range(50))
def test_a_random_supply_repeats_itself_under_another_integration(seed: int) -> None:
    network = random_supply(Random(f"oracle {seed}"))  # noqa: S311 - trials are repeated
    found, nodal = steady(network), Nodal(network)
    assert found.converged
    if found.driven_back:
        _repeats_with_one_way_loads(network, found)
        return
    stored = start_of(nodal, found)
    size, count = len(stored), len(nodal.pairs)

    def rates(time: float, x: Vector) -> Vector:
        apart = x[:count] - stored[:count]
        return np.concatenate([nodal.rates(time, x[:size]), apart, apart**2])

    period = 2 * math.pi / nodal.turn
    volts = max(source.peak for source in network.elements if isinstance(source, VoltageSource))
    beginning = np.concatenate([stored, np.zeros(2 * count)])
    run = solve_ivp(rates, (0.0, period), beginning, "LSODA", rtol=1e-10, atol=1e-10 * volts, max_step=period / 200)
    end = run.y[:, -1]
    mean, square = end[size : size + count] / period, end[size + count :] / period
    means, ripples = stored[:count] + mean, np.sqrt(np.maximum(square - mean**2, 0.0))
    assert end[:count] == pytest.approx(stored[:count], abs=1e-5 * volts)
    for one, part in zip(found.capacitors, (e for e in network.elements if isinstance(e, Capacitor)), strict=True):
        at = nodal.pairs.index((part.plus, part.minus))
        assert one.volts.mean == pytest.approx(means[at], abs=1e-5 * volts)
        assert one.volts.ripple == pytest.approx(ripples[at], abs=1e-5 * volts)


def _repeats_with_one_way_loads(network: Network, found: Steady) -> None:
    """A load that is driven backwards conducts half the time: followed by the oracle that knows such loads."""
    volts = max(source.peak for source in network.elements if isinstance(source, VoltageSource))
    truth = one_period(wiring(network), found.start)
    assert truth.drift < 5e-4 * volts  # its capacitors have 50 milliohm in series
    for one in found.capacitors:
        assert one.volts.mean == pytest.approx(truth.means[one.name], abs=5e-4 * volts)
