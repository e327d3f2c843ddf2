"""How the several parts of one role stand to each other: in parallel, in series, or both."""

from collections.abc import Sequence

from netcheck.compare.roles.reduction import reduced
from netcheck.core.circuit import Part
from netcheck.model.graph import CircuitGraph

__all__ = ["arrangement", "in_series"]


def arrangement(parts: Sequence[Part], graph: CircuitGraph) -> str:
    """``in parallel``, ``in series`` or ``together``; for a group that amounts to one part."""
    inner = in_series(parts, graph)
    if not inner:
        return "in parallel"
    between = {net for part in parts for net in _nets(part, graph)}
    return "in series" if len(inner) == len(parts) == len(between) - 1 else "together"


def in_series(parts: Sequence[Part], graph: CircuitGraph) -> tuple[Part, ...]:
    """The parts that bear only a share of the group's volts; none where it does not amount to one part."""
    whole = reduced(parts, graph)
    if whole is None:
        return ()
    outer = frozenset(graph.circuit.nets[end] for end in whole.ends)
    return tuple(part for part in parts if _nets(part, graph) != outer)


def _nets(part: Part, graph: CircuitGraph) -> frozenset[int]:
    return frozenset(graph.circuit.nets[at] for at in graph.terminals(part))
