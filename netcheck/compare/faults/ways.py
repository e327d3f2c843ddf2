"""What may undo one fault, the likelier slip of a hand first; each is tried before it is given."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, product, zip_longest

from netcheck.compare.faults.doubts import unbonded_seats
from netcheck.compare.faults.hands import Hands, tried
from netcheck.compare.faults.inserted import inserted_parts
from netcheck.compare.faults.laid import SideBySide
from netcheck.compare.faults.places import gap_to, own_places, spare_wires
from netcheck.core.circuit import How, Join
from netcheck.core.difference import Fault, Lead, Merge, Move, Rearranged, Split
from netcheck.core.mend import Mend, Put, Solder, Wire
from netcheck.model.graph import CircuitGraph

__all__ = ["place_of", "ways"]


def ways(table: SideBySide, graph: CircuitGraph, fault: Fault, end: int | None) -> Iterator[Mend]:
    """What may undo a fault; ``end`` is that of an inserted part where its leads are to go."""
    hands = Hands(graph)
    match fault:
        case Merge():
            yield from _parting(hands, fault)
        case Move():
            homes = _homes_of(table, graph, fault.old_net, fault.leads)
            places = _places(table, hands, fault, homes, end)
            yield from tuple(_wires_exchanged(table.original, hands, fault, places)) or _moving(hands, fault, places)
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
    yield from _led_past(hands, fault)


def _led_past(hands: Hands, fault: Merge) -> Iterator[Mend]:
    """A wire that goes on from a place of the other net, led past it: both its ends off there, and one wire instead."""
    nets = hands.real.circuit.nets
    own = {nets[lead.new] for lead in (*fault.leads, *fault.others)}
    for at in sorted(at for net in own for at in hands.real.members[net]):
        wires = [join for join in hands.joints(at) if join.how is How.WIRE]
        for one, other in combinations(wires, 2) if len(wires) <= _WIRES else ():
            a, b = (join.b if join.a == at else join.a for join in (one, other))
            yield (*hands.taken_off((one, other)), Wire(hands.name(a), hands.name(b), one.words))


_WIRES = 4
"""At a place with more wires than this no two of them are one that was to go past."""


def _places(table: SideBySide, hands: Hands, fault: Move, homes: Sequence[int], end: int | None) -> Sequence[int]:
    """Where leads of a net may be put: the end of an inserted part that waits for them, else the places of that net."""
    if end is not None:
        return (place_of(hands, end),)
    site = hands.real.site(fault.leads[0].new)
    most = [4, *(2 for _ in homes[1:])]
    near = [own_places(hands.real, table.original, (fault.old_net, home), site) for home in homes]
    return [to for places, n in zip(near, most, strict=False) for to in places[:n]]


def place_of(hands: Hands, at: int) -> int:
    """Where one solders to join what a point is on: its lug or pin, or the lead itself."""
    return hands.place(hands.real.site(at), ())


def _meeting(hands: Hands, lead: int, end: int) -> Iterator[Mend]:
    """What left its net and the end of an inserted part brought together; what hangs in the air goes to the other."""
    ways = (_fastened(hands, lead, place_of(hands, end)), _fastened(hands, end, place_of(hands, lead)))
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
            off, on = hands.taken_off(culprits), _all_fastened(hands, fault.leads, to, culprits)
            yield (*off, *_left_together(hands, fault.leads, culprits), *on)
            yield (*off, *on)
    for to, join in product(places[:1], culprits if len(culprits) > 1 else ()):
        yield from (hands.end_put(join, end, to) for end in (join.a, join.b))


def _wires_exchanged(drawn: CircuitGraph, hands: Hands, fault: Move, places: Iterable[int]) -> Iterator[Mend]:
    """Two wires in each other's place, where the other one reaches nothing but a lug drawn on the wrong net.

    The leads are right once one of them is moved; the other one would stay between two nets by the drawing.
    """
    wires = [join for join in fault.culprits if join.how is How.WIRE]
    for wire, to in product(wires if len(fault.culprits) == 1 else (), places):
        far = _far(hands, wire, fault.leads)
        for other in (join for join in hands.joints(to) if join.how is How.WIRE):
            end = other.a if other.b == to else other.b
            there = drawn.circuit.index.get(hands.name(end))
            if there is not None and drawn.circuit.nets[there] == fault.wrong_net and _holds_nothing(hands, other, end):
                moves = {far: to, to: far}
                yield hands.put(
                    [(join, moves.get(join.a, join.a), moves.get(join.b, join.b)) for join in (wire, other)]
                )


def _holds_nothing(hands: Hands, wire: Join, end: int) -> bool:
    """Whether no lead is left with one end of a wire that is taken off."""
    after = tried(hands.real.circuit, hands.taken_off((wire,)))
    return after is not None and not CircuitGraph(after).leads_on(after.nets[end])


def _left_together(hands: Hands, leads: Iterable[Lead], culprits: Iterable[Join]) -> Mend:
    """What was soldered to a lead that comes off, joined again without it: of two leads there one holds the other."""
    joints = [(lead.new, join) for lead in leads for join in culprits if lead.new in (join.a, join.b)]
    held = dict.fromkeys(join.a if join.b == at else join.b for at, join in joints)
    base, *others = sorted(held, key=lambda at: (hands.is_movable(at), -len(hands.joints(at)))) or [0]
    to = hands.name(place_of(hands, base))
    return tuple(Solder(it, to) if hands.is_movable(at) else Wire(it, to) for at in others for it in (hands.name(at),))


def _all_fastened(hands: Hands, leads: Sequence[Lead], to: int, culprits: Sequence[Join]) -> Mend:
    """The leads put to a place, one wire for all that hang together once the culprits are off."""
    found: dict[tuple[int, bool], Mend] = {}
    for lead in leads:
        site = _site_without(hands, lead.new, culprits)
        found.setdefault((site, hands.is_movable(lead.new)), _fastened(hands, lead.new, to, site))
    return tuple(act for acts in found.values() for act in acts)


def _site_without(hands: Hands, lead: int, culprits: Iterable[Join]) -> int:
    """Where a lead is soldered once the culprits are off: a wire from where it came from would take that along."""
    site = hands.real.site(lead)
    return lead if any({join.a, join.b} == {lead, site} for join in culprits) else site


def _far(hands: Hands, join: Join, leads: Iterable[Lead]) -> int:
    """The end of a joint that is not on the leads' side."""
    own = {grip for lead in leads for grip in hands.grips(lead.new)}
    if join.a in own or join.b in own:
        return join.b if join.a in own else join.a
    return join.b if hands.real.parts((join,), own, {join.b}) else join.a


