"""Faults that come of an inserted part: it is bridged for the comparison, so the blame has to find its lead again.

An inserted part stands in series where a joint was. With its lead on a wrong net, bridging it joins that net to its
own; with both leads on one side, what was on the other side hangs free. Both are one slip: of the inserted part.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import permutations
from typing import TypeVar

from msgspec import Struct
from msgspec.structs import replace

from netcheck.compare.faults.laid import Laid
from netcheck.compare.faults.series import inserted_in
from netcheck.core.circuit import Circuit, Part
from netcheck.core.difference import Fault, Lead, Merge, Move, Split
from netcheck.core.mend import Mend
from netcheck.model.graph import CircuitGraph

__all__ = ["Bridged", "LooseEnd", "blamed", "inserted_parts", "waiting"]

Away = TypeVar("Away", Split, Split | Move)

_RAIL = 6
"""More leads than these are no cathode or feed that an inserted part was to reach from elsewhere."""


class Bridged(Struct, frozen=True):
    """An inserted part with both ends on one net, and what its other end was to reach, where that hangs free."""

    part: Part
    behind: Split | None
    mends: tuple[Mend, ...] = ()


class LooseEnd(Struct, frozen=True):
    """The end of an inserted part, its other end held, that waits for what a fault's leads are to be joined by."""

    part: str
    at: int


def inserted_parts(real: CircuitGraph, original: Circuit) -> Iterator[Part]:
    """The two-lead parts that the rewired state declares as inserted."""
    return inserted_in(real.circuit, original)


def waiting(faults: Sequence[Fault], real: CircuitGraph, laid: Laid) -> Mapping[int, LooseEnd]:
    """The loose ends of inserted parts that belong to what left their nets, by the number of the fault.

    A lead that left a net may have been on either side of a part inserted there; the side that nothing is on waits.
    """
    nets, number = laid.graph.circuit.nets, {id(fault): n for n, fault in enumerate(faults)}
    found: dict[int, LooseEnd] = {}
    for name, loose in laid.waiting.items():
        for end, held in permutations(real.terminals(real.circuit.parts[name])):
            away = [
                fault
                for fault in faults
                if isinstance(fault, Split | Move)
                and number[id(fault)] not in found
                and nets[fault.home] == nets[held]
                and real.circuit.nets[held] not in _nets_of(fault, real.circuit.nets)
            ]
            lost = _likeliest(real.circuit.parts[name], away, real)
            if end in loose and held not in loose and lost is not None:
                found[number[id(lost)]] = LooseEnd(name, end)
    return found


def _nets_of(fault: Split | Move, nets: Sequence[int]) -> set[int]:
    return {nets[lead.new] for lead in fault.leads}


def blamed(
    faults: Sequence[Fault], real: CircuitGraph, laid: Laid, original: Circuit
) -> tuple[tuple[Fault, ...], tuple[Bridged, ...]]:
    """The faults with those that an inserted part's lead explains put on that lead, and the parts that are bridged.

    ``real`` is the state with its inserted parts as they are, ``laid`` has them bridged.
    """
    left, idle = list(faults), list(_bridged(faults, real, laid, original))
    left = [fault for fault in left if all(fault is not one.behind for one in idle)]
    left = [_hanging(fault, real, laid) if isinstance(fault, Split) else fault for fault in left]
    left = [_reached_through(fault, real, original) if isinstance(fault, Move) else fault for fault in left]
    for fault in tuple(left):
        culprit = _inserted_culprit(fault, real)
        if culprit is None or fault not in left:
            continue
        if isinstance(fault, Move):
            left[left.index(fault)] = _on_wrong_net(fault, culprit, real, (fault.home, fault.old_net, fault.wrong_net))
        elif isinstance(fault, Merge):
            nets = (fault.old_net, fault.other_net)
            splits = [s for s in left if isinstance(s, Split) and s.old_net in nets]
            split = _likeliest(culprit, splits, real)
            if split is not None:
                wrong = fault.other_net if split.old_net == fault.old_net else fault.old_net
                left = [other for other in left if other is not split]
                left[left.index(fault)] = _on_wrong_net(fault, culprit, real, (split.new_net, split.old_net, wrong))
    return tuple(left), tuple(idle)


def _bridged(faults: Sequence[Fault], real: CircuitGraph, laid: Laid, original: Circuit) -> Iterator[Bridged]:
    # What hangs on an inserted part whose own end is alone hangs free for that, and not for another part.
    left = [f for f in faults if not isinstance(f, Split) or _hanging(f, real, laid) is f]
    for part in inserted_parts(real, original):
        if len({real.circuit.nets[at] for at in real.terminals(part)}) == 1:
            behind = _left_behind(part, left, real)
            left = [fault for fault in left if fault is not behind]
            yield Bridged(part, behind)


