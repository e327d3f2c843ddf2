"""How far around two parts, or two nets, look alike: their surroundings to a depth of a few steps, as numbers.

A fault changes the surroundings of what is near it and of nothing else, which is why the depth is small; and a net
with many ends is seen from afar as a rail, whatever hangs on it, so that a fault on a rail blinds nobody else.
"""

from collections.abc import Hashable, Mapping

from netcheck.compare.structure import Structure

__all__ = ["DEPTH", "Likeness", "likenesses"]

DEPTH = 4
_RAIL = 12  # ends

Fixed = Mapping[int, int]


class Likeness:
    """The surroundings of one structure's parts and nets: ``parts[depth][part]``; equal numbers look alike."""

    def __init__(self, parts: list[list[int]], nets: list[list[int]]) -> None:
        self.parts = parts
        self.nets = nets


class _Numbers:
    """One number for each thing, the same in both structures."""

    def __init__(self) -> None:
        self._known: dict[Hashable, int] = {}

    def of(self, thing: Hashable) -> int:
        return self._known.setdefault(thing, len(self._known))


def likenesses(
    a: Structure, b: Structure, parts: tuple[tuple[int, int], ...], nets: tuple[tuple[int, int], ...]
) -> tuple[Likeness, Likeness]:
    """The likenesses of both; pairs that are known to correspond look alike at any depth, and like nothing else."""
    numbers = _Numbers()
    first, second = (
        _likeness(
            structure,
            numbers,
            {pair[side]: n for n, pair in enumerate(parts)},
            {pair[side]: n for n, pair in enumerate(nets)},
        )
        for side, structure in enumerate((a, b))
    )
    return first, second


def _likeness(structure: Structure, numbers: _Numbers, parts: Fixed, nets: Fixed) -> Likeness:
    on: list[list[tuple[int, int]]] = [[] for _ in range(structure.nets)]
    for at, part in enumerate(structure.parts):
        for role, net in part.ends:
            on[net].append((at, numbers.of(("role", role))))
    ends = [[(numbers.of(("role", role)), net) for role, net in part.ends] for part in structure.parts]
    fixed_parts = {at: numbers.of(("known part", n)) for at, n in parts.items()}
    fixed_nets = {at: numbers.of(("known net", n)) for at, n in nets.items()}
    fixed_nets.update((at, numbers.of("rail")) for at, there in enumerate(on) if len(there) > _RAIL and at not in nets)
    of_parts = [[numbers.of(("part", part.colour)) for part in structure.parts]]
    of_nets = [[numbers.of("net")] * structure.nets]
    for known, found in ((fixed_parts, of_parts), (fixed_nets, of_nets)):
        for at, number in known.items():
            found[0][at] = number
    for _ in range(DEPTH):
        seen_nets, seen_parts = of_nets[-1], of_parts[-1]
        of_nets.append(
            [
                fixed_nets.get(at) or numbers.of((seen_nets[at], tuple(sorted((role, seen_parts[p]) for p, role in there))))
                for at, there in enumerate(on)
            ]
        )
        nearer = of_nets[-1]
        of_parts.append(
            [
                fixed_parts.get(at) or numbers.of((seen_parts[at], tuple(sorted((role, nearer[n]) for role, n in there))))
                for at, there in enumerate(ends)
            ]
        )
    return Likeness(of_parts, of_nets)