def _joining(table: SideBySide, hands: Hands, fault: Split) -> Iterator[Mend]:
    graph = hands.real
    nets = graph.circuit.nets
    group = {nets[lead.new] for lead in fault.leads}
    for home in _homes_of(table, graph, fault.old_net, fault.leads)[:1]:
        seats = unbonded_seats(graph, table.original.circuit) if home == nets[0] else ()
        yield from (hands.bonded(name) for name, at in seats if nets[at] in group)
        places = own_places(graph, table.original, (fault.old_net, home), graph.site(fault.leads[0].new))[:3]
        yield from _brought_home(hands, fault, sorted(group), home, places)


def _brought_home(hands: Hands, fault: Split, group: list[int], home: int, places: Sequence[int]) -> Iterator[Mend]:
    """What hangs free put on a place of its net, or joined to one; the likelier slip first."""
    graph, lead = hands.real, fault.leads[0].new
    site = graph.site(lead)
    alone = len(fault.leads) == 1 and hands.is_movable(lead) and bool(hands.joints(lead))
    put: list[Mend] = [(Put(hands.name(lead), hands.name(to)),) for to in places if alone]
    if _is_pin(graph, site):  # it was meant for the pin beside it: no hand joins an idle pin to another one
        yield from put
    yield from spare_wires(hands, group, home)
    gap = gap_to(graph, site, group, home)
    if gap is not None:
        yield (Wire(hands.name(gap[0]), hands.name(gap[1])),)
    joined: list[Mend] = [_fastened(hands, lead, to) for to in places]
    yield from (mend for both in zip_longest(joined, put) for mend in both if mend)


def _is_pin(graph: CircuitGraph, at: int) -> bool:
    part = graph.part_of(at)
    return part is not None and part.kind.seat.has_pins


def _fastened(hands: Hands, lead: int, to: int, at: int | None = None) -> Mend:
    """A lead that hangs free soldered to a place; a pin, or what is on a lug of its own, joined to it by a wire."""
    site = hands.real.site(lead) if at is None else at
    if site == lead and hands.is_movable(lead):
        return (Solder(hands.name(lead), hands.name(to)),)
    start = hands.stand(lead) if site == lead or hands.real.point(site).net_name else site
    return (Wire(hands.name(start), hands.name(to)),)
