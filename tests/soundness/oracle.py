"""A network's period and its discharge by scipy, with loads that never conduct backwards; nothing of the product.

Node potentials follow from capacitor volts and choke currents by Newton's method on modified nodal analysis. A load's
current is its amperes times its volts by the knee, from nothing at 0 V to all of it at the knee.
"""

import itertools
import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from tests.soundness.elements import Coil, Drain, OneWay, Piece, Resistance, Storage, Wave, Wiring

__all__ = ["HORIZON", "Period", "one_period", "seconds_below", "seconds_to"]

HORIZON = 300.0  # seconds for which a discharge is followed
STEPS = 200  # a cycle, from switching on
FIRST, GROWTH = 1e-4, 2e-3  # the steps: seconds, and a part of the time that has passed
LEAK, WHISPER = 1e-9, 1e-13  # siemens across a blocked rectifier, and from every node to earth
Reals = NDArray[np.float64]


@dataclass(frozen=True)
class Period:
    """By name, each capacitor's mean, lowest and highest volts; ``drift`` is how far the end is off the beginning.

    ``currents`` are each rectifier's mean, effective and highest amperes, where they were asked for.
    """

    means: dict[str, float]
    lows: dict[str, float]
    highs: dict[str, float]
    drift: float
    currents: dict[str, tuple[float, float, float]] = field(default_factory=dict)


class _Nodal:
    def __init__(self, network: Wiring, leak: float = LEAK) -> None:
        self.leak = leak
        self.capacitors = [one for one in network.pieces if isinstance(one, Storage)]
        self.chokes = [one for one in network.pieces if isinstance(one, Coil)]
        count, stored = network.count, len(self.capacitors)
        self.fixed = np.eye(count) * WHISPER
        self.push, self.wave = np.zeros(count), np.zeros(count)
        self.turn = 0.0
        self.bends: list[tuple[int, int, float, float]] = []
        for one in network.pieces:
            self._place(one)
        self.ends = np.zeros((len(self.bends), count))
        for row, (a, b, _, _) in enumerate(self.bends):
            self.ends[row, a] += 1
            self.ends[row, b] -= 1
        self.at = np.array([bend for *_, bend, _ in self.bends])
        self.siemens = np.array([siemens for *_, siemens in self.bends])
        self.holds = np.zeros((stored, count))
        for row, one in enumerate(self.capacitors):
            self.holds[row, one.a] += 1
            self.holds[row, one.b] -= 1
        self.nodes = np.zeros(count)

    def _stamp(self, a: int, b: int, siemens: float) -> None:
        self.fixed[np.ix_([a, b], [a, b])] += siemens * np.array([[1, -1], [-1, 1]])

    def _place(self, one: Piece) -> None:
        match one:
            case Resistance(a=a, b=b, ohms=ohms) | Coil(a=a, b=b, beside=ohms):
                self._stamp(a, b, 1 / ohms)
            case Wave(a=a, b=b, peak=peak, ohms=ohms, hertz=hertz):
                self._stamp(a, b, 1 / ohms)
                into = self.wave if hertz else self.push
                into[a] += peak / ohms
                into[b] -= peak / ohms
                self.turn = max(self.turn, 2 * math.pi * hertz)
            case Drain(a=a, b=b, amperes=amperes, knee=knee):
                self.bends += [(a, b, 0.0, amperes / knee), (a, b, knee, -amperes / knee)]
            case OneWay(a=a, b=b, corners=corners):
                self._stamp(a, b, self.leak)
                slope = self.leak
                for (v, i), (w, j) in itertools.pairwise(corners):
                    self.bends.append((a, b, v, (j - i) / (w - v) - slope))
                    slope = (j - i) / (w - v)
            case Storage():
                pass

    def settled(self, still: Reals, right: Reals) -> Reals:
        """The potentials that fit conductances and currents into the nodes, every bend on its right side."""
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
        return nodes

    def rates(self, time: float, x: Reals) -> Reals:
        """What every capacitor's volts and choke's current change by a second: capacitors behind 50 milliohm."""
        stored, amperes = x[: len(self.capacitors)], x[len(self.capacitors) :]
        right = self.push + self.wave * math.sin(self.turn * time) + self.holds.T @ (stored / 0.05)
        for one, current in zip(self.chokes, amperes, strict=True):
            right[one.a] -= current
            right[one.b] += current
        nodes = self.settled(self.fixed + self.holds.T @ self.holds / 0.05, right)
        flows = (self.holds @ nodes - stored) / 0.05 / np.array([one.farads for one in self.capacitors])
        chokes = [(nodes[c.a] - nodes[c.b] - c.ohms * i) / c.henries for c, i in zip(self.chokes, amperes, strict=True)]
        return np.concatenate([flows, chokes])


def one_period(network: Wiring, start: tuple[float, ...], *, currents: bool = False) -> Period:
    """Follows the network for one period of its mains from these capacitor volts and choke currents."""
    nodal = _Nodal(network)
    period = 2 * math.pi / nodal.turn
    times = np.linspace(0.0, period, 1601 if currents else 401)
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
        _currents(network, nodal, run.t, run.y) if currents else {},
    )


