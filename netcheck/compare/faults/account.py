"""What a rewired state comes to when it is compared: the faults that explain all of it, strand by strand."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from msgspec import Struct

from netcheck.compare.faults.laid import Laid, SideBySide
from netcheck.compare.faults.series import inserted_in
from netcheck.compare.faults.strands import faults, strands
from netcheck.compare.roles.pairing import Pairing
from netcheck.core.circuit import Circuit
from netcheck.core.difference import Fault, Lead, Merge, Move, Rearranged, Split
from netcheck.model.graph import CircuitGraph

if TYPE_CHECKING:
    from netcheck.compare.faults.inserted import Bridged

__all__ = ["Account", "accounted", "slips_of"]


class Account(Struct, frozen=True, eq=False):
    """The faults of one rewired state, each strand that is not at home being one.

    ``real`` is the state as it is; ``laid`` has its inserted parts bridged. ``bridged`` are the inserted parts that
    have both ends on one net, ``loose`` those with an end on nothing that no fault explains.
    """

    real: CircuitGraph
    laid: Laid
    faults: tuple[Fault, ...]
    bridged: "tuple[Bridged, ...]"
    loose: frozenset[str]

    @property
    def cost(self) -> int:
        """How many slips of the hand the account needs: a fault with several culprits is worth as many."""
        return sum(map(slips_of, self.faults)) + len(self.bridged) + len(self.loose)


def accounted(table: SideBySide, rewired: Circuit) -> Account:
    """The whole account of a state."""
    laid = table.laid(rewired)
    old, new = [was for was, _ in laid.pairs], [now for _, now in laid.pairs]
    found = faults(strands(laid.leads, old, new), laid.home, laid.graph)
    real = laid.graph.of(rewired)
    inserted = any(inserted_in(rewired, table.original.circuit))
    return _blamed(table, real, laid, found) if found or inserted else Account(real, laid, (), (), frozenset())


def _blamed(table: SideBySide, real: CircuitGraph, laid: Laid, found: Sequence[Fault]) -> Account:
    """The account with the blame on inserted parts where it is theirs."""
    from netcheck.compare.faults.inserted import blamed, waiting

    told, bridged = blamed(found, real, laid, table.original.circuit)
    covered = tuple(f for f in told if table.pairing.covers(_concerned(f)) and not _is_extra(f, table.pairing, laid))
    named = {lead.part for fault in covered for lead in _concerned(fault)} | {one.part.name for one in bridged}
    waits = {end.part for end in waiting(covered, real, laid).values()}
    return Account(real, laid, covered, bridged, frozenset(laid.idle.keys() - named - waits))


BUNDLE = 4
"""More leads than this, or the chassis with them, do not leave by one joint for another one."""


def slips_of(fault: Fault) -> int:
    """How many slips of a hand a fault is worth."""
    match fault:
        case Move(culprits=culprits):  # a group on a wrong net by several joints was hardly moved: each is a slip
            group = len(fault.leads) > 1 and len(culprits) > 1
            return max(_bundle(fault.leads), len(culprits) + group)
        case Merge():
            return max(1, len(fault.culprits))
        case Rearranged() | Split():
            return 1


def _bundle(leads: Sequence[Lead]) -> int:
    return 3 if len(leads) > BUNDLE or not all(lead.part for lead in leads) else 1


def _concerned(fault: Fault) -> tuple[Lead, ...]:
    """The leads that a fault is about, those on the other side of a missing or extra joint among them."""
    match fault:
        case Move() | Split():
            return fault.leads
        case Merge():
            return (*fault.leads, *fault.others)
        case Rearranged():
            return tuple(lead for swap in fault.swaps for lead in swap.leads)


def _is_extra(fault: Fault, pairing: Pairing, laid: Laid) -> bool:
    """Whether an undeclared part stands where a joint was: that it is there says why the joint is missing."""
    if not isinstance(fault, Split):
        return False
    nets = laid.graph.circuit.nets
    return any({fault.home, fault.new_net} == {nets[at] for at in laid.graph.terminals(p)} for p in pairing.extra)
