"""Resistance between any two points of a network of resistances."""

from collections.abc import Iterable

import numpy as np

from netcheck.core.groups import joined_by
from netcheck.electrical.network.elements import Inductor, Network, Rectifier, Resistor, VoltageSource
from netcheck.electrical.running.assembly import Matrix

__all__ = ["paths", "resistances"]

Path = tuple[int, int, float]


def resistances(count: int, paths: Iterable[Path]) -> Matrix:
    """Returns the ohms between all pairs of ``count`` points: 0 where joined, infinite where nothing leads across.

    ``paths`` are (point, point, ohms); no ohms at all join two points into one. Nothing is ever subtracted that is
    nearly equal, so that a hundredth of an ohm beside ten megohms keeps its digits.
    """
    listed = list(paths)
    joined = _groups(count, ((a, b) for a, b, ohms in listed if ohms <= 0))
    siemens = np.zeros((max(joined, default=-1) + 1,) * 2)
    for a, b, ohms in listed:
        one, other = joined[a], joined[b]
        if one != other:
            siemens[one, other] += 1 / ohms
            siemens[other, one] += 1 / ohms
    between = _between_all(siemens)
    return between[np.ix_(joined, joined)]


def paths(network: Network, *, conducting: bool = False, unplugged: bool = True) -> list[Path]:
    """Returns what an ohmmeter finds in a network: resistors, windings, chokes; capacitors are charged and open.

    With ``conducting`` the meter's volts and leads are such that rectifiers conduct (as if joined): where that
    changes a reading, it depends on the meter. ``unplugged`` leaves the sources out, which a transformer's winding
    is not.
    """
    found = []
    for element in network.elements:
        match element:
            case Resistor(a=a, b=b, ohms=ohms) | Inductor(a=a, b=b, ohms=ohms):
                found.append((a, b, ohms))
            case VoltageSource(plus=a, minus=b, ohms=ohms) if not unplugged:
                found.append((a, b, ohms))
            case Rectifier(anode=a, cathode=b) if conducting:
                found.append((a, b, 0.0))
            case _:
                pass
    return found


def _groups(count: int, joins: Iterable[tuple[int, int]]) -> list[int]:
    """Returns a number for every point, the same for points that are joined."""
    joined = joined_by(joins)
    lowest = [joined.get(point, point) for point in range(count)]
    numbers = {point: number for number, point in enumerate(dict.fromkeys(lowest))}
    return [numbers[point] for point in lowest]


def _between_all(siemens: Matrix) -> Matrix:
    """Removes the points star by mesh, then puts them back one by one.

    A point that is put back sits, as seen from the others, behind its own 1/total at their weighted middle.
    """
    count = len(siemens)
    totals, shares = np.zeros(count), np.zeros((count, count))
    weights = siemens.copy()
    for k in range(count):
        row = weights[k, k + 1 :]
        totals[k] = row.sum()
        if totals[k] > 0:
            shares[k, k + 1 :] = row / totals[k]
            weights[k + 1 :, k + 1 :] += row[:, None] * shares[k, k + 1 :]
    between = np.zeros((count, count))
    for k in reversed(range(count)):
        rest = slice(k + 1, count)
        between[k, rest] = between[rest, k] = _put_back(between[rest, rest], shares[k, rest], totals[k])
    return between


def _put_back(others: Matrix, share: Matrix, total: float) -> Matrix:
    if total == 0:
        return np.full(len(others), np.inf)
    near = np.flatnonzero(share)
    inner = others[np.ix_(near, near)]
    apart = share[near] @ others[near]
    back: Matrix = 1 / total + apart - share[near] @ inner @ share[near] / 2
    return back
