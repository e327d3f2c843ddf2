"""Mends of whole parts: one that is there and joined to nothing is soldered in, one too many is taken out or lifted."""

from collections.abc import Iterator, Sequence

from netcheck.compare.faults.hands import Hands, tried
from netcheck.compare.faults.laid import Laid, SideBySide
from netcheck.compare.faults.places import is_place, nearest_places, own_places
from netcheck.compare.roles.leads import roles_of
from netcheck.core.circuit import Circuit, How, Part
from netcheck.core.mend import Lift, Mend, Remove, Solder
from netcheck.model.graph import CircuitGraph
from netcheck.model.points import lead_name

__all__ = ["lifted", "soldered_in", "taken_out"]


def soldered_in(table: SideBySide, left: Laid, old: Part, new: Part) -> tuple[Mend, ...]:
    """Each lead of a part soldered to a place of its net, as the nets are once all other mends are done.

    Where the end of an inserted part waits for something on that net, to that.
    """
    original, circuit = table.original.circuit, left.graph.circuit
    acts = []
    hands, waits = Hands(left.graph), {left.graph.circuit.nets[at]: at for ends in left.idle.values() for at in ends}
    for was, now in roles_of(old, new).items():
        net = original.nets[original.index[lead_name(old, was)]]
        home, at = left.home.new_of.get(net), circuit.index[lead_name(new, now)]
        near = () if home is None else own_places(left.graph, table.original, (net, home), at)
        places = [to for to in near if to < len(circuit.points)]
        if not places:
            return ()
        waiting = None if home is None else waits.pop(home, None)
        if waiting is not None:
            places.insert(0, hands.place(hands.real.site(waiting), (waiting,)))
        acts.append(Solder(circuit.points[at].name, circuit.points[places[0]].name))
    return (tuple(acts),) if acts else ()


def taken_out(circuit: Circuit, part: Part) -> tuple[Mend, ...]:
    """A part that the original does not have, out; none where something else is soldered to it."""
    mend = (Remove(part.name),)
    return (mend,) if tried(circuit, mend) is not None else ()


def lifted(circuit: Circuit, part: Part) -> tuple[Mend, ...]:
    """One lead of a part that hangs on one joint taken off, so that the part is out of the circuit.

    The lug of a section may hold more: that goes together to another place of its net.
    """
    hands = Hands(CircuitGraph(circuit))
    ends: Sequence[int] = hands.real.terminals(part)
    free = [at for at in ends if hands.is_movable(at) and len(hands.joints(at)) == 1]
    if free:
        return ((Lift(hands.name(free[0])),),)
    wires = [hands.joints(hands.stand(at)) for at in ends]
    alone = [joints for joints in wires if len(joints) == 1 and not hands.is_movable(joints[0].b)]
    return (hands.taken_off(alone[0]),) if alone else _off_the_lug(hands, part)


def _off_the_lug(hands: Hands, section: Part) -> tuple[Mend, ...]:
    """What is soldered to the lug that a section has for itself, at another place of that net."""
    graph = hands.real
    own = [hands.stand(at) for at in graph.terminals(section) if section.host]
    lugs = [at for at in own if sum(join.how is How.INSIDE for join in graph.joins_at[at]) == 1]
    ways = ((lug, mend) for lug in lugs for mend in _ways_off(hands, lug))
    return next(((mend,) for lug, mend in ways if _leaves_bare(graph, lug, mend)), ())


def _ways_off(hands: Hands, lug: int) -> Iterator[Mend]:
    graph = hands.real
    ends = [(join, join.a if join.b == lug else join.b) for join in hands.joints(lug)]
    # A name that is said of this lug alone is joined to nothing: no hand finds a joint there to undo.
    ends = [(join, end) for join, end in ends if not graph.point(end).net_name or len(graph.joins_at[end]) > 1]
    for to in (*(end for _, end in ends), *nearest_places(graph, graph.circuit.nets[lug], lug)):
        if is_place(graph, to):  # the rest of a net that the paper has by its name stays together without the lug
            yield hands.put([(join, end if graph.point(end).net_name else to, end) for join, end in ends])


def _leaves_bare(graph: CircuitGraph, lug: int, mend: Mend) -> bool:
    """Whether nothing is left on a lug, and all else of its net together; a name that is said there is nothing."""
    after = tried(graph.circuit, mend)
    if after is None:
        return False
    inside = {at for join in graph.joins_at[lug] if join.how is How.INSIDE for at in (join.a, join.b)}
    members = graph.members[graph.circuit.nets[lug]]
    rest = {after.nets[at] for at in members if at not in inside and not graph.point(at).net_name}
    return len(rest) == 1 and after.nets[lug] not in rest
