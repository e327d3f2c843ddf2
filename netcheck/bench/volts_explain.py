"""What explains voltages that are too high or too low: a load, a capacitor, a resistor; else two of them.

A model of mean values ranks some two hundred failures in a tenth of a second; the engine computes the dozen that come
first, each in up to three degrees. What changes the pulses themselves (a worn rectifier, a dried-up first capacitor)
the model can't judge: those always go to the engine. Volts never name a part for certain: where one failure alone fits
every reading and the next is far off, it is the only one that was found; else the sheet says that they are a tie.
"""

from collections.abc import Iterable, Iterator, Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from netcheck.bench.mean_volts import MeanVolts, mean_volts
from netcheck.bench.power_up import HALF, LITTLE, PowerUp
from netcheck.bench.volts_points import (
    NodeVolts,
    SheetPoint,
    halved,
    misfit,
    parted,
    points_of,
    ratio_of,
    without_loads,
)
from netcheck.bench.volts_read import VoltsRead
from netcheck.bench.volts_slips import Failure, both, failures
from netcheck.electrical.network.elements import Element, Network
from netcheck.electrical.network.translate import network_of
from netcheck.electrical.running.assembly import Matrix
from netcheck.electrical.running.steady import Steady, steady
from netcheck.model.graph import CircuitGraph

__all__ = ["VoltsCause", "VoltsNext", "VoltsTold", "volts_explained"]

LOOKED_AT = 12  # failures that the quick model ranks first, and the engine then computes
FIRST = 6  # failures to which a second is looked for
PAIRS = 6  # pairs that the engine then computes
DEGREES = 3
MOST_TOLD = 8
BETTER = 1.0  # by which a failure must fit better than none
CLEAN = 4.0  # of the measure of misfits: two readings half as far off as they may be
NEAR = 10.0  # of the measure of misfits, within which another failure comes too near to call the first the only one
RATIO = 1.3  # times, by which volts at a point must differ to tell two failures apart


class VoltsCause(Struct, frozen=True):
    """A failure or two, how badly the readings fit (0 is perfectly), and whether all of them may be so.

    ``reads`` are the volts that it would make at every point of the sheet whose volts are known, by the point, but for
    those that nothing holds any more.
    """

    failure: Failure
    misfit: float
    explains_all: bool
    reads: dict[str, float]


class VoltsNext(Struct, frozen=True):
    """A point not read yet, and what it would read by each of the causes, by place in the ranking."""

    name: str
    point: str
    means: tuple[tuple[float, tuple[int, ...]], ...]


class VoltsTold(Struct, frozen=True):
    """The causes, the likelier first; ``alone`` where one fits every reading and no other comes near to that."""

    causes: tuple[VoltsCause, ...]
    alone: bool
    next: VoltsNext | None


def volts_explained(graph: CircuitGraph, found: PowerUp, read: Sequence[VoltsRead]) -> VoltsTold | None:
    """What explains the readings; None where none of them is off, or nothing can be computed."""
    if found.unknown:
        return None
    points = points_of(graph, found, read)
    told = [one for one in points if one.read is not None or one.read_half is not None]
    network = network_of(graph).network
    running = steady(network)
    if not told or not running.converged:
        return None
    search = _VoltsSearch.of(network, running, points)
    if misfit(told, search.before, search.before)[1]:
        return None
    singles = search.singles()
    found_causes = (
        singles if any(one.explains_all for one in singles) else _ranked([*singles, *search.doubles(singles)])
    )
    causes = found_causes[:MOST_TOLD]
    rivals = [cause for cause in causes[1:] if cause.explains_all or cause.misfit < causes[0].misfit + NEAR]
    clean = bool(causes) and causes[0].explains_all and causes[0].misfit < CLEAN and not causes[0].failure.two
    if search.half:  # what is expected there is too wide to single out anything, and nobody is sent on to full line
        return VoltsTold(tuple(causes), alone=False, next=None)
    return VoltsTold(tuple(causes), clean and not rivals, _next(points, causes))


