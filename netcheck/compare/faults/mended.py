"""Every fault with what undoes it, carried out on the state first: an order that was not tried is not given.

The mends are found one after the other, each on the state that those before leave, and each is then tried on the
state as it is, alone.
"""

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import islice, product

from netcheck.compare.faults.doubts import unbonded_seats
from netcheck.compare.faults.hands import Hands, tried
from netcheck.compare.faults.inserted import Bridged, LooseEnd, inserted_parts, waiting
from netcheck.compare.faults.laid import Laid, SideBySide
from netcheck.compare.faults.places import bare_place, gap_to, nearest_places, spare_wires
from netcheck.compare.faults.search import STRANGERS, Explained
from netcheck.core.circuit import Circuit, How, Join
from netcheck.core.difference import Fault, Lead, Merge, Move, Rearranged, Split
from netcheck.core.lazy_dataclass import dataclass
from netcheck.core.mend import Cut, Lift, Mend, Put, Solder, Wire
from netcheck.model.graph import CircuitGraph

__all__ = ["Mended", "mended"]

_ALTERNATIVES = 2
_TRIED = 24
"""So many ways to mend one fault are tried."""


@dataclass(frozen=True, slots=True, eq=False)
class Mended:
    """The faults with their mends, and the state when all first mends are done in this order, as it is and as laid."""

    faults: tuple[Fault, ...]
    bridged: tuple[Bridged, ...]
    state: Circuit
    left: Laid


def mended(table: SideBySide, outcome: Explained) -> Mended:
    """Finds what undoes each fault that is left, and tries every order alone; of two strangers there is none to try."""
    left, first = outcome.left, outcome.first.real.circuit
    if len(left.faults) > STRANGERS:
        return Mended(tuple(left.faults), tuple(left.bridged), first, left.laid)
    state = left.real.circuit
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


def _order(fault: Fault) -> int:
    """What joins too much is undone first, else a place of the right net may be on the wrong side of it."""
    return 0 if isinstance(fault, Merge) else 1 if isinstance(fault, Move) else 2


def _ways_that_mend(
    table: SideBySide, state: Circuit, fault: Fault, waits: LooseEnd | None, unsettled: frozenset[str]
) -> tuple[tuple[Mend, ...], Circuit]:
    """The ways that bring the fault's leads home, to the end of an inserted part where one still waits for them."""
    part = "" if waits is None or waits.part not in table.laid(state).waiting else waits.part
    end = waits.at if waits is not None and part else None
    much = 2 if isinstance(fault, Move) else 1
    ways = list(islice(dict.fromkeys(_ways(table, CircuitGraph(state), fault, end)), _TRIED))
    ways.sort(key=lambda mend: not unsettled.isdisjoint(_places_of(mend)))
    return _trying(table, state, ways, part, much)


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
    before = table.laid(state)
    found: dict[tuple[object, ...], tuple[int, Mend, Circuit]] = {}
    for mend in islice(dict.fromkeys(ways), _TRIED):
        after = tried(state, mend)
        if after is None or part in (laid := table.laid(after)).waiting:
            continue
        known = found.get(_shape(mend))
        if _is_better(laid, before) and (known is None or laid.disorder < known[0]):
            found[_shape(mend)] = laid.disorder, mend, after
        if sum(left <= before.disorder - much for left, _, _ in found.values()) > _ALTERNATIVES:
            break
    least = min((left for left, _, _ in found.values()), default=0)
    best = [(mend, after) for left, mend, after in found.values() if left == least]
    done = [(mend, after) for mend, after in best if not any(set(o) < set(mend) for o, _ in best)]
    return tuple(mend for mend, _ in done)[: _ALTERNATIVES + 1], done[0][1] if done else state


