"""Volts at one frequency in a network of admittances: nodes are removed star by mesh, the fewest neighbours first."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from heapq import heapify, heappop, heappush

__all__ = ["Branch", "potentials"]


@dataclass(frozen=True, slots=True)
class Branch:
    """One admittance (siemens, complex) between two nodes, under the name of its part."""

    name: str
    a: int
    b: int
    admittance: complex


def potentials(branches: Iterable[Branch], held: Mapping[int, complex]) -> dict[int, complex]:
    """Returns the volts of every node, the held ones among them; what hangs on no held node is left at 0.

    A node k with admittances y_i to its neighbours is replaced by y_i y_j / sum(y) between each two of them
    (star to mesh, A. Rosen 1924); its volts are then the mean of theirs, weighted with y. No library is needed,
    and a chassis, where most nodes have two or three neighbours, takes time in proportion to its parts.
    """
    near = _neighbours(branches)
    removed: list[tuple[int, dict[int, complex]]] = []
    waiting = [(len(links), node) for node, links in near.items() if node not in held]
    heapify(waiting)
    while waiting:
        count, node = heappop(waiting)
        if node not in near or len(near[node]) != count:
            continue
        star = near.pop(node)
        removed.append((node, _shares(star)))
        for other in star:
            del near[other][node]
        _join_all(near, star)
        for other in star:
            if other not in held:
                heappush(waiting, (len(near[other]), other))
    volts = dict(held)
    for node, shares in reversed(removed):
        volts[node] = sum((share * volts[other] for other, share in shares.items()), 0j)
    return volts


def _neighbours(branches: Iterable[Branch]) -> dict[int, dict[int, complex]]:
    near: dict[int, dict[int, complex]] = {}
    for branch in branches:
        if branch.a == branch.b:
            continue
        for one, other in ((branch.a, branch.b), (branch.b, branch.a)):
            links = near.setdefault(one, {})
            links[other] = links.get(other, 0j) + branch.admittance
    return near


def _shares(star: Mapping[int, complex]) -> dict[int, complex]:
    """What part of each neighbour's volts a node takes; none where coil and capacitor cancel to the last digit."""
    total = sum(star.values(), 0j)
    return {other: admittance / total for other, admittance in star.items()} if total else {}


def _join_all(near: Mapping[int, dict[int, complex]], star: Mapping[int, complex]) -> None:
    total = sum(star.values(), 0j)
    if not total:
        return
    others = list(star.items())
    for at, (one, first) in enumerate(others):
        for other, second in others[at + 1 :]:
            admittance = first * second / total
            near[one][other] = near[one].get(other, 0j) + admittance
            near[other][one] = near[other].get(one, 0j) + admittance
