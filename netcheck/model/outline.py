"""How much of the chassis a part takes up, so that what is placed can be drawn and held against its neighbours.

Sizes are those of common parts, from memory: a lug strip has its lugs 3/8 inch apart, an octal socket's saddle and a
1 inch can are some 28 mm across, a miniature socket 20 mm. They are the least that such a part needs.
"""

from collections.abc import Iterator
from itertools import combinations

from netcheck.core.circuit import Circuit, Part, Stand
from netcheck.core.kind import Role

__all__ = ["PITCH", "crowded", "half_size"]

PITCH = 9.5
"""From lug to lug of a strip, in mm."""

_STRIP_DEEP = 10.0
_ROUND = {"can": 14.0, "tube": 14.0, "socket": 14.0}
_MINIATURE = 10.0
_OCTAL = 8
_BOXES = {"transformer": (20.0, 16.0), "choke": (14.0, 12.0), "pot": (12.0, 10.0), "switch": (12.0, 10.0)}
_SMALL = (6.0, 4.0)


def half_size(part: Part, *, turned: bool = False) -> tuple[float, float]:
    """Half of how wide and of how deep it is, in mm."""
    word = part.kind.word
    if word in ("tube", "socket") and _pins(part) != _OCTAL:
        return (_MINIATURE, _MINIATURE)
    if word in _ROUND:
        return (_ROUND[word], _ROUND[word])
    if word in ("strip", "plug"):
        long, deep = _pins(part) * PITCH / 2, _STRIP_DEEP / 2
        return (deep, long) if turned else (long, deep)
    return _BOXES.get(word, _SMALL)


def _pins(part: Part) -> int:
    terminals = part.shape.terminals if part.shape is not None else ()
    return sum(1 for t in terminals if t.name.isdigit() and t.role is not Role.SHELL)


def crowded(circuit: Circuit) -> Iterator[tuple[Stand, Stand]]:
    """Pairs of parts that can't both be where they are placed."""
    placed = [stand for stand in circuit.stands if stand.part in circuit.parts]
    for one, other in combinations(placed, 2):
        (wide, deep), (broad, long) = (half_size(circuit.parts[s.part], turned=s.turned) for s in (one, other))
        if abs(one.right - other.right) < wide + broad and abs(one.front - other.front) < deep + long:
            yield one, other
