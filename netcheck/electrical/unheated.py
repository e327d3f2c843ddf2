"""Heater strings of which no figure is told, since something in them is not stated or not known: said in a line."""

from netcheck.core.kind import Family
from netcheck.model.graph import CircuitGraph

__all__ = ["unheated"]


def unheated(graph: CircuitGraph) -> tuple[str, ...]:
    """The closing line that says what is missing; none where the string was looked at, or there is none."""
    if not (graph.circuit.has(Family.CORD) and graph.circuit.has(Family.TUBE)):
        return ()
    from netcheck.electrical.table.heaters import heaters  # which the rule about them has loaded

    return tuple(f"NOT CHECKED: {said}" for said in graph.once(heaters).unknown)