def _unbridging(graph: CircuitGraph, idle: Bridged) -> Iterator[Mend]:
    """One end put to what hangs free behind it, or to the lug beside; else one joint undone that lies across it."""
    hands, ends = Hands(graph), graph.terminals(idle.part)
    nets = graph.circuit.nets
    net = nets[ends[0]]
    parted = () if idle.behind is None else (*idle.behind.leads[:1], *idle.behind.rest[:1])
    sites = [_place(hands, lead.new) for lead in parted if nets[lead.new] != net]
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
    return tuple((type(act), getattr(act, "point", None) or getattr(act, "part", None)) for act in mend)


def _alone(table: SideBySide, circuit: Circuit, mends: Iterable[Mend]) -> tuple[Mend, ...]:
    """Those mends that leave less disorder when they alone are done on the state as it is."""
    before = table.laid(circuit)
    done = [(mend, tried(circuit, mend)) for mend in mends]
    return tuple(mend for mend, after in done if after is not None and _is_better(table.laid(after), before))


def _is_better(after: Laid, before: Laid) -> bool:
    """Whether fewer nets are split or joined too often, or a part came to be in series and none left that.

    Which strand of a net is at home is no measure: where a bridge is gone home may be elsewhere.
    """
    return after.disorder < before.disorder and after.idle.keys() <= before.idle.keys()


def _ways(table: SideBySide, graph: CircuitGraph, fault: Fault, end: int | None) -> Iterator[Mend]:
    """What may undo a fault; ``end`` is that of an inserted part where its leads are to go."""
    hands = Hands(graph)
    match fault:
        case Merge():
            yield from _parting(hands, fault)
        case Move():
            homes = _homes_of(table, graph, fault.old_net, fault.leads)
            yield from _moving(hands, fault, _places(hands, graph.site(fault.leads[0].new), homes, end))
        case Split() if end is not None:
            yield from _meeting(hands, fault.leads[0].new, end)
        case Split():
            yield from _joining(table, hands, fault)
        case Rearranged():
            return


def _homes_of(table: SideBySide, graph: CircuitGraph, old: int, leads: Iterable[Lead]) -> Sequence[int]:
    """The real nets where an old net is at home, where most of its leads are that are not told first.

    Of a net of two leads either may be told as the one that left it; its home is where the other one is. Inserted parts
    make several nets of one.
    """
    away = {lead.new for lead in leads}
    nets = graph.circuit.nets
    laid = table.laid(graph.circuit)
    at_home = laid.home.new_of.get(old)
    own = [
        (pair[1], nets[one.new])
        for one, pair in zip(laid.leads, laid.pairs, strict=True)
        if pair[0] == old and one.new not in away
    ]
    rest = [real for new, real in own if new == at_home] or [real for _, real in own]
    astray = dict.fromkeys(real for new, real in own if new != at_home)
    through = {nets[at] for part in inserted_parts(graph, table.original.circuit) for at in graph.terminals(part)}
    behind = sorted(net for net in through if laid.graph.circuit.nets[net] == at_home)
    return tuple(dict.fromkeys((*sorted(dict.fromkeys(rest), key=rest.count, reverse=True), *behind, *astray)))


def _parting(hands: Hands, fault: Merge) -> Iterator[Mend]:
    if all(not join.bridges for join in fault.culprits):
        yield hands.taken_off(fault.culprits)


def _places(hands: Hands, site: int, homes: Sequence[int], end: int | None) -> Sequence[int]:
    """Where leads of a net may be put: the end of an inserted part that waits for them, else the places of that net."""
    if end is not None:
        return (_place(hands, end),)
    most = [4, *(2 for _ in homes[1:])]
    return [to for home, n in zip(homes, most, strict=False) for to in nearest_places(hands.real, home, site)[:n]]


def _place(hands: Hands, at: int) -> int:
    """Where one solders to join what a point is on: its lug or pin, or the lead itself."""
    return hands.place(hands.real.site(at), ())


