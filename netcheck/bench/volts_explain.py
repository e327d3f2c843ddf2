"""What explains voltages that are too high or too low: a load, a capacitor, a resistor; never more than they say."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from netcheck.bench.mean_volts import mean_volts
from netcheck.bench.power_up import PowerUp, Volts
from netcheck.bench.volts_read import CHART, LITTLE, VoltsRead
from netcheck.bench.volts_slips import Failure, failures
from netcheck.electrical.network.elements import Network
from netcheck.electrical.network.translate import network_of
from netcheck.electrical.running.assembly import Matrix
from netcheck.electrical.running.steady import steady
from netcheck.model.graph import CircuitGraph

__all__ = ["VoltsCause", "VoltsNext", "VoltsTold", "volts_explained"]

LOOKED_AT = 12  # failures that the quick model ranks first, and the engine then computes
DEGREES = 3
MOST_TOLD = 8
METER = 0.03  # of what a point should have, where a failure leaves it near nothing
DIGIT = 0.1  # volts, the last that is read
SCALE = 0.4  # of what a reading may be off, that counts as one
WORST = 16.0  # what one reading counts at most
BETTER = 1.0  # by which a failure must fit better than none
CLEAN = 4.0  # of the measure of misfits: two readings half as far off as they may be
NEAR = 10.0  # of the measure of misfits, within which another failure comes too near to call the first the only one
RATIO = 1.3  # times, by which volts at a point must differ to tell two failures apart


@dataclass(frozen=True, slots=True)
class VoltsCause:
    """A failure, how badly the readings fit it (0 is perfectly), and whether all of them may be so.

    ``reads`` are the volts that it would make at every point of the sheet whose volts are known, by the point.
    """

    failure: Failure
    misfit: float
    explains_all: bool
    reads: dict[str, float]


@dataclass(frozen=True, slots=True)
class VoltsNext:
    """A point not read yet, and what it would read by each of the causes, by place in the ranking."""

    name: str
    point: str
    means: tuple[tuple[float, tuple[int, ...]], ...]


@dataclass(frozen=True, slots=True)
class VoltsTold:
    """The causes, the likelier first; ``alone`` where one fits every reading and no other comes near to that."""

    causes: tuple[VoltsCause, ...]
    alone: bool
    next: VoltsNext | None


@dataclass(frozen=True, slots=True)
class _Point:
    """A point of the sheet that is a node: what is expected there, how far off that may be, and what was read."""

    volts: Volts
    node: int
    said: float
    within: float
    read: VoltsRead | None

    def reads(self, before: Matrix, after: Matrix) -> float:
        """Volts after a failure, held against what the sheet expects rather than against the model's own."""
        was, now = float(before[self.node]), float(after[self.node])
        return self.said * now / was if abs(was) > LITTLE else now + self.said - was


def volts_explained(graph: CircuitGraph, found: PowerUp, read: Sequence[VoltsRead]) -> VoltsTold | None:
    """What explains the readings at full line; None where none of them is off, or nothing can be computed."""
    if found.unknown:
        return None
    points = _points(graph, found, read)
    told = [one for one in points if one.read is not None]
    translation = network_of(graph)
    running = steady(translation.network)
    before = np.array(running.nodes)
    if not told or _misfit(told, before, before)[1] or not running.converged:
        return None
    search = _Search(before, points, told)
    quick = mean_volts(translation.network, running)
    all_failures = [*failures(translation.network)]
    tried = [search.judged(one, quick.nodes(one.elements)) for one in all_failures if not one.pulses]
    exact = [search.engine(translation.network, one) for one in all_failures if one.pulses]
    exact += search.computed(translation.network, _ranked(tried)[:LOOKED_AT], tried)
    causes = _ranked(exact)[:MOST_TOLD]
    rivals = [cause for cause in causes[1:] if cause.explains_all or cause.misfit < causes[0].misfit + NEAR]
    alone = bool(causes) and causes[0].explains_all and causes[0].misfit < CLEAN and not rivals
    return VoltsTold(tuple(causes), alone, _next(points, causes))


def _points(graph: CircuitGraph, found: PowerUp, read: Sequence[VoltsRead]) -> tuple[_Point, ...]:
    """The points of the sheet whose volts are known, each net once."""
    at_full = {one.point: one for one in read if not one.at_half}
    nodes = network_of(graph).nodes
    points: dict[int, _Point] = {}
    for one in (*found.lines, *found.electrodes):
        said, within = (one.chart, CHART) if one.chart is not None else (one.full, one.within)
        node = nodes.get(graph.circuit.net_of(one.point))
        if said is None or node is None or (node in points and points[node].read is not None):
            continue
        points[node] = _Point(one, node, said, within, at_full.get(one.point))
    return tuple(points.values())


