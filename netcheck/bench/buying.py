"""From two states to an order: what is computed once for all parts.

An order has no figure that was not computed. Without a supply that works out, an electrolytic of a set without a
transformer is at least ordered for the peak of a high line.
"""

import math
from collections.abc import Iterator

from netcheck.bench.buy import Basis, LineClass, Need, needs
from netcheck.bench.ordered import Picks
from netcheck.bench.power_up import power_up
from netcheck.core.circuit import Circuit
from netcheck.core.quantity import Dimension
from netcheck.electrical.mains.allowance import largest_kept
from netcheck.electrical.mains.line import line_of
from netcheck.electrical.mains.line_parts import LinePosition, on_line
from netcheck.electrical.mains.off_the_line import is_off_the_line
from netcheck.electrical.shared_out import shared_out
from netcheck.electrical.stress import HIGH_LINE, charges
from netcheck.electrical.study import known
from netcheck.electrical.table.supply import SupplyTable, supply
from netcheck.electrical.unsettled import unsettled
from netcheck.model.graph import CircuitGraph

__all__ = ["needed"]

LEAST_AMPERES = 1e-5  # of a rectifier that feeds anything


def needed(old: Circuit | None, graph: CircuitGraph, picks: Picks) -> tuple[Need, ...]:
    """What a state needs that the one before does not have. ``picks`` are the values fitted for an old one."""
    taken = power_up(graph).taken
    amperes = taken.amperes if taken is not None and not taken.unknown else None
    table = _table(graph)
    return needs(
        Basis(
            old, graph.circuit, table, dict(_seen(graph)) if table is not None else {},
            dict(_heat(graph, table)), _line_peak(graph), dict(_classes(graph)), amperes, picks,
        )
    )  # fmt: skip


def _table(graph: CircuitGraph) -> SupplyTable | None:
    """The supply; None where nothing drives it or its running state is not found."""
    if not graph.circuit.mains:
        return None
    table = supply(graph)
    works = any(one.mean > LEAST_AMPERES for one in table.rectifiers) or not table.rectifiers
    return table if table.converged and table.lines and works else None


def _seen(graph: CircuitGraph) -> Iterator[tuple[str, float]]:
    """What capacitors see, of those whose volts rest on no value that is missing and are bounded."""
    unknown = unsettled(graph) | _open_volts(graph)
    return ((name, abs(v)) for name, v in charges(graph).items() if name not in unknown and math.isfinite(v))


def _open_volts(graph: CircuitGraph) -> frozenset[str]:
    """Those that see more in use than cold, by what depends on how a stated current divides."""
    seen = charges(graph)
    found = known(graph)
    most = max((abs(volts) for volts in found.nodes), default=0.0) if found is not None else math.inf
    return frozenset(name for name in shared_out(graph).capacitors if abs(seen[name]) < most)


def _heat(graph: CircuitGraph, table: SupplyTable | None) -> Iterator[tuple[str, float]]:
    """The heat of resistors in the supply and in heater strings."""
    found = known(graph) if table is not None else None
    if found is not None:
        shared = shared_out(graph).resistances
        yield from ((one.name, one.watts) for one in found.resistors if one.name not in shared)
    for string in table.heaters if table is not None else ():
        yield from ((one.name, one.watts) for one in string.droppers)


def _line_peak(graph: CircuitGraph) -> float | None:
    volts = next((float(q.amount) for q in graph.circuit.mains if q.dimension is Dimension.VOLTAGE), None)
    return volts * HIGH_LINE * math.sqrt(2) if volts is not None and is_off_the_line(graph) else None


def _classes(graph: CircuitGraph) -> Iterator[tuple[str, LineClass]]:
    line = line_of(graph)
    for one in on_line(graph, line) if line is not None else ():
        if one.place is LinePosition.TO_METAL:
            yield one.part.name, LineClass("Y2 or Y1", largest_kept(graph, one.part, one.metal))
        else:
            yield one.part.name, LineClass("X2, X1 or Y")
