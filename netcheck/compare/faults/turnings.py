"""Whole places that were read from the wrong side or counted from the wrong pin: sockets, strips, the lugs of a can.

It takes the nets of two pairs of lugs or more: one pair is an exchange, and is told as one.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import islice
from typing import TypeVar

from netcheck.compare.faults.account import Account
from netcheck.compare.faults.hands import Hands
from netcheck.compare.faults.paper import OnPaper
from netcheck.compare.faults.slips import Slip
from netcheck.core.circuit import How, Join, Part
from netcheck.core.difference import Way
from netcheck.core.kind import Seat, Shape
from netcheck.model.graph import CircuitGraph
from netcheck.model.points import lead_name

__all__ = ["MOST_IN_A_RING", "stretches", "turned_places"]

T = TypeVar("T")
Ends = Mapping[int, int]

MOST_IN_A_RING = 8


def stretches(row: Sequence[T], least: int) -> Iterator[Sequence[T]]:
    """So many neighbours in a row or more, each on the next one's place, either way round."""
    for size in range(least, min(len(row), MOST_IN_A_RING) + 1):
        for first in range(len(row) - size + 1):
            some = row[first : first + size]
            yield some
            yield some[::-1]


_LEADS = 3
"""Fewer leads that would change their lug are an exchange, or a wrong lug."""
_PAIRS = 2
"""Where fewer lugs or pins change their nets, their leads are exchanged."""
_PLACES_TRIED = 40
_TURNED = (Seat.STRIP, Seat.SOCKET, Seat.PLUG, Seat.CAN)


def turned_places(account: Account, nets: frozenset[int], hands: Hands, paper: OnPaper) -> Iterator[Slip]:
    """The strips, sockets and plugs in trouble, as their mirror image and gone one lug or pin on, either way.

    Of strips and cans also some lugs whose leads went round among themselves.
    """
    circuit = account.real.circuit
    for part, shape in islice(_in_trouble(account, nets), _PLACES_TRIED):
        lugs = [circuit.index[lead_name(part, name)] for name in shape.ordered]
        if part.kind.seat.holds_by_lugs:
            shell = [circuit.index[name] for name in (f"{part.name}.can",) if name in circuit.index]
            yield from _lug_rings(account, hands, paper, part, [*lugs, *shell])
        for way, to in _turnings(lugs, ring=shape.ring) if _can_be_misread(part, lugs) else ():
            for wires in (True, False) if part.kind.seat is not Seat.STRIP else (False,):
                slip = _turned_place(account, hands, part, (way, to), wires=wires)
                if slip is not None:
                    yield slip


def _in_trouble(account: Account, nets: frozenset[int]) -> Iterator[tuple[Part, Shape]]:
    """The places with a lug or pin on a net in trouble."""
    circuit, laid = account.real.circuit, account.laid.graph.circuit.nets
    troubled = nets | {new for _, new in account.laid.displaced}
    for part in circuit.parts.values():
        shape = part.shape if part.kind.seat in _TURNED else None
        if shape is not None and any(laid[circuit.index[lead_name(part, name)]] in troubled for name in shape.ordered):
            yield part, shape


def _can_be_misread(part: Part, lugs: Sequence[int]) -> bool:
    """Whether there is an order of lugs or pins to be misread: two pins in each other's place are an exchange."""
    return part.kind.seat is not Seat.CAN and (part.kind.seat is Seat.STRIP or len(lugs) > 2)


def _lug_rings(account: Account, hands: Hands, paper: OnPaper, part: Part, lugs: Sequence[int]) -> Iterator[Slip]:
    """The leads on three lugs in a row or more, those of each on the next one; wires stay."""
    nets = account.laid.graph.circuit.nets
    held = {at: [j.b for j in hands.joints(at) if j.a == at and _is_lead_there(account.real, part, j)] for at in lugs}
    now = account.laid.disorder
    for ring in stretches([at for at in lugs if held[at]], 3):
        to = {at: ring[(n + 1) % len(ring)] for n, at in enumerate(ring)}
        moved = {lead: nets[to[at]] for at in ring for lead in held[at]}
        if not paper.knows(moved) or paper.moved(moved) < now:
            slip = _turned_place(account, hands, part, (Way.ROUND, to), wires=False)
            if slip is not None:
                yield slip


def _turnings(lugs: Sequence[int], *, ring: bool) -> Iterator[tuple[Way, Ends]]:
    yield Way.MIRRORED, dict(zip(lugs, reversed(lugs), strict=True))
    for step in (-1, 1):
        if ring:
            yield Way.SHIFTED, {at: lugs[(n + step) % len(lugs)] for n, at in enumerate(lugs)}
        else:
            yield Way.SHIFTED, {at: lugs[n + step] for n, at in enumerate(lugs) if 0 <= n + step < len(lugs)}


def _turned_place(account: Account, hands: Hands, part: Part, turning: tuple[Way, Ends], *, wires: bool) -> Slip | None:
    """A place with what is soldered there put to other lugs: of a strip the leads, of a socket everything or these."""
    nets, (way, to) = account.real.circuit.nets, turning
    own = [(at, join) for at in to for join in hands.joints(at)]
    moving = [(at, join) for at, join in own if wires or _is_lead_there(account.real, part, join)]
    far = [(at, join) for at, join in moving if to[at] != at and not (join.how is How.NET and nets[at] == nets[to[at]])]
    felt = {at for at, _ in far if nets[at] != nets[to[at]]}
    if len(far) < _LEADS or len(felt) < _PAIRS:
        return None
    changes = {id(join): (join, to.get(join.a, join.a), to.get(join.b, join.b)) for _, join in far}
    mend = hands.put(list(changes.values()))
    return Slip(way, mend, parts=(part.name,), ends={at: to[at] for at in felt})


def _is_lead_there(real: CircuitGraph, part: Part, join: Join) -> bool:
    """Whether a part's lead is soldered there; wires stay on a strip's lugs, as one turned with them is no fault."""
    soldered = join.how in (How.LEAD, How.SOLDERED)
    return soldered and real.point(join.a).part == part.name and real.point(join.b).is_lead
