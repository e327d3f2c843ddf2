"""A pair of states, compared: what the comparison rules look at."""

from dataclasses import dataclass, field

from netcheck.compare.faults.account import Accountant
from netcheck.compare.faults.inserted import Bridged
from netcheck.compare.faults.reconsidered import reconsidered
from netcheck.compare.faults.strands import Homes
from netcheck.compare.roles.expected import expected, shorted
from netcheck.compare.roles.pairing import Pairing, pair_parts
from netcheck.core.circuit import Circuit, Part
from netcheck.core.difference import Fault
from netcheck.engine.rule import Finding
from netcheck.model.graph import CircuitGraph

__all__ = ["Pair", "compared"]


@dataclass(frozen=True, eq=False)
class Pair:
    """Two states side by side.

    ``original`` has the declared changes made to it; ``rewired`` has its inserted parts bridged; ``real`` is
    the rewired state as it is. ``bridged`` are inserted parts with both ends on one net. ``followed`` are new lugs
    that declared changes end on, with the nets of the original that they were taken for. ``source`` is the original
    without those changes; ``permuted`` are parts that bear each other's names, as (old, new).
    """

    original: CircuitGraph
    rewired: CircuitGraph
    real: CircuitGraph
    source: Circuit
    pairing: Pairing
    home: Homes
    faults: tuple[Fault, ...]
    bridged: tuple[Bridged, ...]
    idle: tuple[Finding, ...] = field(default=())
    followed: tuple[tuple[str, str], ...] = ()
    permuted: tuple[tuple[Part, Part], ...] = ()


def compared(original: Circuit, rewired: Circuit) -> Pair:
    """Compares two circuits; the order of the two matters only for the names of faults."""
    should = expected(original, rewired)
    old_graph = CircuitGraph(should.circuit)
    pairing = pair_parts(old_graph, CircuitGraph(shorted(rewired, original)))
    outcome = reconsidered(Accountant(old_graph, pairing), rewired)
    return Pair(
        old_graph,
        outcome.shown,
        CircuitGraph(rewired),
        original,
        pairing,
        outcome.home,
        outcome.faults,
        outcome.left.bridged,
        should.idle,
        should.followed,
    )
