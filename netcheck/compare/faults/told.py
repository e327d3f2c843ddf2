"""A slip of the hand, told as a difference between the two states."""

from netcheck.compare.faults.account import Account, Accountant
from netcheck.compare.faults.evidence import borne_out
from netcheck.compare.faults.slips import Astray, Bridge, Exchange, Slip, Unbonded, undone
from netcheck.core.circuit import How
from netcheck.core.difference import Fault, Lead, Merge, Move, Rearranged, Split, Swap, Way
from netcheck.model.graph import CircuitGraph

__all__ = ["told"]


def told(accountant: Accountant, before: Account, slip: Slip, after: Account) -> Fault | None:
    """The difference that a slip made between the state before and the state with the slip undone.

    None where it can't be told by what is compared.
    """
    teller = _Teller(accountant, before, after)
    match slip:
        case Bridge():
            return teller.bridge(slip)
        case Astray():
            return teller.astray(slip)
        case Exchange():
            return teller.exchange(slip)
        case Unbonded():
            return teller.unbonded(slip)


class _Teller:
    """What is on which net before and after."""

    def __init__(self, accountant: Accountant, before: Account, after: Account) -> None:
        self._accountant = accountant
        self._before = before
        self._nets = before.laid.graph.circuit.nets
        self._after = after
        self._then = after.laid.graph.circuit.nets

    def _old(self, at: int) -> int | None:
        """The net of the original that a point is on once the slip is undone."""
        return self._after.home.old_of.get(self._then[at])

    def _old_or_cut_off(self, at: int) -> int | None:
        """The same, or the net that the point was cut off from together with all that is on its own."""
        cut_off = {old for old, new in self._after.laid.pairs if new == self._then[at]}
        return cut_off.pop() if len(cut_off) == 1 else self._old(at)

    def _leads(self, old: int, nets: tuple[int, ...], at: int) -> tuple[Lead, ...]:
        """The leads of an old net that some nets have together with a point."""
        pairs = zip(self._after.laid.leads, self._after.laid.pairs, strict=True)
        return tuple(lead for lead, pair in pairs if pair[0] == old and nets[lead.new] == nets[at])

    def bridge(self, slip: Bridge) -> Fault | None:
        a, b = slip.joint.a, slip.joint.b
        # A lead that is alone once it is taken off was moved, not bridged; a branch on a wire may be cut off as well.
        home = self._old_or_cut_off if slip.joint.how is How.WIRE else self._old
        one, other = home(a), home(b)
        if one is None or other is None or one == other:
            return None
        leads, others = self._leads(one, self._then, a), self._leads(other, self._then, b)
        if not leads or not others:
            return None
        return Merge(leads, one, others, other, self._nets[a], (slip.joint,))

    def astray(self, slip: Astray) -> Fault | None:
        far = slip.joint.b if slip.joint.a == slip.wrong else slip.joint.a
        right, wrong = self._old(slip.right), self._old(slip.wrong)
        if right is None or wrong is None or right == wrong:
            return None
        apart = self._accountant.laid(undone(self._before.real.circuit, Bridge(slip.joint))).graph.circuit.nets
        leads, lost = self._leads(right, apart, far), self._leads(right, apart, slip.right)
        others = self._leads(wrong, apart, slip.wrong)
        if not leads or not lost or not others or leads == lost:
            return None
        now = self._nets[slip.wrong]
        if slip.joint.how is not How.WIRE or not all(lead.part for lead in lost):
            return Move(leads, right, self._nets[slip.right], wrong, now, (slip.joint,))
        parted = Split(lost, right, leads, now, self._nets[slip.right])
        return Merge(leads, right, others, wrong, now, (slip.joint,), parted)

    def exchange(self, slip: Exchange) -> Fault | None:
        one, other = self._old_or_cut_off(slip.one), self._old_or_cut_off(slip.other)
        if one is None or other is None or one == other:
            return None
        graph, own = self._before.laid.graph, {slip.one, slip.other}
        if not (borne_out(graph, own, slip.other) and borne_out(graph, own, slip.one)):
            return None
        first, second = self._lead(slip.one, one), self._lead(slip.other, other)
        if first is None or second is None:
            return None
        parts = tuple(dict.fromkeys((first.part, second.part)))
        polarity = self._before.real.circuit.parts[parts[0]].shape
        turned = len(parts) == 1 and polarity is not None and polarity.polarity is not None
        return Rearranged(
            Way.TURNED if turned else Way.LEADS,
            parts,
            (Swap((first,), one, other, slip.other), Swap((second,), other, one, slip.one)),
        )

    def _lead(self, at: int, old: int) -> Lead | None:
        """The lead at a point; one that is not compared, as an inserted part's, stands for its net."""
        own = next((lead for lead in self._before.laid.leads if lead.new == at), None)
        if own is not None:
            return own
        point = self._before.real.point(at)
        stand_in = next(iter(self._leads(old, self._then, at)), None)
        return stand_in and Lead(point.name, point.name, point.part, point.part, stand_in.old, at)

    def unbonded(self, slip: Unbonded) -> Fault | None:
        graph: CircuitGraph = self._accountant.original
        chassis = graph.circuit.nets[0]
        lost = self._leads(chassis, self._nets, slip.joint.b)
        rest = self._leads(chassis, self._nets, 0)
        if not lost or not rest or lost == rest:
            return None
        return Split(lost, chassis, rest, self._nets[0], self._nets[slip.joint.b])