def _meeting(hands: Hands, lead: int, end: int) -> Iterator[Mend]:
    """What left its net and the end of an inserted part brought together; what hangs in the air goes to the other."""
    ways = (_fastened(hands, lead, _place(hands, end)), _fastened(hands, end, _place(hands, lead)))
    yield from ways[::-1] if hands.real.site(end) == end else ways


def _moving(hands: Hands, fault: Move, places: Sequence[int]) -> Iterator[Mend]:
    culprits = [join for join in fault.culprits if not join.bridges]
    ends = {end for join in culprits for end in (join.a, join.b)}
    lead = next((one for one in fault.leads if one.new in ends), fault.leads[0])  # the others may hang on that one
    single = {one.new: hands.is_movable(one.new) and len(hands.joints(one.new)) == 1 for one in fault.leads}
    for to in places:
        if len(culprits) == 1 == len(fault.culprits) and (culprits[0].how is How.WIRE or not single[lead.new]):
            if len(fault.leads) == 1 and single[lead.new]:
                yield (Put(hands.name(lead.new), hands.name(to)),)
            far = _far(hands, culprits[0], fault.leads)
            yield hands.end_put(culprits[0], far, to)
            yield hands.end_put(culprits[0], culprits[0].a if far == culprits[0].b else culprits[0].b, to)
        if all(single.values()):
            yield tuple(Put(hands.name(one.new), hands.name(to)) for one in fault.leads)
        else:
            yield (*hands.taken_off(culprits), *_all_fastened(hands, fault.leads, to))
    for to, join in product(places[:1], culprits if len(culprits) > 1 else ()):
        yield from (hands.end_put(join, end, to) for end in (join.a, join.b))


def _all_fastened(hands: Hands, leads: Sequence[Lead], to: int) -> Mend:
    """The leads put to a place, one wire for all that hang together once the culprits are off."""
    found: dict[tuple[int, bool], Mend] = {}
    for lead in leads:
        found.setdefault((hands.real.site(lead.new), hands.is_movable(lead.new)), _fastened(hands, lead.new, to))
    return tuple(act for acts in found.values() for act in acts)


def _far(hands: Hands, join: Join, leads: Iterable[Lead]) -> int:
    """The end of a joint that is not on the leads' side."""
    own = {grip for lead in leads for grip in hands.grips(lead.new)}
    if join.a in own or join.b in own:
        return join.b if join.a in own else join.a
    return join.b if hands.real.parts((join,), own, {join.b}) else join.a


def _joining(table: SideBySide, hands: Hands, fault: Split) -> Iterator[Mend]:
    graph = hands.real
    home = next(iter(_homes_of(table, graph, fault.old_net, fault.leads)), None)
    if home is None:
        return
    nets = graph.circuit.nets
    group = {nets[lead.new] for lead in fault.leads}
    if home == nets[0]:
        for name, at in unbonded_seats(graph, table.original.circuit):
            if nets[at] in group:
                yield hands.bonded(name)
    lead = fault.leads[0].new
    site = graph.site(lead)
    yield from spare_wires(hands, group, home)
    gap = gap_to(graph, site, sorted(group), home)
    if gap is not None:
        yield (Wire(hands.name(gap[0]), hands.name(gap[1])),)
    for to in nearest_places(graph, home, site)[:3]:
        yield _fastened(hands, lead, to)
        if len(fault.leads) == 1 and hands.is_movable(lead) and hands.joints(lead):
            yield (Put(hands.name(lead), hands.name(to)),)


def _fastened(hands: Hands, lead: int, to: int) -> Mend:
    """A lead that hangs free soldered to a place; a pin, or what is on a lug of its own, joined to it by a wire."""
    site = hands.real.site(lead)
    if site == lead and hands.is_movable(lead):
        return (Solder(hands.name(lead), hands.name(to)),)
    start = hands.stand(lead) if site == lead or hands.real.point(site).net_name else site
    return (Wire(hands.name(start), hands.name(to)),)
