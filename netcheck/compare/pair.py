"""A pair of states, compared: what the comparison rules look at."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import assert_never

from netcheck.compare.expected import expected, shorted
from netcheck.compare.faults import NAME, Homes, faults, hints, homes, weight
from netcheck.compare.inserted import blamed
from netcheck.compare.mirrored import Trial, set_right
from netcheck.compare.orientation import turned
from netcheck.compare.pairing import Pairing, pair_parts
from netcheck.compare.rearranged import arrangement
from netcheck.core.circuit import Circuit
from netcheck.core.difference import Fault, Lead, Merge, Move, Rearranged, Split
from netcheck.engine.rule import Finding
from netcheck.model.graph import CircuitGraph

__all__ = ["Pair", "compared"]

# The chassis and the common are where they are, whatever free ends vote for.
_ANCHOR = 1_000


@dataclass(frozen=True, eq=False)
class Pair:
    """Two states side by side.

    ``original`` has the declared changes made to it; ``rewired`` has its inserted parts bridged; ``real`` is
    the rewired state as it is.
    """

    original: CircuitGraph
    rewired: CircuitGraph
    real: CircuitGraph
    pairing: Pairing
    home: Homes
    faults: tuple[Fault, ...]
    idle: tuple[Finding, ...] = field(default=())


def compared(original: Circuit, rewired: Circuit) -> Pair:
    """Compares two circuits; the order of the two matters only for the names of faults."""
    should = expected(original, rewired)
    old_graph = CircuitGraph(should.circuit)
    new_graph = CircuitGraph(shorted(rewired, original))
    real = CircuitGraph(rewired)
    pairing = pair_parts(old_graph, new_graph)

    def tried(graph: CircuitGraph) -> Trial:
        return _trial(pairing, old_graph, graph)

    start, strips = set_right(tried(new_graph), tried)
    shared = hints(old_graph, start.graph)
    settled = arrangement(start.leads, pairing.free, old_graph, start.graph, shared)
    found = (*strips, *settled.exchanges, *faults(settled.strands, settled.home, start.graph))
    return Pair(
        old_graph,
        start.graph,
        real,
        pairing,
        settled.home,
        tuple(
            fault
            for fault in blamed(found, real, should.circuit)
            if pairing.covers(_concerned(fault)) and not _is_told_as_extra(fault, pairing, start.graph)
        ),
        should.idle,
    )


def _trial(pairing: Pairing, original: CircuitGraph, rewired: CircuitGraph) -> Trial:
    """The leads as they lie in a rewired state, and what of them is not at home."""
    shared = hints(original, rewired)
    votes = Counter({nets: 1 for nets, weight in shared.items() if weight >= NAME})
    for lead in pairing.leads:
        if not lead.part:
            votes[original.circuit.nets[lead.old], rewired.circuit.nets[lead.new]] += _ANCHOR
    leads = _turned(pairing, original, rewired, votes)
    pairs = tuple(zip(*_nets(leads, original, rewired), strict=True))
    weighed: Counter[tuple[int, int]] = Counter()
    for lead, nets in zip(leads, pairs, strict=True):
        weighed[nets] += weight(lead)
    home = homes(weighed, shared)
    displaced = frozenset(nets for nets in weighed if home.new_of.get(nets[0]) != nets[1])
    return Trial(rewired, leads, pairs, displaced, dict(home.old_of))


def _nets(leads: Sequence[Lead], original: CircuitGraph, rewired: CircuitGraph) -> tuple[list[int], list[int]]:
    return [original.circuit.nets[lead.old] for lead in leads], [rewired.circuit.nets[lead.new] for lead in leads]


def _turned(
    pairing: Pairing, original: CircuitGraph, rewired: CircuitGraph, votes: Mapping[tuple[int, int], int]
) -> tuple[Lead, ...]:
    """The leads with the new ends of every free pair that lies the other way round exchanged."""
    leads = list(pairing.leads)
    for i, j in turned(*_nets(leads, original, rewired), pairing.free, votes):
        one, other = leads[i], leads[j]
        leads[i] = replace(one, name=other.name, new=other.new)
        leads[j] = replace(other, name=one.name, new=one.new)
    return tuple(leads)


def _concerned(fault: Fault) -> tuple[Lead, ...]:
    """The leads that a fault is about, those on the other side of a missing or extra joint among them."""
    match fault:
        case Move():
            return fault.leads
        case Split():
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