class _VoltsSearch(Struct, frozen=True):
    """The readings, and what they are held against. ``half`` says whether any was made at half line."""

    network: Network
    quick: MeanVolts
    before: NodeVolts
    rough: NodeVolts
    points: Sequence[SheetPoint]
    half: bool
    unexplained: tuple[float, float]  # the misfit of the set as it should be, by the engine and by the quick model

    @staticmethod
    def of(network: Network, running: Steady, points: Sequence[SheetPoint]) -> "_VoltsSearch":
        """The search over a supply that runs as computed."""
        quick, half = mean_volts(network, running), any(one.read_half is not None for one in points)
        full = np.array(running.nodes)
        rough = NodeVolts(full, _halves(quick, network.elements) if half else None)
        exact = NodeVolts(full, _run_at_half(network) if half else None)
        unexplained = misfit(points, exact, exact)[0], misfit(points, rough, rough)[0]
        return _VoltsSearch(network, quick, exact, rough, points, half, unexplained)

    def singles(self) -> list[VoltsCause]:
        """Causes by one failure, the likelier first."""
        found = [*failures(self.network)]
        slow = [one for one in found if not one.pulses]
        tried = [self.judged(one, after, self.rough) for one, after in zip(slow, self.roughly(slow), strict=True)]
        exact = [self.engine(one) for one in found if one.pulses]
        return _ranked([*exact, *self.computed(_ranked(tried)[:LOOKED_AT], tried)])

    def doubles(self, singles: Sequence[VoltsCause]) -> list[VoltsCause]:
        """Causes by two failures, the first of them among the best alone."""
        tried: list[VoltsCause | None] = []
        for cause in singles[:FIRST]:
            first = cause.failure
            ratio = self._ratio(first) if first.pulses else np.ones(self.network.count)
            others = failures(replace(self.network, elements=first.elements))
            seconds = [one for one in others if one.subject != first.subject and not one.pulses]
            tried += (
                self.judged(both(first, second), after.times(ratio), self.rough)
                for second, after in zip(seconds, self.roughly(seconds), strict=True)
            )
        return _ranked(self.computed(_ranked(tried)[:PAIRS], tried))

    def _ratio(self, failure: Failure) -> Matrix:
        after = steady(replace(self.network, elements=failure.elements))
        return ratio_of(np.array(after.nodes), self.before.full)

    def roughly(self, found: Sequence[Failure]) -> Iterator[NodeVolts]:
        """The volts after each of some failures by the quick model."""
        full = self.quick.nodes_of([one.elements for one in found])
        for failure, nodes in zip(found, full, strict=True):
            yield NodeVolts(nodes, _halves(self.quick, failure.elements) if self.half else None)

    def judged(self, failure: Failure, after: NodeVolts, before: NodeVolts) -> VoltsCause | None:
        """A failure beside the readings; None where it fits no better than none."""
        off, possible = misfit(self.points, before, after, failure.adrift)
        if off + failure.cost > self.unexplained[before is self.rough] - BETTER:
            return None
        held = (one for one in self.points if one.node not in failure.adrift)
        reads = {one.volts.point: one.reads(before, after) for one in held}
        return VoltsCause(failure, off + failure.cost, possible, reads)

    def engine(self, failure: Failure) -> VoltsCause | None:
        """A failure beside the readings, computed exactly."""
        network = replace(self.network, elements=failure.elements)
        after = steady(network)
        half = _run_at_half(network) if self.half else None
        if not after.converged or (self.half and half is None):
            return None
        return self.judged(failure, NodeVolts(np.array(after.nodes), half), self.before)

    def computed(self, ranked: Sequence[VoltsCause], tried: Sequence[VoltsCause | None]) -> Iterator[VoltsCause]:
        """The same by the engine: of each failure its likelier degrees, until one fits every reading."""
        for best in ranked:
            degrees = [one for one in tried if one is not None and one.failure.subject == best.failure.subject]
            for one in sorted(degrees, key=lambda one: one.misfit)[:DEGREES]:
                cause = self.engine(one.failure)
                if cause is not None:
                    yield cause
                    if cause.explains_all:
                        break


def _halves(quick: MeanVolts, elements: Sequence[Element]) -> tuple[Matrix, Matrix]:
    """The volts at half line with all loads and with none."""
    at_half = halved(elements)
    return quick.nodes(at_half), quick.nodes(without_loads(at_half))


def _run_at_half(network: Network) -> tuple[Matrix, Matrix] | None:
    """The same by the engine; None where it does not settle."""
    drawing, idle = steady(network, line=HALF), steady(network, line=HALF, warm=False)
    return (np.array(drawing.nodes), np.array(idle.nodes)) if drawing.converged and idle.converged else None


def _ranked(causes: Iterable[VoltsCause | None]) -> list[VoltsCause]:
    """The best degree of each failure, the likelier first."""
    best: dict[str, VoltsCause] = {}
    for one in sorted((one for one in causes if one is not None), key=_rank):
        best.setdefault(one.failure.subject, one)
    return [*best.values()]


def _rank(one: VoltsCause) -> tuple[bool, float, str]:
    return (not one.explains_all, one.misfit, one.failure.words)


def _next(points: Sequence[SheetPoint], causes: Sequence[VoltsCause]) -> VoltsNext | None:
    """The point not read yet that parts the causes that fit best."""
    fit = [at for at, cause in enumerate(causes) if cause.explains_all] or [*range(min(len(causes), 3))]
    if len(fit) < 2:
        return None
    best: tuple[tuple[int, int], VoltsNext] | None = None
    for one in points:
        held = all(one.volts.point in causes[at].reads for at in fit)
        if one.read is not None or abs(one.said) < LITTLE or not held:
            continue
        means = parted([(causes[at].reads[one.volts.point], at) for at in fit], one, RATIO)
        rank = (len(means), -max(len(places) for _, places in means))
        if len(means) > 1 and (best is None or rank > best[0]):
            best = rank, VoltsNext(one.volts.name, one.volts.point, means)
    return None if best is None else best[1]
