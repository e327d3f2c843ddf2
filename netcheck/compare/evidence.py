"""What speaks for an exchange of two leads, beside the leads themselves."""

from collections.abc import Collection, Mapping

from netcheck.model.graph import CircuitGraph

__all__ = ["borne_out"]


def borne_out(
    rewired: CircuitGraph, hints: Mapping[tuple[int, int], int], own: Collection[int], old: int, at: int
) -> bool:
    """Whether a lead of the old net may belong where a point is that holds another lead now.

    ``own`` are the points of the leads that changed places. Any other lead there speaks for it, save
    that of an inserted part, which goes with its lead; where there is none, a
    place will do, unless the original knows the net by another place.
    """
    net = rewired.circuit.nets[at]
    if any(point not in own and not _is_inserted(rewired, point) for point in rewired.leads_on(net)):
        return True
    known = {new for was, new in hints if was == old}
    return net in known if known else any(point not in own for point in rewired.members[net])


def _is_inserted(rewired: CircuitGraph, at: int) -> bool:
    part = rewired.part_of(at)
    return part is not None and part.inserted is not None
