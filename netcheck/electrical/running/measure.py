"""What meters would read over a period: means, peaks, effective values, heat."""

import math
from collections.abc import Iterable, Sequence
from typing import TypeVar

import numpy as np
from msgspec import Struct

from netcheck.electrical.network.elements import Element, Load, Network, Rectifier, Resistor, VoltageSource
from netcheck.electrical.running.assembly import Equations, Matrix
from netcheck.electrical.running.clockwork import Clock
from netcheck.electrical.running.switching import Stretch

__all__ = ["CapacitorDuty", "Course", "Heat", "Measured", "RectifierDuty", "measure"]

OCTAVE = 5  # 2**5 steps in every octave of a stretch
SLACK = 7  # halvings less than a clock needs: an eighth of the quickest time is short enough for the rule below
# The closed Newton-Cotes rule on nine points, four times in a row.
NINE = (989.0, 5888.0, -928.0, 10496.0, -4540.0, 10496.0, -928.0, 5888.0)
RULE = np.array([2 * 989.0 if at % 8 == 0 else NINE[at % 8] for at in range(2**OCTAVE + 1)]) * (4 / 14175)
RULE[[0, -1]] /= 2
BACK_VOLTS = 1e-6


class Course(Struct, frozen=True):
    """A quantity over one period; ``ripple`` is the effective value of its alternating part."""

    mean: float
    low: float
    high: float
    ripple: float

    @property
    def rms(self) -> float:
        """The effective value, which heats."""
        return math.hypot(self.mean, self.ripple)

    @property
    def swing(self) -> float:
        """The ripple from peak to peak."""
        return self.high - self.low


class CapacitorDuty(Struct, frozen=True):
    """Volts from plus to minus, and the current into plus: its effective value is the ripple current."""

    name: str
    volts: Course
    amperes: Course


class RectifierDuty(Struct, frozen=True):
    """Forward current, and the highest volts from cathode to anode."""

    name: str
    amperes: Course
    inverse_volts: float


class Heat(Struct, frozen=True):
    """The current through a resistance from ``a`` (or plus) to ``b``, and the mean heat in it."""

    name: str
    amperes: Course
    watts: float


class Measured(Struct, frozen=True):
    """All readings; ``nodes`` are mean potentials, ``swings`` what they swing by from peak to peak.

    ``driven_back`` are the loads whose plus was below their minus at any time.
    """

    capacitors: tuple[CapacitorDuty, ...]
    rectifiers: tuple[RectifierDuty, ...]
    resistors: tuple[Heat, ...]
    inductors: tuple[Heat, ...]
    sources: tuple[Heat, ...]
    nodes: tuple[float, ...]
    swings: tuple[float, ...]
    driven_back: frozenset[str] = frozenset()


class _Sampled(Struct, frozen=True):
    """Samples in time order, one row a quantity: nodes, branches, the vector, its rates.

    ``weights`` integrate over time; ``gaps`` are seconds to the next sample, 0 at the end of a smooth piece.
    """

    weights: Matrix
    values: Matrix
    slopes: Matrix
    gaps: Matrix


def measure(network: Network, circuit: Equations, stretches: Sequence[Stretch]) -> Measured:
    """Returns the readings over the ``stretches``, which are one period."""
    sampled = [_sample(circuit, stretch) for stretch in stretches if stretch.seconds > 0]
    meter = _Meter(circuit, sampled)
    elements = network.elements
    nodes = [meter.course(meter.node(node)) for node in range(circuit.count)]
    return Measured(
        tuple(
            CapacitorDuty(one.name, meter.course(meter.vector(at)), meter.course(meter.rate(at), one.farads))
            for at, (_, one) in enumerate(circuit.capacitors)
        ),
        tuple(
            RectifierDuty(part.name, meter.through(owner), -meter.course(meter.between(part.anode, part.cathode)).low)
            for owner, part in _of(elements, Rectifier)
        ),
        tuple(_heat(part.name, meter.through(owner), part.ohms) for owner, part in _of(elements, Resistor)),
        tuple(
            _heat(inductor.name, meter.course(meter.vector(at)), inductor.ohms)
            for at, (_, inductor) in enumerate(circuit.inductors, len(circuit.capacitors))
        ),
        tuple(
            _heat(part.name, meter.through(owner), part.ohms)
            for owner, part in _of(elements, VoltageSource)
            if part.ohms
        ),
        tuple(course.mean for course in nodes),
        tuple(course.swing for course in nodes),
        frozenset(
            load.name
            for _, load in _of(elements, Load)
            if load.amperes > 0 and meter.course(meter.between(load.plus, load.minus)).low < -BACK_VOLTS
        ),
    )


