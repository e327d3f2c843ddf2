"""Between which volts must a capacitor lie, given the declared values, currents and readings with their tolerances?

Mean potentials and mean currents of the running set obey linear inequalities: a resistor's current lies between
two lines through the origin, a rectifier drops no more than its law at its mean current, a reading is a box.
"""

from collections.abc import Sequence

from msgspec import Struct

from netcheck.electrical.network.elements import Element, Network, Rectifier, Regulator, VoltageSource
from netcheck.electrical.proof.inequalities import Sign, written
from netcheck.electrical.proof.potentials import Potentials
from netcheck.electrical.proof.simplex import Programme

__all__ = ["Bounds", "Contradiction", "Interval", "StatedReading", "bounds"]

LEAST_VOLTS = 0.5  # no reading is taken to be nearer than this
SPARE_VOLTS = 100.0  # by which the box of possible voltages exceeds what the sources could make
SWEPT_VOLTS = 10_000.0  # what a sweep may make of a lower voltage


class StatedReading(Struct, frozen=True):
    """The meter showed ``volts`` from ``minus`` to ``plus``; the truth is within ``tolerance`` of it, as 0.2."""

    plus: int
    minus: int
    volts: float
    tolerance: float = 0.2


class Interval(Struct, frozen=True):
    """The volts between two nodes lie between these in the running set."""

    low: float
    high: float


class Contradiction(Struct, frozen=True):
    """No voltages satisfy the network and the readings; leaving out any one of ``readings`` would mend it."""

    readings: tuple[StatedReading, ...]


class Bounds:
    """What the values of a network and some readings of it leave possible."""

    def __init__(self, network: Network, readings: Sequence[StatedReading], sign: Sign) -> None:
        """Take what ``sign(a, b)`` knows: 1 where a lies at least as high as b, -1 where b does, 0 for nothing."""
        sources = sum(map(_volts, network.elements))
        box = SPARE_VOLTS + 4 * sources + 4 * max((abs(r.volts) for r in readings), default=0.0)
        self._readings = readings
        self._bare = written(network, sign, box)
        self._potentials = Potentials(self._bare)
        self._programme = self._with(readings)

    @property
    def feasible(self) -> bool:
        """Whether the readings can all be true of the network."""
        return self._programme.feasible

    def contradiction(self) -> Contradiction | None:
        """The readings that can't all be true of it; None where they can."""
        if self.feasible:
            return None
        return Contradiction(tuple(self._readings[at] for at in self._mends(range(len(self._readings)))))

    def _mends(self, tried: range) -> tuple[int, ...]:
        """The readings, of those tried, any one of which would mend it: none, where leaving out all of them does not.

        Of eighty readings most are dismissed in a few tries, where one after the other takes a programme each.
        """
        if not self._with([reading for at, reading in enumerate(self._readings) if at not in tried]).feasible:
            return ()
        if len(tried) < 2:
            return tuple(tried)
        half = len(tried) // 2
        return self._mends(tried[:half]) + self._mends(tried[half:])

    def interval(self, plus: int, minus: int) -> Interval:
        """Between which mean volts the first node lies against the second, where all readings can be true."""
        costs, fixed = self._potentials.across(plus, minus)
        return Interval(fixed + self._programme.least(costs), fixed - self._programme.least(-costs))

    def _with(self, readings: Sequence[StatedReading]) -> Programme:
        full = self._bare.copy()
        for reading in readings:
            spread = max(abs(reading.volts) * reading.tolerance, LEAST_VOLTS)
            full.at_most(spread + reading.volts, (reading.plus, reading.minus))
            full.at_most(spread - reading.volts, (reading.minus, reading.plus))
        return Programme(*self._potentials.rows(full.rows), *self._potentials.balances)


def bounds(
    network: Network, readings: Sequence[StatedReading], pairs: Sequence[tuple[int, int]], sign: Sign
) -> tuple[Interval, ...] | Contradiction:
    """The intervals of the mean volts of each pair's first node against its second."""
    known = Bounds(network, readings, sign)
    return known.contradiction() or tuple(known.interval(*pair) for pair in pairs)


def _volts(element: Element) -> float:
    match element:
        case VoltageSource(peak=peak):
            return abs(peak)
        case Rectifier(driven=False):
            return SWEPT_VOLTS
        case Regulator(volts=volts):
            return volts
        case _:
            return 0.0
