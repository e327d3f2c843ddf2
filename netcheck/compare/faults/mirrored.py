"""Strips and sockets read from above: what is soldered there stands on the lugs or pins counted from the other end.

Tried on the circuit itself, for what is on one lug holds other wires: the joints are put to the mirror lugs, the
nets closed anew, and the part is taken as mirrored where that puts most displaced strands at home. Of a strip the
soldered leads are mirrored and the wires stay: a strip mirrored with all its wires is no fault. Of a socket or plug
everything is.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from netcheck.core.circuit import Circuit, How, Join, Part
from netcheck.core.difference import Lead, Rearranged, Swap, Way
from netcheck.model.closure import closure
from netcheck.model.graph import CircuitGraph
from netcheck.model.points import lead_name

__all__ = ["Trial", "right_way_round", "set_right"]

_LEADS = 3
"""Fewer leads that would change their lug are an exchange, or a wrong lug."""
_PAIRS = 2
"""Where fewer pairs of lugs or pins change their nets, their leads are exchanged."""

_TRIED = 40


@dataclass(frozen=True, slots=True, eq=False)
class Trial:
    """A rewired state, its leads as they lie, and which of their strands are displaced."""

    graph: CircuitGraph
    leads: tuple[Lead, ...]
    pairs: tuple[tuple[int, int], ...]
    displaced: frozenset[tuple[int, int]]
    old_of: dict[int, int]

    @property
    def disorder(self) -> int:
        """How many nets are split or joined too often; 0 where every old net is one new net and nothing else."""
        strands = set(self.pairs)
        return 2 * len(strands) - len({old for old, _ in strands}) - len({new for _, new in strands})


def set_right(start: Trial, tried: Callable[[Circuit], Trial]) -> tuple[Trial, tuple[Rearranged, ...]]:
    """The state with every mirrored part set right, and those parts; ``tried`` compares a state on trial."""
    now, found = start, []
    while len(now.displaced) > 1:
        trials = [(strip, tried(_turned(now.graph, strip))) for strip in _suspects(now)]
        better = [(strip, t) for strip, t in trials if len(t.displaced) <= len(now.displaced) - 2]
        if not better:
            break
        strip, best = min(better, key=lambda item: (len(item[1].displaced), item[0].name))
        found.append(Rearranged(Way.MIRRORED, (strip.name,), tuple(_swaps(now, strip))))
        now = best
    return now, tuple(found)


def right_way_round(circuit: Circuit, found: Iterable[Rearranged]) -> Circuit:
    """A circuit with the parts that were found mirrored set right."""
    for each in found:
        circuit = _turned(CircuitGraph(circuit), circuit.parts[each.parts[0]])
    return circuit


def _suspects(now: Trial) -> Sequence[Part]:
    """The strips, sockets and plugs that hold enough and have a lug on a net in trouble."""
    circuit = now.graph.circuit
    troubled = {new for _, new in now.displaced}
    found = []
    for part in circuit.parts.values():
        if part.kind.word not in ("strip", "tube", "plug") or part.shape is None:
            continue
        lugs = {circuit.index[lead_name(part, name)] for name in part.shape.ordered}
        if not troubled.isdisjoint(circuit.nets[at] for at in lugs):
            moving = [end for join in _joints(now.graph, part) for end in (join.a, join.b) if end in lugs]
            far = [(end, other) for end in moving if (other := _opposite(circuit, part, end)) != end]
            felt = {frozenset(pair) for pair in far if len({circuit.nets[at] for at in pair}) > 1}
            if len(far) >= _LEADS and len(felt) >= _PAIRS:
                found.append(part)
    return found[:_TRIED]


def _joints(graph: CircuitGraph, part: Part) -> Iterator[Join]:
    """The joints that a mirrored part would have elsewhere."""
    points = graph.circuit.points
    for name in part.shape.ordered if part.shape else ():
        for join in graph.joins_at.get(graph.circuit.index[lead_name(part, name)], ()):
            if join.how in (How.INSIDE, How.BOND) or (join.how is How.WIRE and part.kind.word == "strip"):
                continue
            soldered_lead = points[join.a].part == part.name and points[join.b].is_lead
            if part.kind.word != "strip" or (soldered_lead and join.how in (How.LEAD, How.SOLDERED)):
                yield join


def _opposite(circuit: Circuit, part: Part, lug: int) -> int:
    order = part.shape.ordered if part.shape else ()
    point = circuit.points[lug]
    if point.part != part.name or point.terminal is None or point.terminal.name not in order:
        return lug
    return circuit.index[lead_name(part, order[len(order) - 1 - order.index(point.terminal.name)])]


def _turned(graph: CircuitGraph, part: Part) -> Circuit:
    circuit = graph.circuit
    moving = {id(join) for join in _joints(graph, part)}
    joins = tuple(
        replace(join, a=_opposite(circuit, part, join.a), b=_opposite(circuit, part, join.b))
        if id(join) in moving
        else join
        for join in circuit.joins
    )
    return replace(circuit, joins=joins, nets=closure(len(circuit.points), joins))


def _swaps(was: Trial, part: Part) -> Iterator[Swap]:
    """The leads there that the mirror puts to another net: where they are, and where they belong."""
    circuit = was.graph.circuit
    if part.kind.word == "strip":
        stands = {join.b: join.a for join in _joints(was.graph, part)}
    else:
        stands = {at: at for at in was.graph.terminals(part)}
    nets = circuit.nets
    for number, lead in enumerate(was.leads):
        stand = stands.get(lead.new)
        if stand is None:
            continue
        there = _opposite(circuit, part, stand)
        if nets[stand] != nets[there]:
            yield Swap((lead,), was.pairs[number][0], was.old_of.get(nets[stand], was.pairs[number][0]), there)
