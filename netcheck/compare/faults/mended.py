"""Every fault with what undoes it, carried out on the state first: an order that was not tried is not given.

The mends are found one after the other, each on the state that those before leave, and each is then tried on the
state as it is, alone.
"""

from collections.abc import Collection, Iterable, Iterator
from itertools import islice

from msgspec import Struct
from msgspec.structs import replace

from netcheck.compare.faults.hands import Hands, tried
from netcheck.compare.faults.inserted import Bridged, LooseEnd, waiting
from netcheck.compare.faults.laid import Laid, SideBySide, Wrong
from netcheck.compare.faults.outcome import STRANGERS, Explained
from netcheck.core.circuit import Circuit, How
from netcheck.core.difference import Fault, Merge, Move
from netcheck.core.mend import Act, Bond, Change, Cut, Insulate, Lift, Mend, Put, Remove, Solder, Wire
from netcheck.model.graph import CircuitGraph

__all__ = ["Mended", "mended"]

_ALTERNATIVES = 2
_TRIED = 24
"""So many ways to mend one fault are tried."""


class Mended(Struct, frozen=True, eq=False):
    """The faults with their mends, and the state when all first mends are done in this order, as it is and as laid."""

    faults: tuple[Fault, ...]
    bridged: tuple[Bridged, ...]
    state: Circuit
    left: Laid


def mended(table: SideBySide, outcome: Explained, out: Iterable[Mend] = ()) -> Mended:
    """Finds what undoes each fault that is left, and tries every order alone; of two strangers there is none to try.

    ``out`` are the mends that lift dead parts, done before: what hangs on such a part alone is no place for a lead.
    """
    left, first = outcome.left, outcome.first.real.circuit
    if len(left.faults) > STRANGERS:
        return Mended(tuple(left.faults), tuple(left.bridged), first, left.laid)
    state = _without_dead(table, left.real.circuit, out)
    told: list[Fault] = [replace(fault, mends=_alone(table, first, mends)) for fault, mends in outcome.found]
    ends = waiting(left.faults, left.real, left.laid)
    for number, fault in sorted(enumerate(left.faults), key=lambda item: _order(item[1])):
        ways, state = _ways_that_mend(table, state, fault, ends.get(number), _unsettled(told))
        told.append(replace(fault, mends=_alone(table, first, ways)))
    bridged = []
    for idle in left.bridged:
        ways, state = _trying(table, state, _unbridging(CircuitGraph(state), idle), idle.part.name)
        bridged.append(replace(idle, mends=_alone(table, first, ways)))
    return Mended(tuple(told), tuple(bridged), state, table.laid(state))


def _without_dead(table: SideBySide, state: Circuit, out: Iterable[Mend]) -> Circuit:
    """A state with dead parts lifted, where that takes nothing apart."""
    for mend in out:
        after = tried(state, mend)
        if after is not None and table.laid(after).disorder <= table.laid(state).disorder:
            state = after
    return state


def _order(fault: Fault) -> int:
    """What joins too much is undone first, else a place of the right net may be on the wrong side of it."""
    return 0 if isinstance(fault, Merge) else 1 if isinstance(fault, Move) else 2


def _ways_that_mend(
    table: SideBySide, state: Circuit, fault: Fault, waits: LooseEnd | None, unsettled: frozenset[str]
) -> tuple[tuple[Mend, ...], Circuit]:
    """The ways that bring the fault's leads home, to the end of an inserted part where one still waits for them."""
    from netcheck.compare.faults.ways import ways  # where nothing is to mend, no way is looked for

    part = "" if waits is None or waits.part not in table.laid(state).waiting else waits.part
    end = waits.at if waits is not None and part else None
    much = 2 if isinstance(fault, Move) else 1
    found = list(islice(dict.fromkeys(ways(table, CircuitGraph(state), fault, end)), _TRIED))
    found.sort(key=lambda mend: not unsettled.isdisjoint(_places_of(mend)))
    return _trying(table, state, found, part, much)


def _unsettled(told: Iterable[Fault]) -> frozenset[str]:
    """What earlier mends take off: a place there is of the right net only once they are done."""
    acts = [act for fault in told for mend in fault.mends[:1] for act in mend]
    cut = frozenset(end for act in acts if isinstance(act, Cut) for end in (act.a, act.b))
    return cut | {act.point for act in acts if isinstance(act, Put | Lift)}


def _places_of(mend: Mend) -> Collection[str]:
    """Where a mend puts things."""
    wired = {end for act in mend if isinstance(act, Wire) for end in (act.a, act.b)}
    return wired | {act.to for act in mend if isinstance(act, Put | Solder)}


