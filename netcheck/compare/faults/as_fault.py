"""A slip of the hand, told as a difference between the state with it and the state with it undone."""

from collections.abc import Iterable, Iterator

from msgspec.structs import replace

from netcheck.compare.faults.account import Account
from netcheck.compare.faults.hands import Hands, tried
from netcheck.compare.faults.laid import Laid, SideBySide
from netcheck.compare.faults.slips import JointFault, Slip
from netcheck.core.circuit import How, Join
from netcheck.core.difference import Fault, Lead, Merge, Move, Rearranged, Split, Swap, Way
from netcheck.core.mend import Act, Cut, Insulate, Lift, Put

__all__ = ["as_fault"]


def as_fault(table: SideBySide, before: Account, slip: Slip, after: Account) -> Fault | None:
    """The difference that a slip made; None where it can't be told by what is compared."""
    teller = _Teller(table, before, slip, after)
    match slip:
        case Slip(what=JointFault.BRIDGE | JointFault.BONDED, joint=Join() as joint):
            return teller.bridge(joint)
        case Slip(what=JointFault.ASTRAY, joint=Join() as joint):
            return teller.astray(joint)
        case Slip(what=JointFault.UNBONDED, joint=Join() as joint):
            return teller.unbonded(joint)
        case Slip(what=Way() as way):
            whole = way in (Way.MIRRORED, Way.SHIFTED) or teller.is_of_lugs()
            return teller.turned_place(way) if whole else teller.exchange(way)
        case _:
            return None


