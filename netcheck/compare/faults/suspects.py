"""What a hand may have done that explains what is wrong: one list, the likelier slips first."""

from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import product

from netcheck.compare.faults.account import Account
from netcheck.compare.faults.doubts import unbonded, unbonded_seats
from netcheck.compare.faults.exchanges import in_trouble, rearrangements
from netcheck.compare.faults.hands import Hands
from netcheck.compare.faults.inserted import inserted_parts
from netcheck.compare.faults.places import bare_place, is_place, own_places
from netcheck.compare.faults.slips import JointFault, Slip
from netcheck.core.circuit import UNSOLDERED, Circuit, How, Join, Part
from netcheck.core.difference import Merge, Move, Split, Way
from netcheck.model.graph import CircuitGraph
from netcheck.model.points import lead_name

__all__ = ["suspected"]


def suspected(account: Account, nets: frozenset[int], drawn: CircuitGraph) -> Iterator[Slip]:
    """The slips that may explain what is wrong on some nets of the state as laid, the likelier ones first.

    What stands in the original's own files no hand did.
    """
    hands, original = Hands(account.real), drawn.circuit
    own = [
        join
        for join in account.real.circuit.joins
        if join.how not in UNSOLDERED and join.place.source.name not in original.sources
    ]
    yield from rearrangements(account, nets, hands)
    yield from _astray(account, hands, own, nets)
    yield from _groups(account, hands, own, nets, drawn)
    yield from _bridges(account, hands, own, nets)
    yield from _mountings(account, hands, nets, original)
    yield from _inserted(account, hands, nets, original)


def _astray(account: Account, hands: Hands, own: Sequence[Join], nets: frozenset[int]) -> Iterator[Slip]:
    """Joints with an end on the lug beside the right one; then wires that were to reach what hangs free elsewhere."""
    real, laid = account.real, account.laid.graph.circuit.nets
    for join in own:
        for wrong in (join.a, join.b):
            for right in real.beside(wrong) if laid[wrong] in nets else ():
                if laid[right] in nets or real.circuit.nets[right] != real.circuit.nets[wrong]:
                    yield _strayed(hands, join, wrong, right)
    yield from _wires_through(account, hands, own, nets)
    yield from _on_the_wrong_part(account, hands, own, nets)
    yield from _far_off(account, hands, nets)


def _wires_through(account: Account, hands: Hands, own: Sequence[Join], nets: frozenset[int]) -> Iterator[Slip]:
    """A wire that goes on from a lug or pin to the next, on the one beside the right one: both its pieces end there."""
    real, laid = account.real, account.laid.graph.circuit.nets
    pieces: dict[tuple[str, int, int], list[Join]] = {}
    for join in own:
        for end in (join.a, join.b) if join.how is How.WIRE else ():
            pieces.setdefault((join.place.source.name, join.place.line, end), []).append(join)
    for (_, _, wrong), joints in pieces.items():
        for right in real.beside(wrong) if len(joints) > 1 and laid[wrong] in nets else ():
            if real.circuit.nets[right] != real.circuit.nets[wrong]:
                there = [(j, right if j.a == wrong else j.a, right if j.b == wrong else j.b) for j in joints]
                yield Slip(JointFault.ASTRAY, hands.put(there), joints[0], wrong, right, tuple(joints[1:]))


_WAITING = 2
"""A net in trouble with no more leads than this waits for something that went elsewhere."""


def _on_the_wrong_part(account: Account, hands: Hands, own: Sequence[Join], nets: frozenset[int]) -> Iterator[Slip]:
    """Joints on the pin or lug of the right number of another part, while the right one waits for them."""
    real, laid, made = account.real, account.laid.graph.circuit.nets, set(map(id, own))
    waiting = [at for at in range(len(laid)) if laid[at] in nets and is_place(real, at)]
    for right in waiting:
        if len(real.leads_on(real.circuit.nets[right])) <= _WAITING:
            for wrong in _twins(real, right):
                for join in hands.joints(wrong) if real.circuit.nets[wrong] != real.circuit.nets[right] else ():
                    if id(join) in made:
                        yield _strayed(hands, join, wrong, right)
    yield from _culprits_on_the_wrong_part(account, hands, nets)


def _culprits_on_the_wrong_part(account: Account, hands: Hands, nets: frozenset[int]) -> Iterator[Slip]:
    """What a cut named, on the pin or lug of the right number of the part that it belongs on, however much is there."""
    real, laid = account.real, account.laid.graph.circuit.nets
    for join in _culprit_joints(account, nets):
        for wrong in (at for at in (join.a, join.b) if is_place(real, at)):
            for right in _twins(real, wrong):
                if laid[right] in nets and laid[right] != laid[wrong]:
                    yield _strayed(hands, join, wrong, right)


