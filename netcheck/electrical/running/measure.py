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


Kind = TypeVar("Kind")


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
    meter = _Meter(circuit, [_sample(circuit, stretch) for stretch in stretches if stretch.seconds > 0])
    elements = network.elements
    nodes = meter.courses(map(meter.node, range(circuit.count)))
    stored = meter.courses(map(meter.vector, range(circuit.dynamic)))
    volts, amperes = stored[: len(circuit.capacitors)], stored[len(circuit.capacitors) :]
    into = meter.courses(meter.rate(at, one.farads) for at, (_, one) in enumerate(circuit.capacitors))
    rectifiers = [part for _, part in _of(elements, Rectifier)]
    backwards = meter.courses(meter.between(part.anode, part.cathode) for part in rectifiers)
    loads = [load for _, load in _of(elements, Load) if load.amperes > 0]
    across = meter.courses(meter.between(load.plus, load.minus) for load in loads)
    return Measured(
        tuple(CapacitorDuty(one.name, *each) for (_, one), *each in zip(circuit.capacitors, volts, into, strict=True)),
        tuple(
            RectifierDuty(part.name, through, -inverse.low)
            for (part, through), inverse in zip(meter.through(_of(elements, Rectifier)), backwards, strict=True)
        ),
        tuple(_heat(part.name, through, part.ohms) for part, through in meter.through(_of(elements, Resistor))),
        tuple(_heat(one.name, through, one.ohms) for (_, one), through in zip(circuit.inductors, amperes, strict=True)),
        tuple(
            _heat(part.name, through, part.ohms)
            for part, through in meter.through(_of(elements, VoltageSource))
            if part.ohms
        ),
        tuple(course.mean for course in nodes),
        tuple(course.swing for course in nodes),
        frozenset(load.name for load, course in zip(loads, across, strict=True) if course.low < -BACK_VOLTS),
    )


def _of(elements: Iterable[Element], kind: type[Kind]) -> list[tuple[int, Kind]]:
    return [(at, element) for at, element in enumerate(elements) if isinstance(element, kind)]


def _heat(name: str, amperes: Course, ohms: float) -> Heat:
    return Heat(name, amperes, amperes.rms**2 * ohms)


class _Quantity(Struct, frozen=True):
    """What is read: ``factor`` times the sum of some rows of the samples, less another row where one is named."""

    rows: list[int]
    less: int | None = None
    factor: float = 1.0

    def of(self, samples: Matrix) -> Matrix:
        if self.less is not None:
            summed: Matrix = samples[self.rows[0]] - samples[self.less]
        else:
            summed = samples[self.rows[0]] if len(self.rows) == 1 else np.ones(len(self.rows)) @ samples[self.rows]
        return self.factor * summed


class _Meter:
    """Reads quantities, many at a time: what each costs apart is mostly the calls."""

    def __init__(self, circuit: Equations, sampled: Sequence[_Sampled]) -> None:
        self._nodes = len(circuit.spread)
        self._vector = self._nodes + len(circuit.branches)
        self._rates = self._vector + circuit.size
        self._rows_of: dict[int | None, list[int]] = {}
        for at, branch in enumerate(circuit.branches, self._nodes):
            self._rows_of.setdefault(branch.owner, []).append(at)
        self._weights = np.concatenate([one.weights for one in sampled])
        self._values = np.hstack([one.values for one in sampled])
        self._slopes = np.hstack([one.slopes for one in sampled])
        self._gaps = np.concatenate([one.gaps for one in sampled])

    def node(self, node: int) -> _Quantity:
        return _Quantity([node])

    def between(self, one: int, other: int) -> _Quantity:
        return _Quantity([one], less=other)

    def vector(self, at: int) -> _Quantity:
        return _Quantity([self._vector + at])

    def rate(self, at: int, factor: float) -> _Quantity:
        return _Quantity([self._rates + at], factor=factor)

    def through(self, placed: Sequence[tuple[int, Kind]]) -> Iterable[tuple[Kind, Course]]:
        """Each of some elements, by their places in the network, with the current through it."""
        read = self.courses(_Quantity(self._rows_of.get(owner, [])) for owner, _ in placed)
        return zip((element for _, element in placed), read, strict=True)

    def courses(self, readings: Iterable[_Quantity]) -> list[Course]:
        asked = list(readings)
        if not asked:
            return []
        values, slopes = (np.array([one.of(samples) for one in asked]) for samples in (self._values, self._slopes))
        lows, highs = _extremes(values, slopes, self._gaps)
        seconds = self._weights.sum()
        found = []
        for row, low, high in zip(values, lows, highs, strict=True):
            mean = float(self._weights @ row / seconds)
            ripple = math.sqrt(max(float(self._weights @ (row - mean) ** 2 / seconds), 0.0))
            found.append(Course(mean, low, high, ripple))
        return found


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


def _extremes(values: Matrix, slopes: Matrix, gaps: Matrix) -> tuple[list[float], list[float]]:
    """Returns the lowest and the highest value of each row, with the turning points of cubics through its samples."""
    gap = gaps[:-1]
    left, right = slopes[:, :-1] * gap, slopes[:, 1:] * gap
    rows, at = np.nonzero(left * right < 0)
    start, end, left, right = values[rows, at], values[rows, at + 1], left[rows, at], right[rows, at]
    square = 3 * (end - start) - 2 * left - right
    cube = left + right - 2 * (end - start)
    # The root between 0 and 1 of left + 2 square t + 3 cube t^2, written so that nothing cancels.
    root = np.sqrt(np.maximum(square**2 - 3 * cube * left, 0.0))
    divisor = square + np.copysign(root, -left)
    time = np.where(divisor == 0, 0.5, -left / np.where(divisor == 0, 1.0, divisor))
    time = np.clip(time, 0.0, 1.0)
    turns = start + time * (left + time * (square + time * cube))
    low, high = values.min(axis=1), values.max(axis=1)
    np.minimum.at(low, rows, turns)
    np.maximum.at(high, rows, turns)
    return low.tolist(), high.tolist()
