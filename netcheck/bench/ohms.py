"""Resistances between the points of a chassis, and how they change when a joint or part does."""

from collections.abc import Callable, Iterable, Sequence

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from netcheck.bench.branches import PartPath
from netcheck.bench.chassis import Chassis
from netcheck.electrical.running.resistance import resistances

__all__ = ["JOINT", "OPEN", "Ohms", "Shunt", "ohms_of"]

Matrix = NDArray[np.float64]
Numbers = NDArray[np.intp]

JOINT = 0.05  # ohms of a good joint with the probes' own contact
OPEN = 1e9  # ohms of what is open: far above what a meter shows, so that every way has a number
NOTHING = 1e-9  # of what was between two nodes: less is nothing (around a joint, more than 50 megohm)


class Shunt(Struct, frozen=True):
    """So many siemens more between two nodes; all that a joint or part has, taken away, opens it."""

    a: int
    b: int
    siemens: float


class Ohms(Struct, frozen=True):
    """The ohms between all pairs of nodes. What is open reads ``OPEN`` or more."""

    between: Matrix

    def read(self, red: Sequence[int] | Numbers, black: Sequence[int] | Numbers) -> Matrix:
        """The ohms between pairs of nodes."""
        found: Matrix = self.between[np.asarray(red, dtype=np.intp), np.asarray(black, dtype=np.intp)]
        return found

    def drive(self, red: Sequence[int], black: Sequence[int], pairs: Sequence[tuple[int, int]]) -> Matrix:
        """The volts across each of ``pairs`` (columns) while one ampere goes in at red and out at black (rows)."""
        ends = np.array(pairs, dtype=np.intp).reshape(-1, 2)
        return self._transfer(np.asarray(red, dtype=np.intp), np.asarray(black, dtype=np.intp), ends)

    def _transfer(self, red: Numbers, black: Numbers, ends: Numbers) -> Matrix:
        leads = (self.between[red] - self.between[black]) / 2
        found: Matrix = leads[:, ends[:, 1]] - leads[:, ends[:, 0]]
        return found

    def changed_each(
        self, red: Sequence[int] | Numbers, black: Sequence[int] | Numbers, changes: Sequence[Shunt]
    ) -> Matrix:
        """The ohms of each reading (rows) after each change alone (columns).

        Sherman and Morrison's identity in terms of resistances: r' = r - c^2 / (1/g + r_pq), where c are the volts
        that a reading's ampere puts across the change. Where nothing is left between p and q the two fall apart.
        """
        if not changes:
            return np.zeros((len(red), 0))
        ends = np.array([(change.a, change.b) for change in changes], dtype=np.intp)
        drive = self._transfer(np.asarray(red, dtype=np.intp), np.asarray(black, dtype=np.intp), ends)
        across = self.between[ends[:, 0], ends[:, 1]]
        against = 1 / np.array([change.siemens for change in changes]) + across
        apart = np.abs(against) < NOTHING * across
        found = self.read(red, black)[:, None] - np.where(apart, 0.0, drive**2 / np.where(apart, 1.0, against))
        crosses = apart & (np.abs(drive) > across / 2)
        return np.where(crosses, OPEN, np.maximum(found, 0.0))

    def after(self, changes: Sequence[Shunt]) -> "Ohms":
        """All resistances after some changes, one by one."""
        r = self.between
        for change in changes:
            r = _changed(r, change)
        return Ohms(r)


def _changed(r: Matrix, change: Shunt) -> Matrix:
    p, q = change.a, change.b
    against = 1 / change.siemens + r[p, q]
    # The volts across the change for one ampere from x to y are half of s_x - s_y.
    s = r[:, q] - r[:, p]
    if abs(against) >= NOTHING * r[p, q]:
        found: Matrix = np.maximum(r - (s[:, None] - s[None, :]) ** 2 / 4 / against, 0.0)
        return found
    near = s > 0
    far = np.where(near, r[:, p], r[:, q])
    return np.where(near[:, None] == near[None, :], r, OPEN + far[:, None] + far[None, :])


def ohms_of(chassis: Chassis, value: Callable[[PartPath], float] | None = None) -> Ohms:
    """The resistances of a chassis; ``value`` says what a branch has, its nominal ohms where not given."""
    said = nominal if value is None else value
    count = len(chassis.names)
    paths = [(joint.a, joint.b, JOINT) for joint in chassis.joints]
    paths += [(a, b, max(ohms, 1e-3)) for a, b, branch in chassis.branches if (ohms := said(branch)) < OPEN]
    return Ohms(resistances(count, [*paths, *_leaks(count, paths)]))


def nominal(branch: PartPath) -> float:
    """A branch's ohms as stated; of a winding that states none a usual figure, good for telling open from not."""
    return USUAL if branch.ohms is None else branch.ohms


USUAL = 30.0


def _leaks(count: int, paths: Iterable[tuple[int, int, float]]) -> Iterable[tuple[int, int, float]]:
    """One way of ``OPEN`` ohms from each part of the chassis that nothing joins to the first node."""
    up = list(range(count))

    def top(node: int) -> int:
        while up[node] != node:
            up[node] = up[up[node]]
            node = up[node]
        return node

    for a, b, _ in paths:
        one, other = sorted((top(a), top(b)))
        up[other] = one
    return [(0, node, OPEN) for node in range(1, count) if top(node) == node]
