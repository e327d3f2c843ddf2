"""Leads laid on the nets of one state: which of them are together as in the original, and which are not."""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from netcheck.compare.faults.series import InSeries
from netcheck.compare.faults.strands import NAME, Homes, Named, homes, weight
from netcheck.compare.roles.expected import shorted
from netcheck.compare.roles.pairing import Pairing
from netcheck.core.circuit import Circuit
from netcheck.core.difference import Lead
from netcheck.model.graph import CircuitGraph

__all__ = ["Laid", "SideBySide", "Wrong"]

# The chassis and the common are where they are, whatever free ends vote for.
_ANCHOR = 1_000


class Wrong(Struct, frozen=True, eq=False):
    """How much is wrong in a state, which is kept where the state itself, as large as its file, is let go.

    ``severed`` is in how many pieces too many a net of the original is, where it is; ``idle`` and ``waiting`` are those
    of ``Laid``.
    """

    disorder: int
    severed: Counter[int]
    idle: Mapping[str, frozenset[int]]
    waiting: Mapping[str, frozenset[int]]


class Laid(Struct, frozen=True, eq=False, dict=True):
    """A state with its inserted parts bridged (``graph``), and its leads as (old net, new net).

    ``hinted`` is what speaks for a pair of nets beside leads. ``idle`` are the inserted parts that are not in series,
    each with its ends that nothing is on; ``waiting`` are these and those with an end that nothing drawn is on.
    """

    graph: CircuitGraph
    leads: tuple[Lead, ...]
    pairs: tuple[tuple[int, int], ...]
    free: tuple[tuple[int, int], ...]
    hinted: Mapping[tuple[int, int], int]
    idle: Mapping[str, frozenset[int]]
    waiting: Mapping[str, frozenset[int]]

    @cached_property
    def home(self) -> Homes:
        """Where each net of the original is; of most states that are tried only the disorder is asked."""
        weighed: Counter[tuple[int, int]] = Counter()
        for lead, nets in zip(self.leads, self.pairs, strict=True):
            weighed[nets] += weight(lead)
        return homes(weighed, self.hinted)

    @cached_property
    def displaced(self) -> frozenset[tuple[int, int]]:
        """The strands that are not at home."""
        return frozenset(nets for nets in self.pairs if self.home.new_of.get(nets[0]) != nets[1])

    @property
    def disorder(self) -> int:
        """How many nets are split or joined too often, and how many parts are not in series; 0 where all is right."""
        strands = set(self.pairs)
        return 2 * len(strands) - len({old for old, _ in strands}) - len({new for _, new in strands}) + len(self.idle)

    @property
    def wrong(self) -> Wrong:
        """How much is wrong in it."""
        pieces = Counter(old for old, _ in set(self.pairs))
        severed = Counter({old: count - 1 for old, count in pieces.items() if count > 1})
        return Wrong(self.disorder, severed, self.idle, self.waiting)

    def right_net(self, at: int) -> int | None:
        """The net of the original that a point is on; None where no one net of it is there."""
        return self.home.old_of.get(self.graph.circuit.nets[at])


class SideBySide:
    """Lays states of one rewired chassis beside one original, lead by lead as they are paired."""

    def __init__(
        self, original: CircuitGraph, pairing: Pairing, rewired: Circuit, graph: CircuitGraph | None = None
    ) -> None:
        """``graph`` is that of the rewired state with its inserted parts bridged, where it was made before."""
        self.original = original
        self._graph = graph or CircuitGraph(rewired)
        self.pairing = pairing
        self._rewired = rewired
        self._named = Named.of(original.circuit)
        self._series = InSeries(original.circuit, rewired, pairing)
        self._last: tuple[Circuit, Laid] | None = None
        self._nets_together: dict[tuple[int, int], tuple[int, int]] = {}  # most of them in each state

    def exchanged(self, ends: Mapping[int, int]) -> "SideBySide":
        """The same with like ends taken for each other: names that changed places are put right on paper alone."""
        by_end = {lead.new: lead for lead in self.pairing.leads}
        there = [by_end[ends.get(lead.new, lead.new)] for lead in self.pairing.leads]
        pairs = zip(self.pairing.leads, there, strict=True)
        leads = tuple(replace(one, name=its.name, part=its.part, new=its.new) for one, its in pairs)
        return SideBySide(self.original, replace(self.pairing, leads=leads), self._rewired)

    def laid(self, rewired: Circuit) -> Laid:
        """The leads as they lie in a state; parts whose ends are free lie the way that agrees with most."""
        # One state is asked for several times on end: where nothing is to mend, all that is done is that.
        if self._last is None or self._last[0] is not rewired:
            self._last = None  # what is over is let go first: a state takes as much as its file
            self._last = rewired, self._anew(rewired)
        return self._last[1]

    def _anew(self, rewired: Circuit) -> Laid:
        graph = self._graph.of(shorted(rewired, self.original.circuit))
        shared = self._named.hints(graph.circuit)
        votes = Counter({nets: 1 for nets, weight in shared.items() if weight >= NAME})
        for lead in self.pairing.leads:
            if not lead.part:
                votes[self.original.circuit.nets[lead.old], graph.circuit.nets[lead.new]] += _ANCHOR
        leads = self._turned(graph, votes, shared)
        same = self._nets_together.setdefault
        pairs = tuple([same(nets, nets) for nets in zip(*self._nets(leads, graph), strict=True)])
        idle = self._series.idle(rewired)
        return Laid(graph, leads, pairs, self.pairing.free, shared, idle, self._series.waiting(rewired, idle))

    def _nets(self, leads: Sequence[Lead], graph: CircuitGraph) -> tuple[list[int], list[int]]:
        old, new = self.original.circuit.nets, graph.circuit.nets
        return [old[lead.old] for lead in leads], [new[lead.new] for lead in leads]

    def _turned(
        self, graph: CircuitGraph, votes: Mapping[tuple[int, int], int], shared: Mapping[tuple[int, int], int]
    ) -> tuple[Lead, ...]:
        """The leads with the new ends of every free pair that lies the other way round exchanged."""
        old, new = self._nets(self.pairing.leads, graph)
        # As they lie everything may agree, and no name speak against it.
        agree = _is_one_to_one({*zip(old, new, strict=True), *votes, *shared})
        return self.pairing.leads if agree else self._by_votes(old, new, votes, shared)

    def _by_votes(
        self, old: Sequence[int], new: Sequence[int], votes: Mapping[tuple[int, int], int],
        shared: Mapping[tuple[int, int], int],
    ) -> tuple[Lead, ...]:  # fmt: skip
        from netcheck.compare.faults.orientation import turned_parts

        leads = list(self.pairing.leads)
        for i, j in turned_parts(old, new, self.pairing.free, votes, shared):
            one, other = leads[i], leads[j]
            leads[i] = replace(one, name=other.name, new=other.new)
            leads[j] = replace(other, name=one.name, new=one.new)
        return tuple(leads)


def _is_one_to_one(nets: Collection[tuple[int, int]]) -> bool:
    return len(nets) == len({old for old, _ in nets}) == len({new for _, new in nets})
