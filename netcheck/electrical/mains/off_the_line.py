"""Whether a set is fed straight off the line, with no transformer between the line and its supply."""

from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.electrical.mains.line import line_of
from netcheck.model.graph import CircuitGraph

__all__ = ["is_off_the_line"]

_RECTIFYING = (Family.TUBE, Family.RECTIFIER)


def is_off_the_line(graph: CircuitGraph) -> bool:
    """Whether the line cord feeds a rectifier or a heater with no transformer between: both its sides lead to one.

    With a slip that joins one side to the chassis only that side does.
    """
    line = line_of(graph)
    return line is not None and all(_feeds(graph, side.nets) for side in line.sides)


def _feeds(graph: CircuitGraph, nets: frozenset[int]) -> bool:
    parts = [part for part in graph.circuit.parts.values() if not _is_barred(part)]
    passing = [_nets(graph, part) for part in parts if part.kind.family not in _RECTIFYING]
    reached = set(nets)
    while fresh := {net for ends in passing if ends & reached for net in ends} - reached:
        reached |= fresh
    return any(_nets(graph, part) & reached for part in parts if part.kind.family in _RECTIFYING)


def _is_barred(part: Part) -> bool:
    """Whether it keeps the direct current of a supply off the line."""
    return part.kind.family is Family.TRANSFORMER or part.kind.family.stores


def _nets(graph: CircuitGraph, part: Part) -> set[int]:
    """The nets of a part through which current can come from the line: not those of a strip, a plug or a lug."""
    if part.kind.place or part.kind.family is Family.CORD:
        return set()
    return {graph.circuit.nets[at] for at in graph.terminals(part)}
