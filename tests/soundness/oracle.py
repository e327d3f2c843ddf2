"""One period of a network by scipy, with loads that never conduct backwards; no code shared with the product.

Node potentials follow from capacitor volts and choke currents by Newton's method on modified nodal analysis. A load's
current is its amperes times its volts by the knee, from nothing at 0 V to all of it at the knee.
"""

import itertools
import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from netcheck.electrical.network.elements import (
    Capacitor,
    Inductor,
    Load,
    Network,
    Rectifier,
    Resistor,
    Source,
)

__all__ = ["Period", "one_period"]

LEAK, WHISPER = 1e-9, 1e-13  # siemens across a blocked rectifier, and from every node to earth
Reals = NDArray[np.float64]


@dataclass(frozen=True)
class Period:
    """By name, each capacitor's mean, lowest and highest volts; ``drift`` is how far the end is off the beginning."""

    means: dict[str, float]
    lows: dict[str, float]
    highs: dict[str, float]
    drift: float


class _Nodal:
    def __init__(self, network: Network) -> None:
        self.capacitors = [one for one in network.elements if isinstance(one, Capacitor)]
        self.chokes = [one for one in network.elements if isinstance(one, Inductor)]
        count, stored = network.count, len(self.capacitors)
        self.fixed = np.eye(count) * WHISPER
        self.push, self.wave = np.zeros(count), np.zeros(count)
        self.turn = 0.0
        self.bends: list[tuple[int, int, float, float]] = []
        for one in network.elements:
            self._place(one)
        self.ends = np.zeros((len(self.bends), count))
        for row, (a, b, _, _) in enumerate(self.bends):
            self.ends[row, a] += 1
            self.ends[row, b] -= 1
        self.at = np.array([bend for *_, bend, _ in self.bends])
        self.siemens = np.array([siemens for *_, siemens in self.bends])
        self.holds = np.zeros((stored, count))
        for row, one in enumerate(self.capacitors):
            self.holds[row, one.plus] += 1
            self.holds[row, one.minus] -= 1
        self.nodes = np.zeros(count)

    def _stamp(self, a: int, b: int, siemens: float) -> None:
        self.fixed[np.ix_([a, b], [a, b])] += siemens * np.array([[1, -1], [-1, 1]])

    def _place(self, one: object) -> None:
        match one:
            case Resistor(a=a, b=b, ohms=ohms) | Inductor(a=a, b=b, core_ohms=ohms):
                self._stamp(a, b, 1 / ohms)
            case Source(plus=a, minus=b, peak=peak, ohms=ohms, hertz=hertz):
                self._stamp(a, b, 1 / ohms)
                into = self.wave if hertz else self.push
                into[a] += peak / ohms
                into[b] -= peak / ohms
                self.turn = max(self.turn, 2 * math.pi * hertz)
            case Load(plus=a, minus=b, amperes=amperes, knee_volts=knee):
                self.bends += [(a, b, 0.0, amperes / knee), (a, b, knee, -amperes / knee)]
            case Rectifier(anode=a, cathode=b, law=law):
                self._stamp(a, b, LEAK)
                slope = LEAK
                for (v, i), (w, j) in itertools.pairwise(law.corners):
                    self.bends.append((a, b, v, (j - i) / (w - v) - slope))
                    slope = (j - i) / (w - v)
            case _:
                pass

    def rates(self, time: float, x: Reals) -> Reals:
        """What every capacitor's volts and choke's current change by a second: capacitors behind 50 milliohm."""
        stored, amperes = x[: len(self.capacitors)], x[len(self.capacitors) :]
        right = self.push + self.wave * math.sin(self.turn * time) + self.holds.T @ (stored / 0.05)
        for one, current in zip(self.chokes, amperes, strict=True):
            right[one.a] -= current
            right[one.b] += current
        still = self.fixed + self.holds.T @ self.holds / 0.05
        nodes = self.nodes
        for _ in range(60):
            on = self.ends @ nodes > self.at
            slopes = np.where(on, self.siemens, 0.0)
            matrix = still + self.ends.T @ (slopes[:, None] * self.ends)
            after = np.zeros(len(nodes))
            after[1:] = np.linalg.solve(matrix[1:, 1:], (right + self.ends.T @ (slopes * self.at))[1:])
            settled = np.array_equal(on, self.ends @ after > self.at)
            nodes = after
            if settled:
                break
        self.nodes = nodes
        flows = (self.holds @ nodes - stored) / 0.05 / np.array([one.farads for one in self.capacitors])
        chokes = [(nodes[c.a] - nodes[c.b] - c.ohms * i) / c.henries for c, i in zip(self.chokes, amperes, strict=True)]
        return np.concatenate([flows, chokes])


def one_period(network: Network, start: tuple[float, ...]) -> Period:
    """Follows the network for one period of its mains from these capacitor volts and choke currents."""
    nodal = _Nodal(network)
    period = 2 * math.pi / nodal.turn
    times = np.linspace(0.0, period, 401)
    run = solve_ivp(
        nodal.rates, (0.0, period), np.array(start), "LSODA", rtol=1e-7, atol=1e-7, max_step=period / 100, t_eval=times
    )
    volts = run.y[: len(nodal.capacitors)]
    names = [one.name for one in nodal.capacitors]
    means = ((volts[:, 1:] + volts[:, :-1]) / 2).mean(axis=1)  # even steps, by the trapezoidal rule
    return Period(
        dict(zip(names, means.tolist(), strict=True)),
        dict(zip(names, volts.min(axis=1).tolist(), strict=True)),
        dict(zip(names, volts.max(axis=1).tolist(), strict=True)),
        float(np.abs(volts[:, -1] - volts[:, 0]).max()),
    )
