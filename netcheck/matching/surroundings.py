"""How far around two parts, or two nets, look alike: their surroundings to a depth of a few steps, as numbers.

A fault changes the surroundings of what is near it and of nothing else, which is why the depth is small; and a net
with many ends is seen from afar as a rail, whatever hangs on it, so that a fault on a rail blinds nobody else.
"""

from collections.abc import Hashable, Mapping, Sequence

from msgspec import Struct

from netcheck.matching.structure import Anchors, Structure

__all__ = ["DEPTH", "Surroundings", "surroundings"]

DEPTH = 4
_RAIL = 12  # ends


class Surroundings(Struct, frozen=True):
    """What one structure's parts and nets look like, by depth; equal numbers look alike."""

    parts: tuple[Sequence[int], ...]
    nets: tuple[Sequence[int], ...]


class _Numbers:
    """One number for each thing, the same in both structures."""

    def __init__(self) -> None:
        self._known: dict[Hashable, int] = {}

    def of(self, thing: Hashable) -> int:
        return self._known.setdefault(thing, len(self._known))


def surroundings(a: Structure, b: Structure, anchors: Anchors) -> tuple[Surroundings, Surroundings]:
    """The surroundings in both; anchored pairs look alike at any depth, and like nothing else."""
    numbers = _Numbers()
    return _seen(a, numbers, anchors, 0), _seen(b, numbers, anchors, 1)


def _seen(structure: Structure, numbers: _Numbers, anchors: Anchors, side: int) -> Surroundings:
    ends = [[(numbers.of(("role", role)), net) for role, net in part.ends] for part in structure.parts]
    on: list[list[tuple[int, int]]] = [[] for _ in range(structure.nets)]
    for at, there in enumerate(ends):
        for role, net in there:
            on[net].append((role, at))
    known = {pair[side]: numbers.of(("known part", n)) for n, pair in enumerate(anchors.parts)}
    fixed = {at: numbers.of("rail") for at, there in enumerate(on) if len(there) > _RAIL}
    fixed.update((pair[side], numbers.of(("known net", n))) for n, pair in enumerate(anchors.nets))
    parts = [[known.get(at, numbers.of(("part", part.colour))) for at, part in enumerate(structure.parts)]]
    nets = [[fixed.get(at, numbers.of("net")) for at in range(structure.nets)]]
    for _ in range(DEPTH):
        nets.append(_step(on, nets[-1], parts[-1], fixed, numbers))
        parts.append(_step(ends, parts[-1], nets[-1], known, numbers))
    return Surroundings(tuple(parts), tuple(nets))


def _step(
    ends: Sequence[Sequence[tuple[int, int]]],
    own: Sequence[int],
    seen: Sequence[int],
    fixed: Mapping[int, int],
    numbers: _Numbers,
) -> list[int]:
    """One step further out: what each looked like, with what it touches by role."""
    return [
        fixed[at] if at in fixed else numbers.of((own[at], tuple(sorted((role, seen[other]) for role, other in there))))
        for at, there in enumerate(ends)
    ]
