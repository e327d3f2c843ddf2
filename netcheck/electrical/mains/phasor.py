"""Volts at one frequency in a network of admittances: nodes are removed star by mesh, the fewest neighbours first.

In plain Python that is 0.6 to 3 ms for a set with all settings of its plug and switches, so nothing is imported for it.
"""

from collections.abc import Collection, Iterable, Mapping
from heapq import heappop, heappush

from msgspec import Struct

__all__ = ["Admittance", "between", "potentials"]

Near = dict[int, dict[int, complex]]


class Admittance(Struct, frozen=True):
    """One admittance (siemens, complex) between two nodes, under the name of its part."""

    name: str
    a: int
    b: int
    admittance: complex


def potentials(
    branches: Iterable[Admittance], held: Mapping[int, complex], pushed: Mapping[int, complex] | None = None
) -> dict[int, complex]:
    """Returns the volts of every node, the held ones among them; what hangs on no held node is left at 0.

    A node k with admittances y_i to its neighbours is replaced by y_i y_j / sum(y) between each two of them
    (star to mesh, A. Rosen 1924); its volts are then the mean of theirs, weighted with y. A current that is ``pushed``
    into it (amperes) goes on to its neighbours in the same shares. No library is needed, and a chassis, where most
    nodes have two or three neighbours, takes time in proportion to its parts.
    """
    into = dict(pushed or {})
    near = _neighbours(branches)
    removed: list[tuple[int, dict[int, complex], complex]] = []
    for node, star in _removals(near, held):
        total = sum(star.values(), 0j)
        shares = {other: admittance / total for other, admittance in star.items()} if total else {}
        here = into.pop(node, 0j)
        for other, share in shares.items() if here else ():
            into[other] = into.get(other, 0j) + here * share
        removed.append((node, shares, here / total if total else 0j))
    volts = dict(held)
    for node, shares, lift in reversed(removed):
        volts[node] = sum((share * volts[other] for other, share in shares.items()), lift if shares else 0j)
    return volts


def between(branches: Iterable[Admittance], kept: Collection[int]) -> tuple[Admittance, ...]:
    """The same network as seen from the nodes ``kept``: all others are removed."""
    near = _neighbours(branches)
    for _ in _removals(near, kept):
        pass
    return tuple(Admittance("", a, b, y) for a, links in near.items() for b, y in links.items() if a < b)


def _removals(near: Near, kept: Collection[int]) -> Iterable[tuple[int, dict[int, complex]]]:
    """Removes node after node, the one with the fewest neighbours first, and tells each with its star."""
    waiting: list[tuple[int, int]] = []
    for node, links in near.items():
        if node not in kept:
            heappush(waiting, (len(links), node))
    while waiting:
        count, node = heappop(waiting)
        if node not in near or len(near[node]) != count:
            continue
        star = near.pop(node)
        for other in star:
            del near[other][node]
        _join_all(near, star)
        for other in star:
            if other not in kept:
                heappush(waiting, (len(near[other]), other))
        yield node, star


def _neighbours(branches: Iterable[Admittance]) -> Near:
    near: Near = {}
    for branch in branches:
        if branch.a == branch.b:
            continue
        for one, other in ((branch.a, branch.b), (branch.b, branch.a)):
            links = near.setdefault(one, {})
            links[other] = links.get(other, 0j) + branch.admittance
    return near


def _join_all(near: Near, star: Mapping[int, complex]) -> None:
    """A star's mesh; where coil and capacitor cancel to the last digit there is none."""
    total = sum(star.values(), 0j)
    if not total:
        return
    others = list(star.items())
    for at, (one, first) in enumerate(others):
        for other, second in others[at + 1 :]:
            admittance = first * second / total
            near[one][other] = near[one].get(other, 0j) + admittance
            near[other][one] = near[other].get(one, 0j) + admittance