def _reached_through(fault: Move, real: CircuitGraph, original: Circuit) -> Move:
    """The move told of the inserted part's end that is on the wrong net, where the leads are only behind that part."""
    nets = real.circuit.nets
    if len(fault.culprits) != 1 or fault.culprits[0].bridges:
        return fault
    behind, wrong = nets[fault.leads[0].new], nets[fault.culprits[0].a]
    for part in inserted_parts(real, original) if behind != wrong else ():
        at = {nets[end]: end for end in real.terminals(part)}
        if at.keys() == {behind, wrong}:
            name = real.point(at[wrong]).name
            return replace(fault, leads=(Lead(name, name, part.name, part.name, fault.leads[0].old, at[wrong]),))
    return fault


def _hanging(fault: Split, real: CircuitGraph, laid: Laid) -> Split:
    """The split with the blame on an inserted part's end, where nothing is on that end and so the rest is parted."""
    nets = real.circuit.nets
    group = _nets_of(fault, nets)
    for name, loose in laid.idle.items():
        for end, other in permutations(real.terminals(real.circuit.parts[name])):
            if end in loose and nets[other] in group and nets[end] not in group:
                point = real.point(end).name
                return replace(fault, leads=(Lead(point, point, name, name, fault.leads[0].old, end),))
    return fault


def _left_behind(part: Part, faults: Sequence[Fault], real: CircuitGraph) -> Split | None:
    """What a bridged inserted part's other end was to reach."""
    home = real.circuit.nets[real.terminals(part)[0]]  # bridging what is bridged already changes no net's number
    return _likeliest(part, [f for f in faults if isinstance(f, Split) and home in (f.home, f.new_net)], real)


def _likeliest(part: Part, splits: Sequence[Away], real: CircuitGraph) -> Away | None:
    """Which of several groups an inserted part was to reach: one near it, the smallest.

    Only one, for every other thing that hangs free there is a fault of its own; so is a branch of many leads elsewhere.
    """
    near = _beside(real, real.terminals(part)) - {part.name}

    def order(split: Away) -> tuple[bool, int]:
        return near.isdisjoint(_beside(real, [lead.new for lead in split.leads])), len(split.leads)

    return min((split for split in splits if order(split) <= (True, _RAIL)), key=order, default=None)


def _beside(real: CircuitGraph, points: Collection[int]) -> set[str]:
    """The parts that some points are terminals of or are joined to."""
    ends = {end for at in points for join in real.joins_at[at] for end in (join.a, join.b)}
    return {real.point(at).part for at in (*points, *ends)} - {""}


def _inserted_culprit(fault: Fault, real: CircuitGraph) -> Part | None:
    """The inserted part whose bridging alone makes the fault."""
    if not isinstance(fault, Move | Merge) or len(fault.culprits) != 1:
        return None
    return real.circuit.parts.get(fault.culprits[0].bridges)


def _on_wrong_net(fault: Move | Merge, part: Part, real: CircuitGraph, nets: tuple[int, int, int]) -> Move:
    """The inserted part's end on the wrong net, as a lead that belongs where the parted rest is.

    ``nets`` are the rest's net now, its old net, and the wrong one.
    """
    home, old_net, wrong_net = nets
    circuit = real.circuit
    wrong, right = _sides(fault, wrong_net)
    ends = real.terminals(part)
    end = max(ends, key=lambda at: _among(wrong, circuit.nets, at) - _among(right, circuit.nets, at))
    name = circuit.points[end].name
    lead = Lead(name, name, part.name, part.name, fault.leads[0].old, end)
    held = tuple(real.joins_at[end])[:1]
    return Move((lead,), old_net, home, wrong_net, circuit.nets[end], held)


def _sides(fault: Move | Merge, wrong_net: int) -> tuple[Sequence[Lead], Sequence[Lead]]:
    """The leads of the wrong net, as far as they are known, and those of the right one."""
    if isinstance(fault, Move):
        return (), fault.leads
    return (fault.leads, fault.others) if fault.old_net == wrong_net else (fault.others, fault.leads)


def _among(leads: Sequence[Lead], nets: Sequence[int], at: int) -> int:
    """How many of some leads are on the net of a point; a free part across it has one end there and one not."""
    return sum(1 for lead in leads if nets[lead.new] == nets[at])