Kind = TypeVar("Kind")


def _of(elements: Iterable[Element], kind: type[Kind]) -> list[tuple[int, Kind]]:
    return [(at, element) for at, element in enumerate(elements) if isinstance(element, kind)]


def _heat(name: str, amperes: Course, ohms: float) -> Heat:
    return Heat(name, amperes, amperes.rms**2 * ohms)


class _Meter:
    """Reads any weighted sum of the probed quantities."""

    def __init__(self, circuit: Equations, sampled: Sequence[_Sampled]) -> None:
        self._nodes = len(circuit.spread)
        self._branches = len(circuit.branches)
        self._size = circuit.size
        self._owners = [branch.owner for branch in circuit.branches]
        self._weights = np.concatenate([one.weights for one in sampled])
        self._values = np.hstack([one.values for one in sampled])
        self._slopes = np.hstack([one.slopes for one in sampled])
        self._gaps = np.concatenate([one.gaps for one in sampled])

    def node(self, node: int) -> Matrix:
        return self._unit(node)

    def between(self, one: int, other: int) -> Matrix:
        return self._unit(one) - self._unit(other)

    def vector(self, at: int) -> Matrix:
        return self._unit(self._nodes + self._branches + at)

    def rate(self, at: int) -> Matrix:
        return self._unit(self._nodes + self._branches + self._size + at)

    def through(self, owner: int) -> Course:
        rows = np.zeros(len(self._values))
        for at, whose in enumerate(self._owners, self._nodes):
            rows[at] = float(whose == owner)
        return self.course(rows)

    def course(self, rows: Matrix, factor: float = 1.0) -> Course:
        used = np.flatnonzero(rows)
        values = factor * (rows[used] @ self._values[used])
        slopes = factor * (rows[used] @ self._slopes[used])
        seconds = self._weights.sum()
        mean = float(self._weights @ values / seconds)
        ripple = math.sqrt(max(float(self._weights @ (values - mean) ** 2 / seconds), 0.0))
        low, high = _extremes(values, slopes, self._gaps)
        return Course(mean, low, high, ripple)

    def _unit(self, at: int) -> Matrix:
        rows = np.zeros(len(self._values))
        rows[at] = 1.0
        return rows


def _sample(circuit: Equations, stretch: Stretch) -> _Sampled:
    """Samples a stretch octave by octave, ever more finely towards its beginning, where all that is quick happens."""
    mode = stretch.gear.mode
    clock = Clock(mode.rate, stretch.seconds / 2 ** (OCTAVE + 1), circuit.weights)
    octaves = max(1, clock.depth - SLACK)
    columns, lengths, x = [], [], stretch.x
    for scale in (1 - octaves, *range(1 - octaves, 1)):
        columns.append(clock.points(x, OCTAVE, scale))
        lengths.append(clock.length * 2.0**scale)
        x = columns[-1][:, -1]
    points = np.hstack(columns)
    probe = np.vstack([mode.nodes, mode.currents, np.eye(circuit.size), mode.rate])
    weights = np.concatenate([length * RULE for length in lengths])
    gaps = np.concatenate([[length] * 2**OCTAVE + [0.0] for length in lengths])
    return _Sampled(weights, probe @ points, probe @ (mode.rate @ points), gaps)


def _extremes(values: Matrix, slopes: Matrix, gaps: Matrix) -> tuple[float, float]:
    """Returns the lowest and the highest value, with the turning points of cubics through neighbouring samples."""
    start, end, gap = values[:-1], values[1:], gaps[:-1]
    left, right = slopes[:-1] * gap, slopes[1:] * gap
    turning = np.flatnonzero(left * right < 0)
    start, end, left, right = start[turning], end[turning], left[turning], right[turning]
    square = 3 * (end - start) - 2 * left - right
    cube = left + right - 2 * (end - start)
    # The root between 0 and 1 of left + 2 square t + 3 cube t^2, written so that nothing cancels.
    root = np.sqrt(np.maximum(square**2 - 3 * cube * left, 0.0))
    divisor = square + np.copysign(root, -left)
    time = np.where(divisor == 0, 0.5, -left / np.where(divisor == 0, 1.0, divisor))
    time = np.clip(time, 0.0, 1.0)
    turns = start + time * (left + time * (square + time * cube))
    every = np.concatenate([values, turns])
    return float(every.min()), float(every.max())
