"""What speaks against an account: slips that may be hidden in one fault, and the nets on which to look for them."""

from collections import Counter
from collections.abc import Collection, Iterator

from netcheck.compare.faults.account import Account
from netcheck.compare.faults.hands import Hands
from netcheck.core.circuit import Circuit, Part
from netcheck.core.difference import Fault, Merge, Move, Rearranged, Split
from netcheck.model.graph import CircuitGraph

__all__ = ["doubt", "doubtful_nets", "unbonded", "unbonded_seats"]


def doubtful_nets(account: Account, original: Circuit) -> frozenset[int]:
    """The nets of the state as laid on which one slip may explain what seems to be several; none where one is told."""
    if account.cost + doubt(account, original) + len(account.bridged) < _SEVERAL:
        return frozenset()
    found = {net for fault in account.faults for net in _nets(account, fault)}
    found |= {account.laid.graph.circuit.nets[account.real.terminals(idle.part)[0]] for idle in account.bridged}
    return frozenset(found)


_SEVERAL = 2
"""One slip that is told as one needs no other account."""

UNBONDED_OR_MOVED = 2
"""A lug without its bond that is joined to another net is two slips, and better told as two than as one move."""


def doubt(account: Account, original: Circuit) -> int:
    """What speaks against an account beside what it costs: slips that are hidden in one fault."""
    held = [_holds_seat(account, fault, original) for fault in account.faults]
    return sum(UNBONDED_OR_MOVED if h else _hides_parts(account, f) for h, f in zip(held, account.faults, strict=True))


def _nets(account: Account, fault: Fault) -> set[int]:
    nets = account.laid.graph.circuit.nets
    match fault:
        case Split(home=home, new_net=new) | Move(home=home, new_net=new):
            return {nets[home], nets[new]}
        case Merge(new_net=new):
            return {nets[new]}
        case Rearranged():
            return set()


def _hides_parts(account: Account, fault: Fault) -> bool:
    """Whether a two-lead part lies across a bridge, so that the cut had to guess on which side it belongs."""
    if not isinstance(fault, Merge) or len(fault.culprits) != 1 or fault.culprits[0].bridges:
        return False
    graph = account.laid.graph
    net = graph.circuit.nets[fault.new_net]
    ends = Counter(graph.point(at).part for at in graph.leads_on(net))
    return any(count > 1 and len(graph.circuit.parts[part].leads) == 2 for part, count in ends.items())


def _holds_seat(account: Account, fault: Fault, original: Circuit) -> bool:
    """Whether a group that left the chassis for another net holds a mounting that the chassis does not reach."""
    if not isinstance(fault, Move) or len(fault.culprits) > 1:
        return False  # more than one thing of the other net is there: it is the place of that net, and insulated for it
    graph, own = account.laid.graph, {lead.new for lead in fault.leads}
    nets = graph.circuit.nets
    if nets[fault.home] != nets[0]:
        return False
    seats = unbonded(account, frozenset({nets[fault.new_net]}), original)
    return any(not graph.parts(fault.culprits, own, {at}) for _, at in seats)


def unbonded_seats(graph: CircuitGraph, original: Circuit) -> Iterator[tuple[str, int]]:
    """The parts with a mounting that is insulated from the chassis, with the point that would be bonded.

    One that the original has insulated too is meant to be.
    """
    hands = Hands(graph)
    for part in graph.circuit.parts.values():
        if _is_insulated(part) and not _is_insulated(original.parts.get(part.name)):
            at = hands.seat(part.name)
            if at is not None:
                yield part.name, at


def _is_insulated(part: Part | None) -> bool:
    return part is not None and "insulated" in part.features.words and "grounded" not in part.features.words


def unbonded(account: Account, nets: Collection[int], original: Circuit) -> Iterator[tuple[str, int]]:
    """Those of the mountings whose point is on some nets of the state as laid."""
    laid = account.laid.graph.circuit.nets
    return (seat for seat in unbonded_seats(account.real, original) if laid[seat[1]] in nets)
