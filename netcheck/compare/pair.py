"""A pair of states, compared: what the comparison rules look at."""

from collections import Counter
from collections.abc import Mapping
from functools import cached_property
from typing import TYPE_CHECKING

from msgspec import Struct, field
from msgspec.structs import replace

from netcheck.compare.faults.account import Account, accounted
from netcheck.compare.faults.laid import Laid, SideBySide
from netcheck.compare.faults.outcome import Explained, PutRight
from netcheck.compare.faults.strands import Homes
from netcheck.compare.roles.expected import expected, shorted
from netcheck.compare.roles.pairing import Pairing, pair_parts
from netcheck.core.circuit import Circuit, Part
from netcheck.core.difference import Fault, Merge, Move, Split
from netcheck.core.mend import Mend
from netcheck.engine.rule import Finding
from netcheck.model.graph import CircuitGraph

if TYPE_CHECKING:
    from netcheck.compare.faults.inserted import Bridged

__all__ = ["Pair", "compared"]


class Pair(Struct, frozen=True, eq=False, dict=True):
    """Two states side by side.

    ``original`` has the declared changes made to it; ``as_shown`` is the state that faults are spoken of: its inserted
    parts are bridged, and single joints too many may be gone; ``real`` is the rewired state as it is. ``bridged`` are
    inserted parts with both ends on one net. ``followed`` are new lugs that declared changes end on, with the nets of
    the original that they were taken for. ``source`` is the original without those changes; ``permuted`` are parts
    that bear each other's names, as (old, new). ``left`` is the state after the mends of all faults: which net a place
    belongs to is read there. ``whole`` are the mends of parts that are joined to nothing, too many, or replaced and
    still in, by name. ``mended`` is the rewired state after all of these: what it no longer says was a consequence.
    ``still_idle`` are the inserted parts that are not in series even then, ``outcome`` says which slips were found, and
    its table how much is wrong in any state of this chassis, ``strangers`` that the two have so little in common that
    no order was tried.
    """

    original: CircuitGraph
    as_shown: CircuitGraph
    real: CircuitGraph
    source: Circuit
    pairing: Pairing
    home: Homes
    faults: tuple[Fault, ...]
    bridged: "tuple[Bridged, ...]"
    mended: CircuitGraph
    idle: tuple[Finding, ...] = field(default=())
    followed: tuple[tuple[str, str], ...] = ()
    permuted: tuple[tuple[Part, Part], ...] = ()
    left: Laid | None = None
    whole: Mapping[str, tuple[Mend, ...]] = field(default_factory=dict)
    still_idle: frozenset[str] = frozenset()
    outcome: Explained | None = None
    strangers: bool = False

    @cached_property
    def is_altered(self) -> bool:
        """Whether a part of the rewired state is another than the original has in its role, or has no role."""
        known = self.source.parts  # what is meant is entered in the original, and is new all the same
        kept = (roles for roles in self.pairing.pairs if roles.is_unchanged and roles.old[0].name in known)
        as_before = {roles.new[0].name for roles in kept}
        return any(part.leads and name not in as_before for name, part in self.real.circuit.parts.items())


def compared(original: Circuit, rewired: Circuit) -> Pair:
    """Compares two circuits; the order of the two matters only for the names of faults."""
    should = expected(original, rewired)
    old_graph = CircuitGraph(should.circuit)
    graph = CircuitGraph(shorted(rewired, original))
    outcome = _explained(SideBySide(old_graph, pair_parts(old_graph, graph), rewired, graph), rewired)
    table = outcome.table
    graph, home = _shown(outcome)
    done = _put_right(outcome, rewired)
    return Pair(
        old_graph,
        graph,
        graph.of(rewired),
        original,
        table.pairing,
        home,
        tuple(_on(graph, fault) for fault in done.faults),
        done.bridged,
        graph.of(done.state),
        should.idle,
        should.followed,
        left=done.left,
        whole=done.whole,
        still_idle=frozenset(table.laid(done.state).idle),
        outcome=outcome,
        strangers=done.strangers,
    )


def _explained(table: SideBySide, rewired: Circuit) -> Explained:
    first = accounted(table, rewired)
    return _searched(table, first) if first.cost else Explained(table, first, (), first)


def _searched(table: SideBySide, first: Account) -> Explained:
    from netcheck.compare.faults.search import explained  # a state in order has no slip to tell

    return explained(table, first)


def _put_right(outcome: Explained, rewired: Circuit) -> PutRight:
    pairing = outcome.table.pairing
    wrong = outcome.cost or outcome.found or pairing.dead or pairing.unjoined or pairing.extra
    return _with_mends(outcome, rewired) if wrong else PutRight(rewired, outcome.left.laid)


def _with_mends(outcome: Explained, rewired: Circuit) -> PutRight:
    from netcheck.compare.faults.put_right import put_right

    return put_right(outcome, rewired)


def _shown(outcome: Explained) -> tuple[CircuitGraph, Homes]:
    """The state that the faults are spoken of, and where each net of the original is in it.

    Where only single joints are wrong it is the one without them, as nothing else was elsewhere.
    """
    plain = all(isinstance(fault, Merge | Move) for fault, _ in outcome.found)
    laid = (outcome.left if plain else outcome.first).laid
    nets = laid.graph.circuit.nets
    last = outcome.left.laid
    if last.graph is laid.graph:
        return laid.graph, last.home
    home = {}
    for old, new in last.home.new_of.items():
        here = Counter(nets[at] for at in last.graph.members[new] if at < len(nets))
        home[old] = max(here, key=here.__getitem__)
    return laid.graph, Homes(home, {new: old for old, new in home.items()})


def _on(graph: CircuitGraph, fault: Fault) -> Fault:
    """A fault with its nets numbered as in a graph; a net's number is a point of it in every graph."""
    nets = graph.circuit.nets
    match fault:
        case Split(home=home, new_net=new) | Move(home=home, new_net=new):
            return replace(fault, home=nets[home], new_net=nets[new])
        case Merge(new_net=new, parted=parted):
            rest = None if parted is None else replace(parted, home=nets[parted.home], new_net=nets[parted.new_net])
            return replace(fault, new_net=nets[new], parted=rest)
        case _:
            return fault
