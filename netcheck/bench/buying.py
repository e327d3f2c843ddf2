"""From two states to an order: what is computed once for all parts."""

from netcheck.bench.buy import Basis, Need, Picks, needs
from netcheck.bench.power_up import power_up
from netcheck.core.circuit import Circuit
from netcheck.electrical.mains.line import line_of
from netcheck.electrical.mains.line_parts import Place, on_line
from netcheck.electrical.table.supply import SupplyTable, supply
from netcheck.model.graph import CircuitGraph

__all__ = ["needed"]


def needed(old: Circuit | None, graph: CircuitGraph, picks: Picks) -> tuple[Need, ...]:
    """What a state needs that the one before does not have. ``picks`` are the values fitted for an old one."""
    taken = power_up(graph).taken
    amperes = taken.amperes if taken is not None else None
    return needs(Basis(old, graph.circuit, _table(graph), _classes(graph), amperes, picks))


def _table(graph: CircuitGraph) -> SupplyTable | None:
    """The supply; None where nothing drives it or its running state is not found."""
    if not graph.circuit.mains:
        return None
    try:
        table = supply(graph)
    except ValueError:  # no common period
        return None
    return table if table.converged and table.lines else None


def _classes(graph: CircuitGraph) -> dict[str, str]:
    line = line_of(graph)
    found: dict[str, str] = {}
    for one in on_line(graph, line) if line is not None else ():
        asked = "Y2 or Y1" if one.place is Place.TO_METAL else "X2, X1 or Y"
        found[one.part.name] = asked
    return found