def _misfit(told: Sequence[_Point], before: Matrix, after: Matrix) -> tuple[float, bool]:
    """How badly the readings fit, and whether each may be what it is."""
    total, possible = 0.0, True
    for one in told:
        made = one.reads(before, after)
        assert one.read is not None  # noqa: S101  # only points that were read
        low, high = one.read.reading.low, one.read.reading.high
        off = max(low - made, made - high, 0.0)
        least = LITTLE if abs(one.said) < LITTLE else DIGIT
        room = max(one.within * abs(made), METER * abs(one.said), least)
        possible = possible and off <= room
        total += min((off / (SCALE * room)) ** 2, WORST)
    return total, possible


@dataclass(frozen=True, slots=True)
class _Search:
    """The readings, and what they are held against."""

    before: Matrix
    points: Sequence[_Point]
    told: Sequence[_Point]

    def judged(self, failure: Failure, after: Matrix) -> VoltsCause | None:
        """A failure beside the readings; None where it fits no better than none."""
        nothing = _misfit(self.told, self.before, self.before)[0]
        misfit, possible = _misfit(self.told, self.before, after)
        if misfit + failure.cost > nothing - BETTER:
            return None
        reads = {one.volts.point: one.reads(self.before, after) for one in self.points}
        return VoltsCause(failure, misfit + failure.cost, possible, reads)

    def engine(self, network: Network, failure: Failure) -> VoltsCause | None:
        """A failure beside the readings, computed exactly."""
        after = steady(replace(network, elements=failure.elements))
        return self.judged(failure, np.array(after.nodes)) if after.converged else None

    def computed(
        self, network: Network, ranked: Sequence[VoltsCause], tried: Sequence[VoltsCause | None]
    ) -> Iterator[VoltsCause]:
        """The same by the engine: of each failure its likelier degrees, until one fits every reading."""
        for best in ranked:
            degrees = [one for one in tried if one is not None and one.failure.subject == best.failure.subject]
            for one in sorted(degrees, key=lambda one: one.misfit)[:DEGREES]:
                cause = self.engine(network, one.failure)
                if cause is not None:
                    yield cause
                    if cause.explains_all:
                        break


def _ranked(causes: Iterable[VoltsCause | None]) -> list[VoltsCause]:
    """The best degree of each failure, the likelier first."""
    best: dict[str, VoltsCause] = {}
    for one in sorted((one for one in causes if one is not None), key=_rank):
        best.setdefault(one.failure.subject, one)
    return [*best.values()]


def _rank(one: VoltsCause) -> tuple[bool, float, str]:
    return (not one.explains_all, one.misfit, one.failure.words)


def _next(points: Sequence[_Point], causes: Sequence[VoltsCause]) -> VoltsNext | None:
    """The point not read yet that parts the causes that fit best."""
    fit = [at for at, cause in enumerate(causes) if cause.explains_all] or [*range(min(len(causes), 3))]
    if len(fit) < 2:
        return None
    best: tuple[tuple[int, int], VoltsNext] | None = None
    for one in points:
        if one.read is not None or abs(one.said) < LITTLE:
            continue
        means = _parted([(causes[at].reads[one.volts.point], at) for at in fit], one)
        rank = (len(means), -max(len(places) for _, places in means))
        if len(means) > 1 and (best is None or rank > best[0]):
            best = rank, VoltsNext(one.volts.name, one.volts.point, means)
    return None if best is None else best[1]


def _parted(reads: Sequence[tuple[float, int]], one: _Point) -> tuple[tuple[float, tuple[int, ...]], ...]:
    """Volts that can be told apart at a point, with the causes that make each."""
    groups: list[list[tuple[float, int]]] = []
    for volts, at in sorted(reads):
        edge = groups[-1][-1][0] if groups else -math.inf
        if volts - edge > max((RATIO - 1) * abs(volts), (RATIO - 1) * abs(edge) if groups else 0, one.within * LITTLE):
            groups.append([])
        groups[-1].append((volts, at))
    return tuple((sum(v for v, _ in group) / len(group), tuple(at for _, at in group)) for group in groups)
