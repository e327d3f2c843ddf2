"""How much of the chassis a part takes up, so that what is placed can be drawn and held against its neighbours.

Sizes are those of common parts, from memory: a lug strip has its lugs 3/8 inch apart, an octal socket's saddle and a
1 inch can are some 28 mm across, a miniature socket 20 mm. They are the least that such a part needs.
"""

from collections.abc import Iterator
from itertools import combinations

from netcheck.core.circuit import Circuit, Part, Stand
from netcheck.core.kind import Family, Seat

__all__ = ["PITCH", "crowded", "half_size"]

PITCH = 9.5
"""From lug to lug of a strip, in mm."""

_STRIP_DEEP = 10.0
_ROUND = 14.0
_MINIATURE = 10.0
_OCTAL = 8
_BOXES = {Family.TRANSFORMER: (20.0, 16.0), Family.CONTROL: (12.0, 10.0), Family.SWITCH: (12.0, 10.0)}
_CHOKE = (14.0, 12.0)
_SMALL = (6.0, 4.0)


def half_size(part: Part, *, turned: bool = False) -> tuple[float, float]:
    """Half of how wide and of how deep it is, in mm."""
    seat = part.kind.seat
    if seat is Seat.SOCKET and _pins(part) != _OCTAL:
        return (_MINIATURE, _MINIATURE)
    if seat in (Seat.SOCKET, Seat.CAN):
        return (_ROUND, _ROUND)
    if seat in (Seat.STRIP, Seat.PLUG):
        long, deep = _pins(part) * PITCH / 2, _STRIP_DEEP / 2
        return (deep, long) if turned else (long, deep)
    return _CHOKE if part.kind.is_choke else _BOXES.get(part.kind.family, _SMALL)


def _pins(part: Part) -> int:
    terminals = part.shape.terminals if part.shape is not None else ()
    return sum(1 for t in terminals if t.name.isdigit())


def crowded(circuit: Circuit) -> Iterator[tuple[Stand, Stand]]:
    """Pairs of parts that can't both be where they are placed."""
    placed = [stand for stand in circuit.stands if stand.part in circuit.parts]
    for one, other in combinations(placed, 2):
        (wide, deep), (broad, long) = (half_size(circuit.parts[s.part], turned=s.turned) for s in (one, other))
        if abs(one.right - other.right) < wide + broad and abs(one.front - other.front) < deep + long:
            yield one, other
