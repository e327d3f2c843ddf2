"""Two parts of one branch in the other order: one after the other, with nothing else between, that is equal."""

from netcheck.compare.pair import Pair
from netcheck.core.circuit import Part
from netcheck.core.difference import Fault, Rearranged, Way

__all__ = ["reordered"]


def reordered(pair: Pair, fault: Fault) -> bool:
    """Whether an exchange of two parts, or of their outer ends, only changes their order in a branch."""
    if not isinstance(fault, Rearranged) or len(fault.parts) != 2 or fault.way not in (Way.PARTS, Way.LEADS):
        return False
    olds = {new.name: roles.old[0] for roles in pair.pairing.pairs for new in roles.new if len(roles.old) == 1}
    one, other = (olds.get(name) for name in fault.parts)
    if one is None or other is None:
        return False
    between = _between(pair, one, other)
    if fault.way is Way.PARTS:
        return bool(between)
    outer = all(swap.old_net not in between for swap in fault.swaps)
    return bool(between) and outer and _is_free(one) and _is_free(other)


def _between(pair: Pair, one: Part, other: Part) -> set[int]:
    """The nets of the original on which two parts are and nothing else."""
    graph = pair.original
    nets = graph.circuit.nets
    shared = {nets[at] for at in graph.terminals(one)} & {nets[at] for at in graph.terminals(other)}
    return {net for net in shared if len(graph.leads_on(net)) == 2 and net != nets[0]}


def _is_free(part: Part) -> bool:
    return len(part.leads) == 2 and bool(part.free)
