"""Which capacitors can hold a dangerous charge, and which of them nothing empties."""

from collections.abc import Collection, Iterable, Iterator, Mapping

from netcheck.electrical.network.elements import Capacitor, Element, Inductor, Resistor, VoltageSource
from netcheck.electrical.network.supplies import translated
from netcheck.model.graph import CircuitGraph

__all__ = ["SAFE_VOLTS", "charged", "emptied"]

SAFE_VOLTS = 60.0  # of direct current, IEC/EN 61010-1
LEAST_FARADS = 1e-7  # of a capacitor whose charge can hurt: 45 microcoulombs at 450 V


def charged(graph: CircuitGraph, volts: Mapping[str, float]) -> tuple[Capacitor, ...]:
    """The capacitors that can hold more than 60 V, of any kind from 0.1 mfd up; ``volts`` are the most they see."""
    translation = translated(graph)
    every = [one for one in (*translation.network.elements, *translation.papers) if isinstance(one, Capacitor)]
    return tuple(e for e in every if e.farads >= LEAST_FARADS and abs(volts.get(e.name, 0.0)) > SAFE_VOLTS)


def emptied(elements: Collection[Element]) -> frozenset[str]:
    """The capacitors from one end of which a path of resistors, chokes and windings leads to the other."""
    piece: dict[int, list[int]] = {}
    for a, b in _conductors(elements):
        one, other = piece.setdefault(a, [a]), piece.setdefault(b, [b])
        if one is not other:
            more, less = (one, other) if len(one) >= len(other) else (other, one)
            more.extend(less)
            piece.update(dict.fromkeys(less, more))
    capacitors = (one for one in elements if isinstance(one, Capacitor))
    return frozenset(
        one.name
        for one in capacitors
        if one.plus == one.minus or (one.plus in piece and piece[one.plus] is piece.get(one.minus))
    )


def _conductors(elements: Iterable[Element]) -> Iterator[tuple[int, int]]:
    for one in elements:
        match one:
            case Resistor(a=a, b=b) | Inductor(a=a, b=b):
                yield a, b
            case VoltageSource(plus=a, minus=b, stays=True):
                yield a, b
            case _:
                pass
