"""Windings in series across the line: two primaries for half its volts each, as a voltage selector may join them."""

from collections.abc import Iterator, Mapping

from msgspec import Struct

from netcheck.core.circuit import Part
from netcheck.core.groups import joined_by
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension, Quantity, first_of
from netcheck.electrical.mains.line import closed, contacts, ends, line_of, net_at
from netcheck.model.graph import CircuitGraph

__all__ = ["Fed", "Step", "as_one", "fed_in_series", "single", "way_across"]

LEAST = 0.02  # of the largest winding's volts that have to be left: windings that cancel feed nothing


class Fed(Struct, frozen=True):
    """What the windings between the line's two wires are made for together.

    Effective volts, negative where the first wire hangs on a last lead, and ohms, None where one of them is not stated.
    Volts are None too where they cancel: what such windings feed has no volts that could be told.
    """

    windings: tuple[str, ...]
    volts: float | None
    ohms: float | None


Step = tuple[str, float]


def fed_in_series(graph: CircuitGraph, part: Part) -> Fed | None:
    """The windings of a part that only together lie across the line; None where one alone does, or none."""
    way = way_across(graph, part)
    stated = part.features.winding_values
    volts = [sign * said for name, sign in way if (said := single(stated.get(name, ()), Dimension.VOLTAGE))]
    if len(way) < 2:
        return None
    known = len(volts) == len(way) and abs(sum(volts)) > LEAST * max(map(abs, volts))
    ohms = [said for name, _ in way if (said := single(stated.get(name, ()), Dimension.RESISTANCE)) is not None]
    names = tuple(name for name, _ in way)
    return Fed(names, sum(volts) if known else None, sum(ohms) if len(ohms) == len(way) else None)


def way_across(graph: CircuitGraph, part: Part) -> tuple[Step, ...]:
    """The windings of a part from the line's one wire to the other, each with its sense; empty where none lead there.

    Contacts closed as drawn and fuses count as joints.
    """
    line = line_of(graph)
    if line is None:
        return ()
    one = graph.once(as_one)
    start, end = (one.get(net, net) for net in (graph.circuit.nets[side.lead] for side in line.sides))
    return _way(tuple(_windings(graph, part, one)), start, end)


def single(values: tuple[Quantity, ...], dimension: Dimension) -> float | None:
    """The one figure that is stated of a dimension; None without, or of several (taps)."""
    said = first_of(values, dimension)
    return float(said.amount) if said is not None and len(said.amounts) == 1 else None


def _windings(graph: CircuitGraph, part: Part, one: Mapping[int, int]) -> Iterator[tuple[str, int, int]]:
    for name, leads in part.features.windings:
        a, b = net_at(graph, part, leads[0]), net_at(graph, part, leads[-1])
        if a is not None and b is not None:
            yield name, one.get(a, a), one.get(b, b)


def _way(windings: tuple[tuple[str, int, int], ...], start: int, end: int) -> tuple[Step, ...]:
    """The fewest windings from one net to another, each with the sense in which it is gone through; empty for none."""
    ways: dict[int, tuple[Step, ...]] = {start: ()}
    frontier = [start]
    for net in frontier:
        for name, a, b in windings:
            for near, far, sign in ((a, b, 1.0), (b, a, -1.0)):
                if near == net and far not in ways:
                    ways[far] = (*ways[net], (name, sign))
                    frontier.append(far)
    return ways.get(end, ())


def as_one(graph: CircuitGraph) -> dict[int, int]:
    """What contacts closed as drawn and fuses make one: each such net with the one that stands for it."""
    return joined_by(pair for part in graph.circuit.parts.values() for pair in _closed(graph, part))


def _closed(graph: CircuitGraph, part: Part) -> Iterator[tuple[int, int]]:
    if part.kind.family is Family.FUSE:
        yield from ends(graph, part)
    elif part.kind.family is Family.SWITCH:
        positions = dict(contacts(part))
        yield from closed(graph, part, positions.get(part.features.arguments.get("drawn", ""), contacts(part)[0][1]))
