"""Whether the orders of a report repair the chassis, judged without any code of what printed them.

The document of `compare` is read as a program would read it: of each finding that is a STOP or a LOOK the first mend
(its `mend`, or where it is not certain the first of its `alternatives`), in the printed order, is carried out on the
campaign's own model of the faulty chassis. The leads' partition that comes of it is held against that of the state
before any fault was planted, which has the original's nets with the declared changes. The figures, over all states
whose joints a fault has changed (a wrong value or a part that is not there changes none):

* `ordered`: the share of states where something at the gravest grade is told, and every finding of that grade about
  joints has a mend. That a part is not there is nothing that joints can mend, and asks for none.
* `repaired`: of the states with an order where no finding about joints is without one, the share where all orders
  together leave the original's partition: equal by name, or under a correspondence of equal parts and free ends
  (networkx). Where a report says that some of its findings have no order, it does not say that they do.
* `wrong_orders`: the count of states with an order that should not have been printed. Either every finding about
  joints has its order and what they leave is not the original; or some have theirs and what those leave is no nearer
  to it; or what they leave is further from it than before; or an order can't be followed as written, or takes out
  what belongs; or, where together they leave the original, one of them can't be followed alone or alone brings
  nothing nearer to that.

How far two partitions are apart is counted in two ways: the pairs of leads that one of them joins and the other does
not, and the least number of nets to be split and joined to come from one to the other. An order alone must lower one
of the two: where a lead goes back on a net that is bridged elsewhere, more pairs differ than before, and rightly so.
"""

from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import comb
from typing import Any

from tests.campaign.chassis import CHASSIS, Chassis, Nets
from tests.campaign.orders import Unfollowed, carried_out, is_of_values
from tests.campaign.sameness import Labels, equal, labels_of

__all__ = ["Repair", "distances", "has_fewer_slips", "orders_of", "repair"]

_NOT_OF_JOINTS = frozenset(
    {
        "value-changed", "rating-too-low", "kind-unsuitable", "first-capacitor-too-large", "balancing-missing",
        "several-for-one", "renamed", "not-compared",
    }
)  # fmt: skip
_GRAVE, _TOLD = "STOP", ("STOP", "LOOK")

Order = tuple[str, ...]
"""One mend: lines of a work log."""


@dataclass(frozen=True, slots=True)
class Repair:
    """What came of following a report. ``concerned``: the fault changed joints; ``wrong`` says what is wrong."""

    concerned: bool
    ordered: bool
    tried: bool
    repaired: bool
    wrong: tuple[str, ...] = ()


def orders_of(document: Mapping[str, Any]) -> list[Order]:
    """The first mend of each finding that has one, in the printed order."""
    told = [f for f in document["findings"] if f["grade"].upper() in _TOLD]
    return [order for finding in told if (order := _first(finding))]


def _first(finding: Mapping[str, Any]) -> Order:
    mends = [finding.get("mend") or (), *(finding.get("alternatives") or ())]
    return next((tuple(mend) for mend in mends if mend), ())


def has_fewer_slips(document: Mapping[str, Any], done: Repair, faults: int) -> bool:
    """Whether a document explains the state by fewer slips than were planted, and following it gives the original.

    A wire of a filament that is on a foot bonded by mistake, while the foot of the strip beside it hangs free, is the
    chassis's wire on the same pin of the wrong tube: what two hands did and what one did are one netlist, and the
    fewer slips are the likelier account of it. Each finding must be one slip for that: a joint too many, a joint that
    is missing, or one end of one wire or lead elsewhere.
    """
    grave = [f for f in document["findings"] if f["grade"].upper() == _GRAVE]
    is_followed = done.ordered and done.repaired and not done.wrong
    return is_followed and len(grave) < faults and all(_is_one_slip(_first(f)) for f in grave)


def _is_one_slip(order: Order) -> bool:
    acts = [line.split() for line in order]
    if len(acts) != 2:
        return len(acts) == 1 and acts[0][0] in ("cut", "wire", "move", "at", "change")
    off, on = acts
    return off[0] == "cut" and on[0] == "wire" and len({off[1], off[3]} & {on[1], on[3]}) == 1


def repair(document: Mapping[str, Any], faulty: Chassis, sound: Chassis) -> Repair:
    """Follows a document's orders on the faulty chassis; ``sound`` is the one before the faults."""
    goal = _Goal(faulty, sound)
    orders = orders_of(document)
    if goal.is_reached(faulty):
        return Repair(concerned=False, ordered=False, tried=bool(orders), repaired=False)
    ordered = _is_ordered(document, faulty)
    try:
        left = carried_out(faulty, [line for order in orders for line in order])
    except Unfollowed as why:
        return Repair(concerned=True, ordered=ordered, tried=True, repaired=False, wrong=(str(why),))
    repaired = goal.is_reached(left)
    wrong = tuple(_wrongs(goal, faulty, orders, left, claimed=ordered and not repaired))
    return Repair(concerned=True, ordered=ordered, tried=bool(orders), repaired=repaired, wrong=wrong)