def _twins(real: CircuitGraph, at: int) -> Iterator[int]:
    """The pins or lugs of the same number on other parts of a kind."""
    part, terminal = real.part_of(at), real.point(at).terminal
    if part is None or terminal is None:
        return
    for other in real.circuit.parts.values():
        there = real.circuit.index.get(lead_name(other, terminal.name))
        if other.kind is part.kind and other is not part and there is not None:
            yield there


def _far_off(account: Account, hands: Hands, nets: frozenset[int]) -> Iterator[Slip]:
    real = account.real
    free = [real.site(f.leads[0].new) for f in account.faults if isinstance(f, Split) and _is_small(f)]
    wires = (join for join in _culprit_joints(account, nets) if join.how is How.WIRE)
    for wire, right in product(wires, free):
        for wrong in (wire.a, wire.b):
            if real.circuit.nets[right] != real.circuit.nets[wrong]:
                yield _strayed(hands, wire, wrong, right)


RAIL = 8
"""On a net with more leads than this, two mistakes of two hands are likelier than one wire gone far astray."""


def _is_small(split: Split) -> bool:
    """Whether a net is no rail: few leads, and neither the chassis nor the common among them."""
    leads = (*split.leads, *split.rest)
    return len(leads) <= RAIL and all(lead.part for lead in leads)


def _culprit_joints(account: Account, nets: frozenset[int]) -> Iterator[Join]:
    laid = account.laid.graph.circuit.nets
    for fault in account.faults:
        for join in fault.culprits if isinstance(fault, Merge | Move) else ():
            if join.how not in UNSOLDERED and laid[join.a] in nets and not join.bridges:
                yield join


def _groups(
    account: Account, hands: Hands, own: Sequence[Join], nets: frozenset[int], drawn: CircuitGraph
) -> Iterator[Slip]:
    """All leads of one net of the original that are soldered to one place, put where that net is, or on a bare lug.

    Leads of the chassis on a foot that does not reach it are where they belong.
    """
    real, laid = account.real, account.laid
    at_place: dict[int, list[Join]] = {}
    for join in own:
        if laid.graph.circuit.nets[join.a] in nets and join.how is not How.WIRE and hands.is_movable(join.b):
            at_place.setdefault(join.a, []).append(join)
    meant = _meant_nets(account, drawn.circuit)
    feet = {(at, drawn.circuit.nets[0]) for _, at in unbonded_seats(real, drawn.circuit)}
    for wrong, joints in at_place.items():
        for old, group in _groups_of(real, meant, joints):
            if (wrong, old) in feet and len(hands.joints(wrong)) - len(group) <= 1:
                continue
            for right in (*_homes_near(account, drawn, old, wrong), bare_place(real, wrong, group[0].b)):
                if right == group[0].b or real.circuit.nets[right] != real.circuit.nets[wrong]:
                    mend = hands.put([(join, right, join.b) for join in group])
                    yield Slip(JointFault.ASTRAY, mend, group[0], wrong, right, tuple(group[1:]))


def _groups_of(
    real: CircuitGraph, meant: Mapping[int, tuple[int, ...]], joints: Sequence[Join]
) -> Iterator[tuple[int, Sequence[Join]]]:
    """Two joints and more that may belong on one net of the original; those of inserted parts may stay behind.

    Of a part that lies with both its free ends on one place one end belongs there. Last those that belong on that net
    as they lie, and not the other way round.
    """

    def is_inserted(join: Join) -> bool:
        return real.circuit.parts[real.point(join.b).part].inserted is not None

    for old in dict.fromkeys(net for join in joints for net in meant.get(join.b, ())):
        able = [join for join in joints if old in meant.get(join.b, ())]
        ends = {(real.point(j.b).part if len(meant[j.b]) > 1 else real.point(j.b).name): j for j in reversed(able)}
        whole = [join for join in able if join in ends.values()]
        drawn = [join for join in whole if not is_inserted(join)]
        lying = [join for join in able if meant[join.b][0] == old and not is_inserted(join)]
        groups = [whole, *(some for some, more in ((drawn, whole), (lying, drawn)) if some != more)]
        yield from ((old, group) for group in groups if len(group) > 1)


