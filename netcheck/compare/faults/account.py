"""What a rewired state comes to when it is compared: the faults that explain all of it."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import assert_never

from netcheck.compare.faults.inserted import Bridged, blamed
from netcheck.compare.faults.mirrored import Trial, right_way_round, set_right
from netcheck.compare.faults.orientation import turned
from netcheck.compare.faults.rearranged import arrangement
from netcheck.compare.faults.strands import NAME, Homes, faults, hints, homes, weight
from netcheck.compare.roles.expected import shorted
from netcheck.compare.roles.pairing import Pairing
from netcheck.core.circuit import Circuit
from netcheck.core.difference import Fault, Lead, Merge, Move, Rearranged, Split, Way
from netcheck.model.graph import CircuitGraph

__all__ = ["Account", "Accountant", "slips_of"]

# The chassis and the common are where they are, whatever free ends vote for.
_ANCHOR = 1_000


@dataclass(frozen=True, slots=True, eq=False)
class Account:
    """The faults of one rewired state.

    ``real`` is the state as it is; ``laid`` has its inserted parts bridged and its mirrored parts set right.
    ``bridged`` are the inserted parts that have both ends on one net; ``disorder`` is that of the state as
    it is found.
    """

    real: CircuitGraph
    disorder: int
    laid: Trial
    home: Homes
    faults: tuple[Fault, ...]
    bridged: tuple[Bridged, ...]

    @property
    def cost(self) -> int:
        """How many slips of the hand the account needs: a fault with several culprits is worth as many."""
        return sum(map(slips_of, self.faults)) + len(self.bridged)


class Accountant:
    """Compares states of one rewired chassis with one original, part by part as they are paired."""

    def __init__(self, original: CircuitGraph, pairing: Pairing) -> None:
        self.original = original
        self.pairing = pairing

    def laid(self, rewired: Circuit) -> Trial:
        """The leads as they lie in a state, and what of them is not at home; cheap."""
        return self._laid(CircuitGraph(shorted(rewired, self.original.circuit)))

    def account(self, rewired: Circuit) -> Account:
        """The whole account of a state."""
        found_so = self.laid(rewired)
        start, strips = set_right(found_so, self.laid)
        graph, real = start.graph, CircuitGraph(rewired)
        settled = arrangement(start.leads, self.pairing.free, self.original, graph, hints(self.original, graph))
        found = (*strips, *settled.exchanges, *faults(settled.strands, settled.home, graph))
        right = CircuitGraph(right_way_round(rewired, strips)) if strips else real
        told, idle = blamed(found, right, graph, self.original.circuit)
        return Account(
            real,
            found_so.disorder,
            start,
            settled.home,
            tuple(
                fault
                for fault in told
                if self.pairing.covers(_concerned(fault)) and not _is_told_as_extra(fault, self.pairing, graph)
            ),
            idle,
        )

    def _laid(self, graph: CircuitGraph) -> Trial:
        shared = hints(self.original, graph)
        votes = Counter({nets: 1 for nets, weight in shared.items() if weight >= NAME})
        for lead in self.pairing.leads:
            if not lead.part:
                votes[self.original.circuit.nets[lead.old], graph.circuit.nets[lead.new]] += _ANCHOR
        leads = self._turned(graph, votes, shared)
        pairs = tuple(zip(*self._nets(leads, graph), strict=True))
        weighed: Counter[tuple[int, int]] = Counter()
        for lead, nets in zip(leads, pairs, strict=True):
            weighed[nets] += weight(lead)
        home = homes(weighed, shared)
        displaced = frozenset(nets for nets in weighed if home.new_of.get(nets[0]) != nets[1])
        return Trial(graph, leads, pairs, displaced, dict(home.old_of))

    def _nets(self, leads: Sequence[Lead], graph: CircuitGraph) -> tuple[list[int], list[int]]:
        old, new = self.original.circuit.nets, graph.circuit.nets
        return [old[lead.old] for lead in leads], [new[lead.new] for lead in leads]

    def _turned(
        self, graph: CircuitGraph, votes: Mapping[tuple[int, int], int], shared: Mapping[tuple[int, int], int]
    ) -> tuple[Lead, ...]:
        """The leads with the new ends of every free pair that lies the other way round exchanged."""
        leads = list(self.pairing.leads)
        for i, j in turned(*self._nets(leads, graph), self.pairing.free, votes, shared):
            one, other = leads[i], leads[j]
            leads[i] = replace(one, name=other.name, new=other.new)
            leads[j] = replace(other, name=one.name, new=one.new)
        return tuple(leads)


_MANY = 4
"""More leads than this, or the chassis with them, do not leave by one joint for another one."""


def slips_of(fault: Fault) -> int:
    """How many slips of a hand a fault is worth."""
    match fault:
        case Move(culprits=culprits):  # a group on a wrong net by several joints was hardly moved: each is a slip
            group = len(fault.leads) > 1 and len(culprits) > 1
            return max(_bundle(fault.leads), len(culprits) + group)
        case Merge():
            return max(1, len(fault.culprits))
        case Rearranged(way=Way.LEADS):
            return 1 + sum(_bundle(swap.leads) for swap in fault.swaps if len(swap.leads) > 1)
        case Rearranged() | Split():
            return 1
    assert_never(fault)


def _bundle(leads: Sequence[Lead]) -> int:
    return 3 if len(leads) > _MANY or not all(lead.part for lead in leads) else 1


def _concerned(fault: Fault) -> tuple[Lead, ...]:
    """The leads that a fault is about, those on the other side of a missing or extra joint among them."""
    match fault:
        case Move() | Split():
            return fault.leads
        case Merge():
            return (*fault.leads, *fault.others)
        case Rearranged():
            return tuple(lead for swap in fault.swaps for lead in swap.leads)
    assert_never(fault)


def _is_told_as_extra(fault: Fault, pairing: Pairing, rewired: CircuitGraph) -> bool:
    """Whether an undeclared part stands where a joint was: that it is there says why the joint is missing."""
    if not isinstance(fault, Split):
        return False
    nets = rewired.circuit.nets
    return any({fault.home, fault.new_net} == {nets[at] for at in rewired.terminals(part)} for part in pairing.extra)
