"""Which capacitors can hold a dangerous charge, and which of them nothing empties."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from math import isfinite

from netcheck.core.groups import joined_by
from netcheck.electrical.network.elements import Capacitor, Element, Inductor, Resistor, VoltageSource, pair_of
from netcheck.electrical.network.supplies import translated
from netcheck.model.graph import CircuitGraph

__all__ = ["SAFE_VOLTS", "charged", "emptied"]

SAFE_VOLTS = 60.0  # of direct current, IEC/EN 61010-1
# What may be touched, IEC 60335-1 8.1.4: 0.1 mfd up to 450 V, above that 45 microcoulombs.
LEAST_FARADS, LEAST_COULOMBS = 1e-7, 45e-6


def charged(graph: CircuitGraph, volts: Mapping[str, float]) -> tuple[Capacitor, ...]:
    """The capacitors of any kind that can hold more than 60 V, and more than may be touched.

    ``volts`` are the most that each sees. Where these have no bound they say nothing of the charge.
    """
    translation = translated(graph)
    every = [one for one in (*translation.network.elements, *translation.papers) if isinstance(one, Capacitor)]
    return tuple(one for one in every if _is_harmful(one.farads, abs(volts.get(one.name, 0.0))))


def _is_harmful(farads: float, volts: float) -> bool:
    if volts <= SAFE_VOLTS:
        return False
    return farads >= LEAST_FARADS or (isfinite(volts) and farads * volts > LEAST_COULOMBS)


def emptied(elements: Collection[Element]) -> frozenset[str]:
    """The capacitors from one end of which a path of resistors, chokes and windings leads to the other."""
    piece = joined_by(_conductors(elements))
    capacitors = (one for one in elements if isinstance(one, Capacitor))
    return frozenset(one.name for one in capacitors if piece.get(one.plus, one.plus) == piece.get(one.minus, one.minus))


def _conductors(elements: Iterable[Element]) -> Iterator[tuple[int, int]]:
    for one in elements:
        match one:
            case Resistor() | Inductor() | VoltageSource(stays=True):
                yield pair_of(one)
            case _:
                pass
