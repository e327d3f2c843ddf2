"""The points whose volts are known, at full and at half line, and how a failure's volts fit what was read there.

A reading is held against what the sheet expects, changed by the ratio that a failure makes of the computed volts: a
chart or a typical current that is off is no fault.
"""

import math
from collections.abc import Collection, Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from netcheck.bench.power_up import LITTLE, PowerUp, Volts
from netcheck.bench.volts_read import HALF_MORE, VoltsRead
from netcheck.electrical.network.elements import Element, Load, VoltageSource
from netcheck.electrical.network.translate import network_of
from netcheck.electrical.running.assembly import Matrix
from netcheck.model.graph import CircuitGraph

__all__ = ["NodeVolts", "SheetPoint", "halved", "misfit", "parted", "points_of", "ratio_of", "without_loads"]

METER = 0.03  # of what a point should have, where a failure leaves it near nothing
DIGIT = 0.1  # volts, the last that is read
SCALE = 0.4  # of what a reading may be off, that counts as one
WORST = 16.0  # what one reading counts at most
HANGS = 4.0  # what a reading counts where nothing holds the point: anything may be read there, that too
MOST_GAIN = 5.0  # times what a point should have that a failure may make of it at half line


class NodeVolts(Struct, frozen=True):
    """The potentials of all nodes: at full line, and at half line with all loads drawing and with none.

    Those at half line are None where nothing was read there.
    """

    full: Matrix
    half: tuple[Matrix, Matrix] | None = None

    def times(self, ratio: Matrix) -> "NodeVolts":
        """With what a rectifier gives changed; without a load its capacitors still charge to the peak."""
        half = None if self.half is None else (self.half[0] * ratio, self.half[1])
        return NodeVolts(self.full * ratio, half)


class SheetPoint(Struct, frozen=True):
    """A point of the sheet that is a node: what is expected there, how far off that may be, and what was read."""

    volts: Volts
    node: int
    said: float
    within: float
    read: VoltsRead | None
    read_half: VoltsRead | None

    def reads(self, before: NodeVolts, after: NodeVolts) -> float:
        """Volts after a failure, held against what the sheet expects rather than against the model's own."""
        was, now = float(before.full[self.node]), float(after.full[self.node])
        return self.said * now / was if abs(was) > LITTLE else now + self.said - was

    def reads_half(self, before: NodeVolts, after: NodeVolts) -> tuple[float, float] | None:
        """The least and the most at half line; None where nothing is expected there or known of it."""
        if self.volts.half is None or before.half is None or after.half is None:
            return None
        ends = [
            end * _ratio(float(was[self.node]), float(now[self.node]))
            for end, was, now in zip(self.volts.half, before.half, after.half, strict=True)
        ]
        return min(ends), max(ends)


def _ratio(was: float, now: float) -> float:
    return min(max(now / was, -MOST_GAIN), MOST_GAIN) if abs(was) > LITTLE else 1.0


def points_of(graph: CircuitGraph, found: PowerUp, read: Sequence[VoltsRead]) -> tuple[SheetPoint, ...]:
    """The points of the sheet whose volts are known, each net once."""
    at_full = {one.point: one for one in read if not one.at_half}
    at_half = {one.point: one for one in read if one.at_half}
    nodes = network_of(graph).nodes
    points: dict[int, SheetPoint] = {}
    for one in (*found.lines, *found.electrodes):
        node = nodes.get(graph.circuit.net_of(one.point))
        if one.said is None or node is None or (node in points and points[node].read is not None):
            continue
        points[node] = SheetPoint(one, node, one.said, one.within, at_full.get(one.point), at_half.get(one.point))
    return tuple(points.values())


def misfit(
    points: Sequence[SheetPoint], before: NodeVolts, after: NodeVolts, adrift: Collection[int] = ()
) -> tuple[float, bool]:
    """How badly the readings fit, and whether each may be what it is; ``adrift`` are nodes that nothing holds."""
    total, possible = 0.0, True
    for one in points:
        if one.node in adrift:
            total += HANGS * (one.read is not None)
            continue
        for off, room in (*_at_full(one, before, after), *_at_half(one, before, after)):
            possible = possible and off <= room
            total += min((off / (SCALE * room)) ** 2, WORST)
    return total, possible


_Off = Sequence[tuple[float, float]]


def _at_full(one: SheetPoint, before: NodeVolts, after: NodeVolts) -> _Off:
    """How far off a reading is, and how far off it may be."""
    if one.read is None:
        return ()
    made = one.reads(before, after)
    off = max(one.read.reading.low - made, made - one.read.reading.high, 0.0)
    least = one.volts.little if abs(one.said) < LITTLE else DIGIT
    return ((off, max(one.within * abs(made), METER * abs(one.said), least)),)


def _at_half(one: SheetPoint, before: NodeVolts, after: NodeVolts) -> _Off:
    """The same at half line, where a range is expected: how many tubes draw there is not known."""
    made = one.reads_half(before, after)
    if one.read_half is None or made is None or one.volts.half is None:
        return ()
    low, high = made
    most, least = max(abs(low), abs(high)), METER * max(map(abs, one.volts.half))
    if one.read_half.reading.low > high:
        edge, off = high, one.read_half.reading.low - high
    else:
        edge, off = low, max(low - one.read_half.reading.high, 0.0)
    # The limits of the sheet: a tenth of the end itself, outward; near nothing what a meter shows.
    outward = abs(edge) * ((HALF_MORE - 1) if (edge > 0) == (edge == high) else (1 - 1 / HALF_MORE))
    return ((off, max(outward, least - (HALF_MORE - 1) * most, DIGIT / 10)),)


def halved(elements: Sequence[Element]) -> tuple[Element, ...]:
    """The elements at half line."""
    return tuple(
        replace(one, peak=one.peak / 2) if isinstance(one, VoltageSource) and one.hertz else one for one in elements
    )  # fmt: skip


def without_loads(elements: Sequence[Element]) -> tuple[Element, ...]:
    """The elements while nothing draws yet."""
    return tuple(replace(one, amperes=0.0) if isinstance(one, Load) else one for one in elements)


def ratio_of(after: Matrix, before: Matrix) -> Matrix:
    """What is left of every node's volts, 1 where there were next to none."""
    some = np.abs(before) > LITTLE
    found: Matrix = np.where(some, after / np.where(some, before, 1.0), 1.0)
    return found


def parted(
    reads: Sequence[tuple[float, int]], one: SheetPoint, ratio: float
) -> tuple[tuple[float, tuple[int, ...]], ...]:
    """Volts that can be told apart at a point, with the causes that make each."""
    groups: list[list[tuple[float, int]]] = []
    for volts, at in sorted(reads):
        edge = groups[-1][-1][0] if groups else -math.inf
        apart = (ratio - 1) * max(abs(volts), abs(edge) if groups else 0)
        if volts - edge > max(apart, one.within * LITTLE):
            groups.append([])
        groups[-1].append((volts, at))
    return tuple((sum(v for v, _ in group) / len(group), tuple(at for _, at in group)) for group in groups)