def _meant_nets(account: Account, original: Circuit) -> Mapping[int, tuple[int, ...]]:
    """The nets of the original that a lead may belong on: its own, then that of its part's other end where it is free.

    An inserted part's lead may belong on any that is found on its net.
    """
    ends: dict[str, list[tuple[int, int]]] = {}
    for lead, pair in zip(account.laid.leads, account.laid.pairs, strict=True):
        ends.setdefault(lead.part, []).append((lead.new, pair[0]))
    found: dict[int, tuple[int, ...]] = {}
    for name, own in ends.items():
        part = account.real.circuit.parts.get(name)
        free = part is not None and part.free and len(own) == 2
        found.update({at: (old, *(net for _, net in own if net != old and free)) for at, old in own})
    laid = account.laid.graph.circuit.nets
    for inserted in inserted_parts(account.real, original):
        for at in account.real.terminals(inserted):
            found[at] = tuple(dict.fromkeys(old for old, new in account.laid.pairs if new == laid[at]))
    return found


def _homes_near(account: Account, drawn: CircuitGraph, old: int, wrong: int) -> Iterator[int]:
    """The place nearest to a wrong one, of each other real net with leads of a net of the original."""
    nets = account.real.circuit.nets
    held = zip(account.laid.leads, account.laid.pairs, strict=True)
    for net in dict.fromkeys(nets[lead.new] for lead, pair in held if pair[0] == old):
        if net != nets[wrong]:
            yield from own_places(account.real, drawn, (old, net), wrong)[:1]


def _freed(account: Account) -> frozenset[int]:
    nets = account.laid.graph.circuit.nets
    return frozenset(nets[f.new_net] for f in account.faults if isinstance(f, Split))


def _strayed(hands: Hands, join: Join, wrong: int, right: int) -> Slip:
    return Slip(JointFault.ASTRAY, hands.end_put(join, wrong, right), join, wrong, right)


def _bridges(account: Account, hands: Hands, own: Sequence[Join], nets: frozenset[int]) -> Iterator[Slip]:
    """The joints of nets on which leads of two nets of the original lie."""
    laid = account.laid.graph.circuit.nets
    there = Counter(new for _, new in set(account.laid.pairs))
    joints = [join for join in own if laid[join.a] in nets and there[laid[join.a]] > 1]
    for join in sorted(joints, key=lambda join: account.real.cost((join,))):
        yield Slip(JointFault.BRIDGE, hands.taken_off((join,)), join)


def _mountings(account: Account, hands: Hands, nets: frozenset[int], original: Circuit) -> Iterator[Slip]:
    """Feet, cans and lugs that do not reach the chassis, and those that reach it and must not."""
    real = account.real.circuit
    for name, at in unbonded(account, nets, original):
        place = real.parts[name].place
        yield Slip(JointFault.UNBONDED, hands.bonded(name), Join(0, at, How.BOND, place, place))
    laid = account.laid.graph.circuit.nets
    for bond in real.joins:
        if bond.how is How.BOND and laid[bond.b] in nets and real.points[bond.b].part:
            yield Slip(JointFault.BONDED, hands.taken_off((bond,)), bond)


def _inserted(account: Account, hands: Hands, nets: frozenset[int], original: Circuit) -> Iterator[Slip]:
    """An end of an inserted part put to a place of any net in trouble."""
    real, laid = account.real, account.laid.graph.circuit.nets
    places = _places(account, nets | _freed(account))
    for part in inserted_parts(real, original):
        for end in real.terminals(part):
            for right in places if laid[end] in nets else ():
                joints = hands.joints(end)
                if real.circuit.nets[right] != real.circuit.nets[end] and len(joints) == 1:
                    hub = joints[0].a if joints[0].b == end else joints[0].b
                    yield _strayed(hands, joints[0], hub, right)
        yield from _exchanged_with(account, hands, part, nets)


def _exchanged_with(account: Account, hands: Hands, part: Part, nets: frozenset[int]) -> Iterator[Slip]:
    """An end of an inserted part and a lead in trouble in each other's places."""
    real, laid = account.real.circuit.nets, account.laid.graph.circuit.nets
    wrong, _ = in_trouble(account.laid, nets)
    for end, other in product(account.real.terminals(part), sorted(wrong)):
        if laid[end] in nets and real[end] != real[other]:
            ends = {end: other, other: end}
            parts = (part.name, account.real.point(other).part)
            yield Slip(Way.LEADS, hands.exchanged(ends), parts=parts, ends=ends)


def _places(account: Account, nets: Collection[int]) -> list[int]:
    """One place of each real net that is part of some nets as laid."""
    real = account.real
    found: dict[int, int] = {}
    for lead, pair in zip(account.laid.leads, account.laid.pairs, strict=True):
        if pair[1] in nets:
            found.setdefault(real.circuit.nets[lead.new], real.site(lead.new))
    return list(found.values())
