"""Between which volts must a capacitor lie, given the declared values, currents and readings with their tolerances?

Mean potentials and mean currents of the running set obey linear inequalities: a resistor's current lies between
two lines through the origin, a rectifier drops no more than its law at its mean current, a reading is a box.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from netcheck.electrical.network.elements import Element, Network, Rectifier, Regulator, Source
from netcheck.electrical.proof.inequalities import Inequalities, Sign, written
from netcheck.electrical.proof.potentials import Potentials
from netcheck.electrical.proof.simplex import Programme

__all__ = ["Contradiction", "Interval", "Reading", "bounds"]

LEAST_VOLTS = 0.5  # no reading is taken to be nearer than this
SPARE_VOLTS = 100.0  # by which the box of possible voltages exceeds what the sources could make
SWEPT_VOLTS = 10_000.0  # what a sweep may make of a lower voltage


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
    box = SPARE_VOLTS + 4 * sum(map(_volts, network.elements)) + 4 * max((abs(r.volts) for r in readings), default=0.0)
    bare = written(network, sign, box)
    potentials = Potentials(bare)
    programme = _programme(potentials, bare, readings)
    if programme.feasible:
        return tuple(_interval(potentials, programme, *pair) for pair in pairs)
    mends = (each for each in readings if _programme(potentials, bare, [r for r in readings if r is not each]).feasible)
    return Contradiction(tuple(mends))


def _programme(potentials: Potentials, bare: Inequalities, readings: Sequence[Reading]) -> Programme:
    full = bare.copy()
    for reading in readings:
        spread = max(abs(reading.volts) * reading.tolerance, LEAST_VOLTS)
        full.at_most(spread + reading.volts, (reading.plus, reading.minus))
        full.at_most(spread - reading.volts, (reading.minus, reading.plus))
    return Programme(*potentials.rows(full.rows), *potentials.balances)


def _interval(potentials: Potentials, programme: Programme, plus: int, minus: int) -> Interval:
    costs, fixed = potentials.across(plus, minus)
    return Interval(fixed + programme.least(costs), fixed - programme.least(-costs))


def _volts(element: Element) -> float:
    match element:
        case Source(peak=peak):
            return abs(peak)
        case Rectifier(driven=False):
            return SWEPT_VOLTS
        case Regulator(volts=volts):
            return volts
        case _:
            return 0.0