def _currents(network: Wiring, nodal: _Nodal, times: Reals, states: Reals) -> dict[str, tuple[float, float, float]]:
    """The rectifiers' amperes at even times; a law is the sum of its bends, and the leakage."""
    seen: dict[str, list[float]] = {one.name: [] for one in network.pieces if isinstance(one, OneWay)}
    for time, state in zip(times[1:], states.T[1:], strict=True):
        nodal.rates(float(time), state)
        for one in network.pieces:
            if isinstance(one, OneWay):
                seen[one.name].append(_through(one, float(nodal.nodes[one.a] - nodal.nodes[one.b])))
    return {
        name: (float(np.mean(each)), float(np.sqrt(np.mean(np.square(each)))), float(np.max(each)))
        for name, each in seen.items()
    }


def _through(one: OneWay, volts: float) -> float:
    amperes = LEAK * volts
    slope = LEAK
    for (v, i), (w, j) in itertools.pairwise(one.corners):
        steeper = (j - i) / (w - v)
        amperes += max(volts - v, 0.0) * (steeper - slope)
        slope = steeper
    return amperes


def seconds_to(network: Wiring, volts: Mapping[str, float], limit: float, *, unplugged: bool) -> dict[str, float]:
    """When each capacitor falls below a limit for good, with cold tubes and no mains; infinite beyond the horizon.

    The sources are dead, or gone where ``unplugged``.
    """
    kept = [one for one in network.pieces if not isinstance(one, Drain) and not (unplugged and isinstance(one, Wave))]
    dead = [replace(one, peak=0.0) if isinstance(one, Wave) else one for one in kept]
    nodal = _Nodal(replace(network, pieces=tuple(dead)), leak=0.0)
    stored, amperes = np.array([volts[one.name] for one in nodal.capacitors]), np.zeros(len(nodal.chokes))
    last = np.zeros(len(stored))
    time = 0.0
    while time < HORIZON and (np.abs(stored) >= limit).any():
        step = max(FIRST, GROWTH * time)
        before, (stored, amperes) = np.abs(stored), _stepped(nodal, stored, amperes, step)
        fell = (before >= limit) & (np.abs(stored) < limit)
        part = (before - limit) / np.where(fell, before - np.abs(stored), 1.0)
        last = np.where(fell, time + part * step, last)
        time += step
    above = np.abs(stored) >= limit
    return {one.name: math.inf if above[at] else float(last[at]) for at, one in enumerate(nodal.capacitors)}


def seconds_below(network: Wiring, limit: float, cycles: int, *, line: float = 1.0) -> dict[str, float]:
    """How long each capacitor is below a limit in the first cycles after switching on, all parts together.

    Everything is discharged before, no tube draws anything, and rectifiers that need heat block.
    """
    kept = [one for one in network.pieces if not isinstance(one, Drain) and getattr(one, "cold", True)]
    raised = [replace(one, peak=one.peak * line * (1 + one.rise)) if isinstance(one, Wave) else one for one in kept]
    nodal = _Nodal(replace(network, pieces=tuple(raised)))
    step = 2 * math.pi / nodal.turn / STEPS
    stored, amperes = np.zeros(len(nodal.capacitors)), np.zeros(len(nodal.chokes))
    below = np.zeros(len(stored))
    for number in range(1, cycles * STEPS + 1):
        stored, amperes = _stepped(nodal, stored, amperes, step, math.sin(nodal.turn * step * number))
        below += step * (stored < limit)
    return dict(zip((one.name for one in nodal.capacitors), below.tolist(), strict=True))


def _stepped(nodal: _Nodal, stored: Reals, amperes: Reals, step: float, sine: float = 0.0) -> tuple[Reals, Reals]:
    """One step of the backward Euler rule, which no kink of a rectifier disturbs."""
    admitted = np.array([1 / (0.05 + step / one.farads) for one in nodal.capacitors])
    still = nodal.fixed + nodal.holds.T @ (admitted[:, None] * nodal.holds)
    right = nodal.push + nodal.wave * sine + nodal.holds.T @ (admitted * stored)
    ohms = [one.ohms + one.henries / step for one in nodal.chokes]
    for one, own, current in zip(nodal.chokes, ohms, amperes, strict=True):
        still[np.ix_([one.a, one.b], [one.a, one.b])] += np.array([[1, -1], [-1, 1]]) / own
        pushed = one.henries / step * current / own
        right[one.a] -= pushed
        right[one.b] += pushed
    nodes = nodal.settled(still, right)
    flows = admitted * (nodal.holds @ nodes - stored)
    chokes = [
        (nodes[one.a] - nodes[one.b] + one.henries / step * current) / own
        for one, own, current in zip(nodal.chokes, ohms, amperes, strict=True)
    ]
    return stored + flows * step / np.array([one.farads for one in nodal.capacitors]), np.array(chokes)