class _Teller:
    """What is on which net before and after; ``apart`` is the state with the slip's joints off and nothing put on."""

    def __init__(self, table: SideBySide, before: Account, slip: Slip, after: Account) -> None:
        self._table = table
        self._before = before
        self._slip = slip
        self._now = before.laid.graph.circuit.nets
        self._after: Laid = after.laid
        self._then = after.laid.graph.circuit.nets
        self._off = tried(before.real.circuit, tuple(_off(slip.mend))) or before.real.circuit
        self._apart = table.laid(self._off).graph.circuit.nets

    def _right(self, at: int) -> int | None:
        """The net of the original that a point is on once the slip is undone, or that it was cut off from alone."""
        home = self._after.right_net(at)
        cut_off = {old for old, new in self._after.pairs if new == self._then[at]}
        return cut_off.pop() if len(cut_off) == 1 else home

    def _leads(self, old: int, nets: tuple[int, ...], at: int) -> tuple[Lead, ...]:
        """The leads of an old net that some nets have together with a point."""
        pairs = zip(self._after.leads, self._after.pairs, strict=True)
        return tuple(lead for lead, pair in pairs if pair[0] == old and nets[lead.new] == nets[at])

    def bridge(self, joint: Join) -> Fault | None:
        one, other = self._right(joint.a), self._right(joint.b)
        if one is None or other is None or one == other:
            return None
        leads, others = self._leads(one, self._then, joint.a), self._leads(other, self._then, joint.b)
        return Merge(leads, one, others, other, self._now[joint.a], (joint,)) if leads and others else None

    def astray(self, joint: Join) -> Fault | None:
        slip = self._slip
        joints = (joint, *slip.beside)
        far = [each.b if each.a == slip.wrong else each.a for each in joints]
        right, wrong = self._right(slip.right), self._right(slip.wrong)
        if right is None or right == wrong:
            return None
        leads = tuple(dict.fromkeys(lead for at in far for lead in self._held(right, at)))
        lost = self._leads(right, self._apart, slip.right)
        if not lost and slip.beside:
            return self._group_upon(joints, leads, right, wrong)
        if not leads or not lost or leads == lost:
            return None
        return self._strayed(joints, Split(leads, right, lost, self._now[slip.right], self._now[slip.wrong]), wrong)

    def _held(self, old: int, at: int) -> tuple[Lead, ...]:
        """What a joint that went astray holds; of a group each lead by itself, an inserted part's among them."""
        if self._is_inserted_alone(at):
            return self._stand_in(old, at)
        group = () if self._slip.beside else self._leads(old, self._apart, at)
        return group or self._lead(at) or self._stand_in(old, at)

    def _is_inserted_alone(self, at: int) -> bool:
        """Whether it is an inserted part's end, with nothing but that hung on it: what lies behind it did not move."""
        part = self._before.real.part_of(at)
        return part is not None and part.inserted is not None and self._off.nets.count(self._off.nets[at]) == 1

    def _group_upon(
        self, joints: tuple[Join, ...], leads: tuple[Lead, ...], right: int, wrong: int | None
    ) -> Fault | None:
        """A group that belongs on a place of its own and came upon a net: all of its net, or what of it is there."""
        others = () if wrong is None else self._leads(wrong, self._apart, self._slip.wrong)
        if wrong is None or not leads or not others:
            return None
        pairs = zip(self._after.leads, self._after.pairs, strict=True)
        rest = tuple(lead for lead, pair in pairs if pair[0] == right and lead not in leads)
        here = self._now[self._slip.wrong]
        if not rest:
            return Merge(leads, right, others, wrong, here, joints)
        return Move(leads, right, self._now[rest[0].new], wrong, here, joints)

    def _strayed(self, joints: tuple[Join, ...], found: Split, wrong: int | None) -> Fault | None:
        """Leads that joints hold on the wrong lug: alone there, on another net, or the two nets joined by a wire."""
        if wrong is None:
            return found
        others = self._leads(wrong, self._apart, self._slip.wrong)
        if joints[0].how is How.WIRE and others and all(lead.part for lead in found.rest):
            parted = Split(found.rest, found.old_net, found.leads, found.new_net, found.home)
            return Merge(found.leads, found.old_net, others, wrong, found.new_net, joints, parted)
        return Move(found.leads, found.old_net, found.home, wrong, found.new_net, joints) if others else None

    def _stand_in(self, old: int, at: int) -> tuple[Lead, ...]:
        """The lead at a point that is not compared, as an inserted part's; it stands for its net."""
        point = self._before.real.point(at)
        pairs = zip(self._after.leads, self._after.pairs, strict=True)
        first = next((lead for lead, pair in pairs if pair[0] == old), None)
        if first is None or not point.is_lead:
            return ()
        return (Lead(point.name, point.name, point.part, point.part, first.old, at),)

    def unbonded(self, joint: Join) -> Fault | None:
        chassis = self._table.original.circuit.nets[0]
        lost, rest = self._leads(chassis, self._now, joint.b), self._leads(chassis, self._now, 0)
        return Split(lost, chassis, rest, self._now[0], self._now[joint.b]) if lost else None

    def exchange(self, way: Way) -> Fault | None:
        swaps = []
        came_from = {to: end for end, to in self._slip.ends.items()}
        for end, to in self._slip.ends.items():
            # What is on ``end`` belongs on ``to``: the lead ``to`` belongs where ``end`` is, and is where its own goes.
            there = self._slip.ends.get(to, end)
            right, wrong = self._right(to), self._right(there)
            leads = self._lead(to, right)
            if right is not None and wrong is not None and right != wrong and leads:
                swaps.append(Swap(leads, right, wrong, end))
        if len(swaps) < 2 or came_from.keys() != self._slip.ends.keys():
            return None
        order = {lead.new: number for number, lead in enumerate(self._before.laid.leads)}
        swaps.sort(key=lambda swap: order.get(swap.leads[0].new, len(order)))
        return Rearranged(way, self._slip.parts, tuple(swaps))

    def _lead(self, at: int, old: int | None = None) -> tuple[Lead, ...]:
        """The lead at a point; at a lug, all that hang there once the joints that hold them are off."""
        own = tuple(lead for lead in self._before.laid.leads if lead.new == at)
        if own or old is None:
            return own
        if self._is_inserted_alone(at):
            return self._stand_in(old, at)
        return self._leads(old, self._apart, at) or self._stand_in(old, at)

    def is_of_lugs(self) -> bool:
        """Whether it is lugs of one strip or can whose leads changed places."""
        parts = self._before.real.circuit.parts
        place = parts.get(self._slip.parts[0]) if self._slip.parts else None
        points = {self._before.real.point(at).part for at in self._slip.ends}
        return place is not None and place.kind.seat.holds_by_lugs and points == {place.name}

    def turned_place(self, way: Way) -> Fault | None:
        """Of a strip the leads on its lugs, of a socket its pins: where each is, and where it belongs."""
        part = self._before.real.circuit.parts[self._slip.parts[0]]
        swaps = []
        hands = Hands(self._before.real)
        onto = {to: at for at, to in self._slip.ends.items()}
        for lead in self._before.laid.leads:
            if part.kind.seat.holds_by_lugs:
                lug = next((j.a for j in hands.joints(lead.new) if j.b == lead.new and j.a in self._slip.ends), None)
                there = None if lug is None else self._slip.ends[lug]
            else:
                lug = next((grip for grip in hands.grips(lead.new) if grip in onto), None)
                there = None if lug is None else onto[lug]
            right = self._right(lead.new)
            if lug is None or there is None or right is None:
                continue
            wrong = self._right(lug if part.kind.seat.holds_by_lugs else self._slip.ends.get(lug, lug))
            if self._now[lug] != self._now[there]:
                swaps.append(Swap((lead,), right, right if wrong is None else wrong, there))
        if way is Way.ROUND:
            swaps = [*_by_place(swaps)]
        return Rearranged(way, self._slip.parts, tuple(swaps)) if len(swaps) > 1 else None


def _by_place(swaps: Iterable[Swap]) -> Iterator[Swap]:
    """What belongs on one lug together."""
    together: dict[int, Swap] = {}
    for swap in swaps:
        first = together.get(swap.there)
        together[swap.there] = swap if first is None else replace(first, leads=(*first.leads, *swap.leads))
    yield from together.values()


def _off(mend: Iterable[Act]) -> Iterable[Act]:
    """What a mend takes off, without what it puts on."""
    for act in mend:
        if isinstance(act, Put):
            yield Lift(act.point)
        elif isinstance(act, Cut | Lift | Insulate):
            yield act
