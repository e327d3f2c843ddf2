"""What a hand on metal gets of the line, as rows of the supply's table: the same figures as line safety tells."""

from math import isinf, nan

from netcheck.electrical.mains.leakage import Leak, leaks
from netcheck.electrical.table.rows import TouchRow
from netcheck.model.graph import CircuitGraph

__all__ = ["touched_rows"]

MOST_NAMED = 3  # parts that let most of it pass


def touched_rows(graph: CircuitGraph) -> tuple[TouchRow, ...]:
    """The chassis and all that is said to be exposed, plug either way, switches as they let most pass."""
    return tuple(map(_row, leaks(graph)))


def _row(leak: Leak) -> TouchRow:
    names = [name for name, _ in leak.unsaid] or [way.part for way in leak.ways]
    joined = isinf(leak.amperes)
    return TouchRow(
        leak.metal,
        nan if leak.unsaid else leak.amperes,
        leak.limit,
        leak.side if leak.amperes > 0 or leak.on_neutral else "",
        leak.switched,
        0.0 if joined else leak.direct,
        () if joined else tuple(names[:MOST_NAMED]),
        leak.on_neutral,
    )
