"""From branches to equations: for every state of the switches, the rate of change of volts and currents.

What the network remembers is one vector: capacitor volts, inductor currents, then sine, cosine and 1, so that
all sources and thresholds are part of it and every state of the switches is the homogeneous x' = A x. Capacitors
(and sources without resistance) hold nodes together in trees; only the potentials of whole trees are unknown. By
Tellegen's theorem the matrix that takes volts from a tree to its nodes takes currents from nodes to its capacitors.
"""

import math
from collections.abc import Iterator

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from netcheck.electrical.network.elements import Capacitor, Inductor, Network, VoltageSource
from netcheck.electrical.running.branches import LEAST_OHMS, LOOP_OHMS, Branch, Condition, Parts, take_apart
from netcheck.electrical.running.trees import Forest

__all__ = ["Equations", "Matrix", "Mode", "State", "assemble"]

Matrix = NDArray[np.float64]
State = tuple[bool, ...]


class Mode(Struct, frozen=True):
    """One state of the switches, as matrices that act on the vector of volts and currents.

    ``rate`` gives its change a second, ``nodes`` the potentials, ``currents`` one row a branch, ``watch`` the volts of
    each switch above its threshold.
    """

    state: State
    rate: Matrix
    nodes: Matrix
    currents: Matrix
    watch: Matrix


class Equations(Struct, frozen=True):
    """A network in one condition, ready to be set to any state of its switches.

    ``hertz`` is 0 where there is no alternating source; ``volts`` is the sum of all sources' peaks, as a scale.
    The vector's first entries are ``capacitors``, then ``inductors`` (with their places in the network).
    """

    count: int
    branches: tuple[Branch, ...]
    capacitors: tuple[tuple[int, Capacitor], ...]
    inductors: tuple[tuple[int, Inductor], ...]
    held: tuple[tuple[int, VoltageSource], ...]
    hertz: float
    volts: float
    switches: tuple[int, ...]
    along: Matrix  # branches x (trees + ground): which tree each end of a branch is in
    across: Matrix  # branches x vector: volts that the vector alone puts on a branch
    poured: Matrix  # trees x vector: current that leaves each tree through inductors and loads
    spread: Matrix  # nodes x trees
    raised: Matrix  # nodes x vector: volts of a node above its tree's root
    drawn: Matrix  # nodes x vector: current that leaves each node through inductors and loads
    thresholds: Matrix  # branches x vector: sources and thresholds that stand against a branch's current

    @property
    def dynamic(self) -> int:
        """How many entries of the vector can change: the first ones."""
        return len(self.capacitors) + len(self.inductors)

    @property
    def size(self) -> int:
        """How long the vector is: sine, cosine and 1 come last."""
        return self.dynamic + 3

    @property
    def weights(self) -> Matrix:
        """What makes a volt and an ampere in stores of any size comparable; the sources count for nothing."""
        stores = [capacitor.farads for _, capacitor in self.capacitors]
        stores += [inductor.henries for _, inductor in self.inductors]
        roots: Matrix = np.sqrt(np.array([*stores, *3 * [1e60]]))
        return roots

    def mode(self, state: State) -> Mode:
        """Returns the equations with each switch on or off as ``state`` says, in the order of ``switches``."""
        siemens = np.array([branch.on for branch in self.branches])
        for at, closed in zip(self.switches, state, strict=True):
            siemens[at] = siemens[at] if closed else self.branches[at].off
        weights = self.along.T @ (siemens[:, None] * self.along)
        load = self.along[:, :-1].T @ (siemens[:, None] * self.across) + self.poured
        potentials = eliminate(-weights, -load)
        volts = self.along[:, :-1] @ potentials + self.across
        currents = siemens[:, None] * volts
        nodes = self.spread @ potentials + self.raised
        rate = self._rate(nodes, currents)
        return Mode(state, rate, nodes, currents, volts[list(self.switches)])

    def _rate(self, nodes: Matrix, currents: Matrix) -> Matrix:
        rate = np.zeros((self.size, self.size))
        stores = len(self.capacitors)
        flow = -((self.across + self.thresholds)[:, :stores].T @ currents + self.raised[:, :stores].T @ self.drawn)
        for row, (_, capacitor) in enumerate(self.capacitors):
            rate[row] = flow[row] / capacitor.farads
        for row, (_, inductor) in enumerate(self.inductors, stores):
            rate[row] = (nodes[inductor.a] - nodes[inductor.b]) / inductor.henries
            rate[row, row] -= max(inductor.ohms, LEAST_OHMS) / inductor.henries
        turn = 2 * math.pi * self.hertz
        rate[-3, -2], rate[-2, -3] = turn, -turn
        return rate

    def start(self, stored: Matrix, phase: float = 0.0) -> Matrix:
        """Returns the whole vector for the volts and currents ``stored``; ``phase`` is a part of the period."""
        angle = 2 * math.pi * phase
        return np.concatenate([stored, [math.sin(angle), math.cos(angle), 1.0]])


