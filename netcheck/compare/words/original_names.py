"""What stands over a lug in a picture: its net in the original, never that of a state between."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping

from netcheck.compare.pair import Pair
from netcheck.core.circuit import UNSOLDERED, Join
from netcheck.core.mend import Cut, Lift, Mend, Put, Remove, Solder, Wire
from netcheck.model.graph import CircuitGraph

__all__ = ["ALONE", "OriginalNames"]

ALONE = "alone"
"""What is said of a lug that nothing else of the original is joined to."""


class OriginalNames:
    """The original's nets by points of the rewired state, once a mend is done."""

    def __init__(self, pair: Pair, mend: Mend) -> None:
        self._pair = pair
        self._graph = pair.real
        self._old = {lead.name: lead.old for lead in pair.pairing.leads if lead.part}
        index = self._graph.circuit.index
        self._lifted = {index[act.point] for act in mend if isinstance(act, Lift | Put) and act.point in index}
        self._gone = {act.part for act in mend if isinstance(act, Remove)}
        self._cut = {frozenset((index.get(a.a), index.get(a.b))) for a in mend if isinstance(a, Cut)}
        self._made = _made(mend, index)

    def of_lead(self, at: int) -> str:
        """The net that a part's lead is on in the original; empty where it has no counterpart."""
        name = self._graph.point(at).name
        old = self._old.get(name, self._pair.original.circuit.index.get(name))
        return "" if old is None else self._name(self._pair.original, old)

    def of_place(self, at: int) -> str:
        """The net of a lug, pin or can: its own, or that of the leads on it where the original has nothing there."""
        if at == 0:
            return "chassis"
        return self._own(at) or self._of_neighbours(at) or ALONE

    def _own(self, at: int) -> str:
        old = self._pair.original.circuit.index.get(self._graph.point(at).name)
        return "" if old is None or self._is_empty(old) else self._name(self._pair.original, old)

    def _is_empty(self, old: int) -> bool:
        graph = self._pair.original
        net = graph.circuit.nets[old]
        own = graph.point(old).part
        return net != graph.circuit.nets[0] and all(graph.point(o).part == own for o in graph.members[net])

    def _name(self, graph: CircuitGraph, at: int) -> str:
        return graph.net_names[graph.circuit.nets[at]]

    def _of_neighbours(self, start: int) -> str:
        """The commonest net of the nearest leads that stay on a lug or are put onto it."""
        seen, ring = {start}, [start]
        while ring:
            votes = Counter(name for at in ring for name in self._votes(at, start))
            if votes:
                return max(votes, key=lambda name: (votes[name], name))
            ring = list(dict.fromkeys(o for at in ring for o in self._beyond(at) if o not in seen))
            seen.update(ring)
        return ""

    def _votes(self, at: int, start: int) -> Iterable[str]:
        if at == start or self._graph.point(at).part in self._gone:
            return
        name = "chassis" if at == 0 else self.of_lead(at) if self._graph.point(at).is_lead else self._own(at)
        if not name and self._graph.point(at).net_name:
            name = self._named(at)
        if name:
            yield name

    def _named(self, at: int) -> str:
        old = self._pair.original.circuit.index.get(self._graph.point(at).name)
        return "" if old is None else self._name(self._pair.original, old)

    def _beyond(self, at: int) -> Iterable[int]:
        yield from self._made.get(at, ())
        if at in self._lifted:
            return
        for join in self._graph.joins_at[at]:
            other = join.a if join.b == at else join.b
            if other not in self._lifted and not self._undone(join):
                yield other

    def _undone(self, join: Join) -> bool:
        return join.how not in UNSOLDERED and frozenset((join.a, join.b)) in self._cut


def _made(mend: Mend, index: Mapping[str, int]) -> Mapping[int, list[int]]:
    """The joints that a mend makes, from both ends."""
    found: dict[int, list[int]] = defaultdict(list)
    for act in mend:
        match act:
            case Put(point, to) | Solder(point, to):
                ends = (point, to)
            case Wire(a, b):
                ends = (a, b)
            case _:
                continue
        if ends[0] in index and ends[1] in index:
            found[index[ends[0]]].append(index[ends[1]])
            found[index[ends[1]]].append(index[ends[0]])
    return found
