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
REGULATOR_TOLERANCE = 0.05

type_of_sign = Callable[[int, int], int]


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
    programme = _Writer(network, readings, sign).programme()
    if not programme.feasible:
        spared = [r for r in readings if _Writer(network, _without(readings, r), sign).programme().feasible]
        return Contradiction(tuple(spared))
    writer = _Writer(network, readings, sign)
    return tuple(writer.interval(programme, *pair) for pair in pairs)