def eliminate(weights: Matrix, load: Matrix) -> Matrix:
    """Solves a conductance network for its potentials, the last node being ground.

    ``weights`` are the conductances between nodes (its diagonal is not read); each row of ``load`` is a current into
    a node. Nodes are removed star by mesh without a single subtraction, so that a part of the circuit that hangs on
    nothing but the leakage of blocked rectifiers comes out as exactly as the rest.
    """
    weights, load = weights.copy(), load.copy()
    count = len(load)
    totals, shares = np.empty(count), []
    for k in range(count):
        row = weights[k, k + 1 :]
        totals[k] = row.sum()
        share = row / totals[k]
        weights[k + 1 :, k + 1 :] += row[:, None] * share
        load[k + 1 :] += share[:-1, None] * load[k]
        shares.append(share)
    for k in reversed(range(count)):
        load[k] = load[k] / totals[k] + shares[k][:-1] @ load[k + 1 :]
    return load


def assemble(network: Network, condition: Condition) -> Equations:
    """Returns the network's equations.

    Raises:
        ValueError: the alternating sources have different frequencies, so that nothing repeats.
    """
    parts = take_apart(network, condition)
    hertz, volts = _mains(parts)
    forest = Forest()
    size = len(parts.capacitors) + len(parts.inductors) + 3
    _hold_sources(parts, forest, size)
    _hold_capacitors(parts, forest, size)
    branches = tuple(parts.branches)
    trees, raised = forest.potentials(parts.count, size, _ties(parts))
    spread = np.zeros((parts.count, max(trees) + 1 if trees else 0))
    for node, tree in enumerate(trees):
        if tree >= 0:
            spread[node, tree] = 1.0
    ends = np.zeros((len(branches), parts.count))
    for row, branch in enumerate(branches):
        ends[row, branch.a] += 1.0
        ends[row, branch.b] -= 1.0
    along = ends @ spread
    drawn = _drawn(parts, size)
    thresholds = np.array([_against(branch, size) for branch in branches]).reshape(len(branches), size)
    return Equations(
        network.count, branches, tuple(parts.capacitors), tuple(parts.inductors), tuple(parts.held), hertz, volts,
        tuple(row for row, branch in enumerate(branches) if branch.off is not None),
        np.hstack([along, -along.sum(axis=1, keepdims=True)]), ends @ raised - thresholds, spread.T @ drawn,
        spread, raised, drawn, thresholds,
    )  # fmt: skip


def _mains(parts: Parts) -> tuple[float, float]:
    sources = [branch.source for branch in parts.branches if branch.source] + [source for _, source in parts.held]
    frequencies = {source.hertz for source in sources if source.hertz}
    if len(frequencies) > 1:
        raise ValueError("the sources have different frequencies")
    return max(frequencies, default=0.0), sum(abs(source.peak) for source in sources) or 1.0


def _hold_sources(parts: Parts, forest: Forest, size: int) -> None:
    for owner, source in parts.held:
        volts = _wave(source, size)
        if not forest.join(source.plus, source.minus, volts):
            parts.branches.append(Branch(source.plus, source.minus, 1 / LOOP_OHMS, source=source, owner=owner))


def _hold_capacitors(parts: Parts, forest: Forest, size: int) -> None:
    """The largest hold first: what closes a loop gets a little resistance, and a small one is disturbed least."""
    order = sorted(range(len(parts.capacitors)), key=lambda at: -parts.capacitors[at][1].farads)
    for at in order:
        _, capacitor = parts.capacitors[at]
        plus = capacitor.plus
        if forest.joined(plus, capacitor.minus):
            plus, parts.count = parts.count, parts.count + 1
            parts.branches.append(Branch(capacitor.plus, plus, 1 / LOOP_OHMS))
        forest.join(plus, capacitor.minus, np.eye(1, size, at)[0])


def _ties(parts: Parts) -> Iterator[tuple[int, int]]:
    yield from ((branch.a, branch.b) for branch in parts.branches)
    yield from ((inductor.a, inductor.b) for _, inductor in parts.inductors)


def _wave(source: VoltageSource, size: int) -> Matrix:
    volts = np.zeros(size)
    volts[-3 if source.hertz else -1] = source.peak
    return volts


def _against(branch: Branch, size: int) -> Matrix:
    volts = np.zeros(size) if branch.source is None else _wave(branch.source, size)
    volts[-1] += branch.threshold
    return volts


def _drawn(parts: Parts, size: int) -> Matrix:
    drawn = np.zeros((parts.count, size))
    for row, (_, inductor) in enumerate(parts.inductors, len(parts.capacitors)):
        drawn[inductor.a, row] += 1.0
        drawn[inductor.b, row] -= 1.0
    for node, amperes in parts.drains:
        drawn[node, -1] += amperes
    return drawn
