"""Between which volts must a capacitor lie, given the declared values, currents and readings with their tolerances?

Mean potentials and mean currents of the running set obey linear inequalities: a resistor's current lies between
two lines through the origin, a rectifier drops no more than its law at its mean current, a reading is a box.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from netcheck.electrical.currents import joined_nodes
from netcheck.electrical.network import (
    Capacitor,
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Regulator,
    Resistor,
    Source,
    Tube,
)
from netcheck.electrical.simplex import Programme

__all__ = ["Contradiction", "Interval", "Reading", "bounds"]

WINDING_TOLERANCE = 0.2
SUPPLY_TOLERANCE = 0.1
DROP_TOLERANCE = 0.5  # an aged rectifier drops more than its law says
REGULATOR_TOLERANCE = 0.05

LEAST_VOLTS = 0.5  # no reading is taken to be nearer than this
SPARE_VOLTS = 100.0  # by which the box of possible voltages exceeds what the sources could make
SWEPT_VOLTS = 10_000.0  # what a sweep may make of a lower voltage

MILLIAMPERE = 1e-3

Sign = Callable[[int, int], int]


@dataclass(frozen=True, slots=True)
class Reading:
    """The meter showed ``volts`` from ``minus`` to ``plus``; the truth is within ``tolerance`` of it, as 0.2."""

    plus: int
    minus: int
    volts: float
    tolerance: float = 0.2


@dataclass(frozen=True, slots=True)
class Interval:
    """The volts between two nodes lie between these in the running set."""

    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Contradiction:
    """No voltages satisfy the network and the readings; leaving out any one of ``readings`` would mend it."""

    readings: tuple[Reading, ...]


def bounds(
    network: Network, readings: Sequence[Reading], pairs: Sequence[tuple[int, int]], sign: Sign
) -> tuple[Interval, ...] | Contradiction:
    """The intervals of the mean volts of each pair's first node against its second.

    ``sign(a, b)`` is 1 where a is known to lie at least as high as b, -1 where b does, 0 where nothing is known.
    """
    writer = _Writer(network, readings, sign)
    programme = writer.programme()
    if programme.feasible:
        return tuple(writer.interval(programme, *pair) for pair in pairs)
    return Contradiction(tuple(each for each in readings if _mended(network, readings, each, sign)))


def _mended(network: Network, readings: Sequence[Reading], left_out: Reading, sign: Sign) -> bool:
    kept = [reading for reading in readings if reading is not left_out]
    return _Writer(network, kept, sign).programme().feasible


class _Writer:
    """Writes the inequalities down; every variable is a column that is never negative.

    A node's column is its potential above the floor of the box. Currents are counted in a unit of their own element,
    so that all figures are of the size of volts.
    """

    def __init__(self, network: Network, readings: Sequence[Reading], sign: Sign) -> None:
        self._joined = joined_nodes(network)
        self._sign = sign
        self._box = SPARE_VOLTS + 4 * sum(map(_volts, network.elements))
        self._box += 4 * max((abs(reading.volts) for reading in readings), default=0.0)
        self._columns = network.count
        self._rows: list[tuple[dict[int, float], float]] = []
        self._balance: list[dict[int, float]] = [{} for _ in range(network.count)]
        self._drawn = [0.0] * network.count
        self._equal({self._joined[0]: 1.0}, self._box)
        for element in network.elements:
            if isinstance(element, Resistor | Inductor | Source):
                self._add_linear(element)
            else:
                self._add_valve(element)
        for reading in readings:
            self._add_reading(reading)

    def _add_reading(self, reading: Reading) -> None:
        spread = max(abs(reading.volts) * reading.tolerance, LEAST_VOLTS)
        across = self._across(reading.plus, reading.minus)
        self._at_most(across, reading.volts + spread)
        self._at_most(_negated(across), spread - reading.volts)

    def programme(self) -> Programme:
        rows = [*self._rows, *zip(self._balance, self._drawn, strict=True)]
        matrix = np.zeros((len(rows), self._columns))
        for row, (coefficients, _) in enumerate(rows):
            matrix[row, list(coefficients)] = list(coefficients.values())
        return Programme(matrix, np.array([right for _, right in rows]))

    def interval(self, programme: Programme, plus: int, minus: int) -> Interval:
        costs = np.zeros(self._columns)
        for column, factor in self._across(plus, minus).items():
            costs[column] = factor
        return Interval(programme.least(costs), -programme.least(-costs))

    def _across(self, plus: int, minus: int) -> dict[int, float]:
        a, b = self._joined[plus], self._joined[minus]
        return {} if a == b else {a: 1.0, b: -1.0}

    def _column(self, a: int, b: int, unit: float) -> int:
        """A current from a to b that is never negative, counted in ``unit`` amperes."""
        column, self._columns = self._columns, self._columns + 1
        for node, way in ((self._joined[a], 1.0), (self._joined[b], -1.0)):
            self._balance[node][column] = self._balance[node].get(column, 0.0) + way * unit
        return column

    def _equal(self, coefficients: dict[int, float], right: float) -> None:
        self._rows.append((coefficients, right))

    def _at_most(self, coefficients: dict[int, float], right: float) -> None:
        slack, self._columns = self._columns, self._columns + 1
        self._equal({**coefficients, slack: 1.0}, right)

    def _add_linear(self, element: Resistor | Inductor | Source) -> None:
        match element:
            case Source(hertz=0):
                self._add_supply(element)
            case Resistor(a=a, b=b, ohms=ohms, tolerance=tolerance) if ohms > 0:
                self._add_resistance(a, b, ohms, tolerance)
            case Inductor(a=a, b=b, ohms=ohms) | Source(plus=a, minus=b, ohms=ohms) if ohms > 0:
                self._add_resistance(a, b, ohms, WINDING_TOLERANCE)
            case _:
                pass

    def _add_valve(self, element: Element) -> None:
        match element:
            case Rectifier():
                self._add_rectifier(element)
            case Regulator(anode=a, cathode=b, volts=volts):
                self._column(a, b, MILLIAMPERE)
                self._at_most(self._across(a, b), volts * (1 + REGULATOR_TOLERANCE))
            case Load():
                self._add_load(element)
            case Capacitor(plus=a, minus=b, polarised=True) if self._sign(a, b):
                self._at_most(_times(self._across(a, b), -self._sign(a, b)), 0.0)
            case Tube():
                self._add_tube(element)
            case _:
                pass

    def _add_resistance(self, a: int, b: int, ohms: float, tolerance: float) -> None:
        """The current in units of volt per ohm lies between two factors of the volts; a known sign makes it a wedge."""
        low, high = 1 / (1 + tolerance), 1 / (1 - tolerance)
        known = self._sign(a, b)
        if known < 0:
            a, b = b, a
        current = {self._column(a, b, 1 / ohms): 1.0}
        across = self._across(a, b)
        spread = 0.0
        if not known:
            current[self._column(b, a, 1 / ohms)] = -1.0
            spread = (high - low) * self._box
            low = high = (high + low) / 2
        self._at_most(current | _times(across, -high), spread)
        self._at_most(_negated(current) | _times(across, low), spread)

    def _add_supply(self, source: Source) -> None:
        """Out of its plus comes current, or into it, and its volts fall or rise by that through its resistance."""
        unit = MILLIAMPERE
        out, into = self._column(source.minus, source.plus, unit), self._column(source.plus, source.minus, unit)
        fallen = self._across(source.plus, source.minus) | {out: source.ohms * unit, into: -source.ohms * unit}
        spread = abs(source.peak) * SUPPLY_TOLERANCE
        self._at_most(fallen, source.peak + spread)
        self._at_most(_negated(fallen), spread - source.peak)

    def _add_rectifier(self, rectifier: Rectifier) -> None:
        current = self._column(rectifier.anode, rectifier.cathode, MILLIAMPERE)
        if not rectifier.driven:
            return
        across = self._across(rectifier.anode, rectifier.cathode)
        worse = 1 + DROP_TOLERANCE
        for (volts, amperes), (more_volts, more_amperes) in pairwise(rectifier.law.corners):
            ohms = (more_volts - volts) / (more_amperes - amperes)
            self._at_most(across | {current: -worse * ohms * MILLIAMPERE}, worse * (volts - ohms * amperes))

    def _add_tube(self, tube: Tube) -> None:
        if self._sign(tube.plate, tube.cathode) >= 0:
            self._column(tube.plate, tube.cathode, MILLIAMPERE)
        if tube.grid is not None:
            self._column(tube.grid, tube.cathode, MILLIAMPERE)

    def _add_load(self, load: Load) -> None:
        least = load.amperes * (1 - load.tolerance)
        more = self._column(load.plus, load.minus, load.amperes)
        self._at_most({more: 1.0}, 2 * load.tolerance)
        self._drawn[self._joined[load.plus]] -= least
        self._drawn[self._joined[load.minus]] += least


def _negated(coefficients: dict[int, float]) -> dict[int, float]:
    return _times(coefficients, -1.0)


def _times(coefficients: dict[int, float], factor: float) -> dict[int, float]:
    return {column: factor * each for column, each in coefficients.items()}


def _volts(element: Element) -> float:
    match element:
        case Source(peak=peak):
            return abs(peak)
        case Regulator(volts=volts):
            return volts
        case _:
            return 0.0
