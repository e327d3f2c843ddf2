"""The currents of one solution, followed from the metal back to the line.

A leak is named after the part nearest the metal that holds a good share of the largest drop on its way: the part of the
largest drop alone was one that feeds more of the set than this way.
"""

import cmath
from collections.abc import Mapping, Sequence

from msgspec import Struct

from netcheck.core.budget import Budget
from netcheck.electrical.mains.phasor import Admittance

__all__ = ["Flow", "Share"]

_MAIN_DROP = 0.25  # of the largest drop
_TRIFLE = 1e-3  # of the whole current, below which a way is not told

_WALKED = 50_000
"""Branches that are walked back to the line, over all ways; of a way after that only its first part is told."""


class Share(Struct, frozen=True):
    """The part that a share of the current is held back by, and that share (amperes, effective)."""

    part: str
    amperes: float


class Flow:
    """Follows currents through ``branches`` at these ``volts``; it keeps what the largest passes.

    ``drives`` are the branches that lift volts (rectifiers that make direct current), with what they lift.
    """

    def __init__(
        self, branches: Sequence[Admittance], volts: Mapping[int, complex], hot: int, drives: Mapping[Admittance, float]
    ) -> None:
        self._volts = volts
        self._hot = hot
        self._drives = drives
        self._at: dict[int, list[Admittance]] = {}
        for branch in branches:
            if branch.a != branch.b:
                self._at.setdefault(branch.a, []).append(branch)
                self._at.setdefault(branch.b, []).append(branch)
        self.parts: dict[str, None] = {}
        self.nets: set[int] = set()

    def into(self, metal: int) -> tuple[float, tuple[Share, ...]]:
        """The whole current into the metal, and its shares by the part that holds it back."""
        shares: dict[str, complex] = {}
        passed: dict[str, list[Admittance]] = {}
        walking = Budget(_WALKED)
        for branch in self._at.get(metal, ()):
            current = self._current(branch, metal)
            way = [branch] if walking.is_spent else self._back(branch, metal)
            walking.spend(len(way))
            keeper = self._keeper(way).name
            shares[keeper] = shares.get(keeper, 0j) + current
            passed.setdefault(keeper, []).extend(way)
        whole = abs(sum(shares.values(), 0j))
        ways = sorted((Share(name, abs(share)) for name, share in shares.items()), key=lambda w: (-w.amperes, w.part))
        for branch in passed[ways[0].part] if ways else ():
            self.parts[branch.name] = None
            self.nets.update((branch.a, branch.b))
        return whole, tuple(way for way in ways if way.amperes > whole * _TRIFLE)

    def _current(self, branch: Admittance, node: int) -> complex:
        """What a branch brings into a node."""
        across = self._volts.get(_other(branch, node), 0j) - self._volts.get(node, 0j)
        lifted = self._drives.get(branch, 0.0)
        return branch.admittance * (across + (lifted if branch.b == node else -lifted))

    def _keeper(self, way: Sequence[Admittance]) -> Admittance:
        """The branch nearest the metal of those that hold most of the volts: the others feed more than this way."""
        if len(way) == 1:
            return way[0]
        most = max(map(self._drop, way))
        return next(branch for branch in way if self._drop(branch) >= _MAIN_DROP * most)

    def _drop(self, branch: Admittance) -> float:
        return abs(self._current(branch, branch.b) / branch.admittance)

    def _back(self, branch: Admittance, metal: int) -> list[Admittance]:
        """The branches from the metal to the line, upwards along the largest current."""
        way, seen, node = [branch], {metal}, _other(branch, metal)
        while node != self._hot:
            seen.add(node)
            onward = [b for b in self._at[node] if _other(b, node) not in seen and self._feeds(b, node)]
            if not onward:
                break
            way.append(max(onward, key=lambda b: abs(self._current(b, node))))
            node = _other(way[-1], node)
        return way

    def _feeds(self, branch: Admittance, node: int) -> bool:
        """Whether a branch brings current to a node, by the phase of the volts there."""
        here = self._volts.get(node, 0j)
        if self._drives.get(branch):
            return branch.b == node if here.real >= 0 else branch.a == node
        there = self._volts.get(_other(branch, node), 0j)
        turned = cmath.exp(-1j * cmath.phase(here)) if here else 1
        return (there * turned).real > abs(here)


def _other(branch: Admittance, node: int) -> int:
    return branch.b if branch.a == node else branch.a
