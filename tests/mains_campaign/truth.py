"""What reaches the chassis of a random set, by nodal analysis of the tests' own.

Alternating current by one complex solution a setting; direct current by non-negative least squares over the currents
of the rectifiers (each a battery of the peak that it swings by with all rectifiers open, behind 50 ohm).
"""

import itertools
import math
from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import nnls

from tests.mains_campaign.drawn import CHASSIS, HOT, NEUTRAL, Path, Set

__all__ = ["leak"]

WHISPER = 1e-13  # siemens from every net to earth, so that nothing floats
LEAST_PEAK = 1.0
Reals = NDArray[np.float64]


def leak(drawn: Set) -> float:
    """The largest effective current over both ways of the plug and all positions of all switches."""
    return max(float(_current(drawn, joins, hot)) for joins in _joins(drawn) for hot in _hot(drawn))


def _hot(drawn: Set) -> tuple[int, ...]:
    return (HOT,) if drawn.polarized else (HOT, NEUTRAL)


def _joins(drawn: Set) -> Iterator[tuple[int, ...]]:
    """What each net is called once closed switches have made some of them one; every partition once."""
    seen = set()
    for closed in itertools.product((True, False), repeat=len(drawn.switches)):
        names = list(range(drawn.count))
        for (a, b, _), shut in zip(drawn.switches, closed, strict=True):
            if shut:
                old, new = max(names[a], names[b]), min(names[a], names[b])
                names = [new if name == old else name for name in names]
        if tuple(names) not in seen:
            seen.add(tuple(names))
            yield tuple(names)


def _current(drawn: Set, names: tuple[int, ...], hot: int) -> float:
    live, cold, metal = names[hot], names[NEUTRAL if hot == HOT else HOT], names[CHASSIS]
    if live == metal:
        return math.inf
    if cold in (live, metal):
        return 0.0
    held = {cold: 0.0, metal: 0.0, live: drawn.volts}
    turn = 2 * math.pi * drawn.hertz
    every = [(names[p.a], names[p.b], _admittance(p, turn), p) for p in drawn.paths if names[p.a] != names[p.b]]
    both = abs(_into(every, _volts(drawn.count, every, held), metal))
    still = [each for each in every if not each[3].one_way]
    volts = _volts(drawn.count, still, held)
    direct = _direct(drawn.count, [p for *_, p in every], names, (volts, held, metal))
    return max(both, math.hypot(direct, abs(_into(still, volts, metal))))


def _admittance(path: Path, turn: float) -> complex:
    return 1j * turn * path.farads if path.farads else 1 / complex(path.ohms, turn * path.henries)


Edge = tuple[int, int, complex, Path]


def _volts(count: int, edges: list[Edge], held: dict[int, float]) -> NDArray[np.complex128]:
    matrix: NDArray[np.complex128] = np.eye(count, dtype=np.complex128) * WHISPER
    right = np.zeros(count, dtype=np.complex128)
    for a, b, y, _ in edges:
        matrix[np.ix_([a, b], [a, b])] += y * np.array([[1, -1], [-1, 1]])
    for net, volts in held.items():
        matrix[net], matrix[net, net], right[net] = 0, 1, volts
    return np.asarray(np.linalg.solve(matrix, right), dtype=np.complex128)


def _into(edges: list[Edge], volts: NDArray[np.complex128], metal: int) -> complex:
    return sum((y * (volts[b if a == metal else a]) for a, b, y, _ in edges if metal in (a, b)), 0j)


def _direct(
    count: int, paths: list[Path], names: tuple[int, ...], case: tuple[NDArray[np.complex128], dict[int, float], int]
) -> float:
    swings, held, metal = case
    rectifiers = [(names[p.a], names[p.b]) for p in paths if p.one_way]
    peaks = np.array([math.sqrt(2) * abs(swings[a] - swings[k]) for a, k in rectifiers])
    if not len(peaks) or peaks.max() < LEAST_PEAK:
        return 0.0
    free = [net for net in range(count) if net not in held]
    matrix = np.eye(count) * WHISPER
    for path in paths:
        if not path.one_way and not path.farads:
            a, b = names[path.a], names[path.b]
            matrix[np.ix_([a, b], [a, b])] += np.array([[1, -1], [-1, 1]]) / path.ohms
    ends = np.zeros((len(rectifiers), count))
    for row, (anode, cathode) in enumerate(rectifiers):
        ends[row, cathode] += 1
        ends[row, anode] -= 1
    reach = np.linalg.inv(matrix[np.ix_(free, free)])
    stiff = ends[:, free] @ reach @ ends[:, free].T + 50.0 * np.eye(len(rectifiers))
    root = np.linalg.cholesky(stiff)
    currents, _ = nnls(root.T, np.linalg.solve(root, peaks), maxiter=10_000)
    levels = np.zeros(count)
    levels[free] = reach @ (ends[:, free].T @ currents)
    through = sum(
        (levels[names[p.a]] + levels[names[p.b]]) / p.ohms
        for p in paths
        if not p.one_way and not p.farads and metal in (names[p.a], names[p.b])
    )
    return abs(float(through + ends[:, metal] @ currents))