def _trying(
    table: SideBySide, state: Circuit, ways: Iterable[Mend], part: str = "", much: int = 1
) -> tuple[tuple[Mend, ...], Circuit]:
    """Those of some ways that leave least disorder, and a part in series; and the state after the first.

    Of ways that take away as ``much`` as they may a few are enough.
    """
    before = table.laid(state).wrong
    found: dict[tuple[object, ...], tuple[int, Mend]] = {}
    for mend in islice(dict.fromkeys(ways), _TRIED):
        after = _left_by(table, state, mend)
        if after is None or part in after.waiting:
            continue
        known = found.get(_shape(mend))
        if _is_better(after, before) and (known is None or after.disorder < known[0]):
            found[_shape(mend)] = after.disorder, mend
        if sum(left <= before.disorder - much for left, _ in found.values()) > _ALTERNATIVES:
            break
    least = min((left for left, _ in found.values()), default=0)
    best = [mend for left, mend in found.values() if left == least]
    done = [mend for mend in best if not any(set(o) < set(mend) for o in best)]
    done = [mend for mend in done if len(mend) <= len(done[0]) + 1]
    return tuple(done), (tried(state, done[0]) if done else None) or state


def _left_by(table: SideBySide, circuit: Circuit, mend: Mend) -> Wrong | None:
    """How much is wrong after a mend; None where hands can't carry it out."""
    after = tried(circuit, mend)
    return None if after is None else table.laid(after).wrong


def _unbridging(graph: CircuitGraph, idle: Bridged) -> Iterator[Mend]:
    """One end put to what hangs free behind it, or to the lug beside; else one joint undone that lies across it."""
    from netcheck.compare.faults.ways import place_of

    hands, ends = Hands(graph), graph.terminals(idle.part)
    nets = graph.circuit.nets
    net = nets[ends[0]]
    parted = () if idle.behind is None else (*idle.behind.leads[:1], *idle.behind.rest[:1])
    sites = [place_of(hands, lead.new) for lead in parted if nets[lead.new] != net]
    waits = {nets[at] for at in sites}
    for end in reversed(ends):
        beside = [at for at in graph.beside(graph.site(end)) if nets[at] != net]
        for to in (*(at for at in beside if nets[at] in waits), *(sites or beside)):
            yield (Put(hands.name(end), hands.name(to)),)
    inside = [join for at in graph.members[net] for join in hands.joints(at) if join.a == at]
    inside.sort(key=lambda join: ({join.a, join.b} & set(ends) != set(), graph.cost((join,))))
    yield from (hands.taken_off((join,)) for join in inside if join.how is not How.NET)
    yield from _with_a_neighbour(graph, idle)
    yield from (hands.taken_off((join,)) for join in inside if join.how is How.NET)


def _with_a_neighbour(graph: CircuitGraph, idle: Bridged) -> Iterator[Mend]:
    """An inserted part's end and the lead soldered beside it, together to a bare lug; of many none is likelier."""
    from netcheck.compare.faults.places import bare_place

    hands = Hands(graph)
    for end in graph.terminals(idle.part):
        for own in hands.joints(end):
            hub = own.a if own.b == end else own.b
            near = [join for join in hands.joints(hub) if join.a == hub and hands.is_movable(join.b)]
            others = [join for join in near if graph.point(join.b).part != idle.part.name]
            for other in others if len(others) <= _ALTERNATIVES else ():
                to = bare_place(graph, hub, end)
                yield hands.put([(own, to, end), (other, to, other.b)])


def _shape(mend: Mend) -> tuple[object, ...]:
    """What a mend does to what, wherever it ends: another place on the same net is no other way."""
    return tuple((type(act), _moved(act)) for act in mend)


def _moved(act: Act) -> str:
    match act:
        case Lift(point=name) | Put(point=name) | Solder(point=name):
            return name
        case Bond(part=name) | Insulate(part=name) | Change(part=name) | Remove(part=name):
            return name
        case Cut() | Wire():
            return ""


def _alone(table: SideBySide, circuit: Circuit, mends: Iterable[Mend]) -> tuple[Mend, ...]:
    """Those mends that leave less disorder when they alone are done on the state as it is."""
    before = table.laid(circuit).wrong
    left = ((mend, _left_by(table, circuit, mend)) for mend in mends)
    return tuple(mend for mend, after in left if after is not None and _is_better(after, before))


def _is_better(after: Wrong, before: Wrong) -> bool:
    """Whether fewer nets are split or joined too often, or a part came to be in series and none left that.

    What takes a sound net apart is no order, whatever else it puts right. Which strand of a net is at home is no
    measure: where a bridge is gone home may be elsewhere.
    """
    is_whole = after.severed <= before.severed
    return is_whole and after.disorder < before.disorder and after.idle.keys() <= before.idle.keys()
