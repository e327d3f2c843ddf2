"""What speaks for an exchange of two leads, beside the leads themselves."""

from collections.abc import Collection

from netcheck.model.graph import CircuitGraph

__all__ = ["borne_out"]


def borne_out(rewired: CircuitGraph, own: Collection[int], at: int) -> bool:
    """Whether a lead may belong where a point is that holds another lead now: not where nothing else is.

    ``own`` are the points of the leads that changed places. An inserted part goes with its lead and says nothing.
    """
    net = rewired.circuit.nets[at]
    return any(point not in own and not _is_inserted(rewired, point) for point in rewired.members[net])


def _is_inserted(rewired: CircuitGraph, at: int) -> bool:
    part = rewired.part_of(at)
    return part is not None and part.inserted is not None