def _is_ordered(document: Mapping[str, Any], faulty: Chassis) -> bool:
    grave = [f for f in document["findings"] if f["grade"].upper() == _GRAVE and f["rule"] not in _NOT_OF_JOINTS]
    return bool(grave) and all(_first(f) or _is_absent(f, faulty) for f in grave)


def _is_absent(finding: Mapping[str, Any], faulty: Chassis) -> bool:
    """Whether a finding is of a part that is not there at all."""
    return finding["rule"] == "part-missing" and not set(finding["parts"]) & set(faulty.parts)


def _wrongs(goal: "_Goal", faulty: Chassis, orders: Sequence[Order], left: Chassis, *, claimed: bool) -> Iterator[str]:
    if claimed:
        yield "every finding has its order, and following them does not give the original"
    taken = [name for name in goal.sound.parts if name in faulty.parts and name not in left.parts]
    if taken:
        yield f"takes out what belongs: {', '.join(taken)}"
    target = goal.partition(left) if goal.is_reached(left) else goal.target
    before, after = distances(goal.partition(faulty), target), distances(goal.partition(left), target)
    of_joints = any(not is_of_values(line) for order in orders for line in order)
    if orders and _is_worse(after, before):
        yield "what the orders leave is further from the original"
    elif of_joints and not claimed and after[1] >= before[1]:
        yield "what the orders leave is no nearer to the original"
    for order in orders if goal.is_reached(left) else ():
        yield from _alone(goal, faulty, order, target)


def _alone(goal: "_Goal", faulty: Chassis, order: Order, target: Nets) -> Iterator[str]:
    if all(map(is_of_values, order)):
        return
    try:
        done = carried_out(faulty, order)
    except Unfollowed as why:
        yield f"alone it can't be followed: {why}"
        return
    before, after = distances(goal.partition(faulty), target), distances(goal.partition(done), target)
    if not any(a < b for a, b in zip(after, before, strict=True)):
        yield f"alone it brings nothing nearer: {'; '.join(order)}"


def _is_worse(after: tuple[int, int], before: tuple[int, int]) -> bool:
    return all(a > b for a, b in zip(after, before, strict=True))


class _Goal:
    """The sound state's partition, over the leads that the faulty state still has."""

    def __init__(self, faulty: Chassis, sound: Chassis) -> None:
        self.sound = sound
        self._here = frozenset(faulty.compared())
        shared = self._here & set(sound.compared())
        self._shared = shared | {CHASSIS, "common"} | {f"{p.name}!" for p in faulty.inserted()}
        self._labels: Labels = labels_of(sound)
        self._nets = self._kept(sound)
        self.target = self.partition(sound)

    def is_reached(self, state: Chassis) -> bool:
        """Whether a state has the original's nets, with every inserted part in series as it was.

        A part that is not there holds nothing: what was in series with it alone is so again once it is fitted.
        """
        if _in_series(state, self._shared) != _in_series(self.sound, self._shared):
            return False
        return equal(self._nets, self._kept(state), self._labels, self._labels)

    def _kept(self, state: Chassis) -> Nets:
        """The nets of the leads that both have; a lead whose part was taken out is on a net of its own."""
        found = {lead: net for lead, net in state.fixed().items() if lead in self._shared}
        gone = self._shared & set(self._fixed_leads()) - set(found)
        return {**found, **{lead: -100 - n for n, lead in enumerate(sorted(gone))}}

    def _fixed_leads(self) -> tuple[str, ...]:
        inserted = self.sound.parts_leads(self.sound.inserted())
        return tuple(lead for lead in self.sound.compared() if lead not in inserted)

    def partition(self, state: Chassis) -> Nets:
        """The net of every lead of the faulty state; what a state does not have is on nothing."""
        nets = state.nets()
        leads = sorted(self._here | {CHASSIS})
        return {lead: nets.get(lead, -100 - n) for n, lead in enumerate(leads)}


def _in_series(state: Chassis, leads: Collection[str]) -> frozenset[str]:
    """The inserted parts with both ends on something, of the leads that count, and not on one net."""
    nets = {lead: net for lead, net in state.nets().items() if lead in leads}
    sizes = Counter(nets.values())
    parts = [p for p in state.inserted() if all(lead in nets for lead in p.leads)]
    return frozenset(
        p.name for p in parts if nets[p.leads[0]] != nets[p.leads[1]] and min(sizes[nets[x]] for x in p.leads) > 1
    )


def distances(one: Nets, other: Nets) -> tuple[int, int]:
    """How far two partitions of the same leads are apart: in pairs of leads, and in nets to split and join."""
    both = Counter((one[lead], other[lead]) for lead in one)
    mine, its = Counter(one.values()), Counter(other[lead] for lead in one)
    pairs = _pairs(mine) + _pairs(its) - 2 * _pairs(both)
    return pairs, 2 * len(both) - len(mine) - len(its)


def _pairs(sizes: Counter[Any]) -> int:
    return sum(comb(size, 2) for size in sizes.values())
