"""Parts that have no counterpart by name, recognised by kind, value and what they are wired to."""

from collections.abc import Hashable, Sequence
from typing import TYPE_CHECKING

from netcheck.compare.roles.alike import facts
from netcheck.compare.roles.part_pair import Recognised
from netcheck.compare.roles.value_classes import classes, kin
from netcheck.core.circuit import Part
from netcheck.matching.structure import Anchors, Match, Structure, StructurePart, Undecided, match
from netcheck.model.graph import CircuitGraph

if TYPE_CHECKING:
    from netcheck.matching.correspondence import Evidence

__all__ = ["Recognised", "recognised", "same_throughout"]

_WHOLESALE = 2
"""So many parts recognised beyond doubt, and most of those without a counterpart, are a file with names of its own."""

Pair = tuple[Part, Part]


def recognised(
    original: CircuitGraph,
    rewired: CircuitGraph,
    unpaired_old: Sequence[Part],
    unpaired_new: Sequence[Part],
    paired: Sequence[Pair],
) -> Recognised:
    """Which unpaired old part is which unpaired new one; ``paired`` parts, the chassis and the common are known.

    Only parts of one kin are proposed, of one value class unless every lead is where the other's was.
    """
    olds, news = _sides(original, rewired, paired)
    for side, parts, colours in zip(
        (olds, news), (unpaired_old, unpaired_new), classes(unpaired_old, unpaired_new), strict=True
    ):
        for part, colour in zip(parts, colours, strict=True):
            side.add(part, colour)
    anchors = _anchors(olds, news, len(paired))
    a, b = olds.structure(), news.structure()
    answer = match(a, b, anchors)
    if isinstance(answer, Match):
        return Recognised(
            tuple((olds.parts[o], news.parts[n]) for o, n in enumerate(answer.parts) if o >= len(paired)), same=True
        )
    from netcheck.matching.correspondence import correspondence  # of two that are the same nothing is only likely

    undecided = answer.old if isinstance(answer, Undecided) else ()
    found = _supported(correspondence(a, b, anchors).parts, len(unpaired_old))
    return Recognised(
        tuple((olds.parts[e.old], news.parts[e.new]) for e in found), undecided=tuple(olds.parts[o] for o in undecided)
    )


def same_throughout(
    original: CircuitGraph,
    rewired: CircuitGraph,
    old: Sequence[Part],
    new: Sequence[Part],
    paired: Sequence[Pair],
) -> tuple[Pair, ...]:
    """The counterpart of every part where the two states are the same but for names, verified end by end; else none.

    Only parts of which the same is said are counterparts: every value, rating and material. ``paired`` are known.
    """
    olds, news = _sides(original, rewired, paired)
    for side, parts in ((olds, old), (news, new)):
        for part in parts:
            side.add(part, (part.kind.word, facts(part)))
    anchors = _anchors(olds, news, len(paired))
    answer = match(olds.structure(), news.structure(), anchors)
    if not isinstance(answer, Match):
        return ()
    return tuple((olds.parts[o], news.parts[n]) for o, n in enumerate(answer.parts))


def _sides(original: CircuitGraph, rewired: CircuitGraph, paired: Sequence[Pair]) -> tuple["_Side", "_Side"]:
    """Both structures with the known pairs in them."""
    olds, news = _Side(original), _Side(rewired)
    for old, new in paired:
        alike = set(olds.roles(old)) == set(news.roles(new))
        olds.add(old, "", plain=not alike)
        news.add(new, "", plain=not alike)
    return olds, news


def _anchors(old: "_Side", new: "_Side", paired: int) -> Anchors:
    """What is known; the nets are numbered by being asked for, so this comes before the structures are finished."""
    return Anchors(tuple((n, n) for n in range(paired)), tuple(_known_nets(old, new)))


def _known_nets(old: "_Side", new: "_Side") -> list[tuple[int, int]]:
    """The chassis and, where it is apart from it in both files, the common."""
    sides = (old, new)
    commons = [side.graph.circuit.index[side.graph.circuit.common] for side in sides]
    apart = all(
        side.graph.circuit.nets[at] != side.graph.circuit.nets[0] for side, at in zip(sides, commons, strict=True)
    )
    known = [(old.net(0), new.net(0))]
    return [*known, (old.net(commons[0]), new.net(commons[1]))] if apart else known


def _supported(found: "Sequence[Evidence]", wanted: int) -> "list[Evidence]":
    """The pairs that the wiring speaks for; half of it is enough only where the whole file has names of its own.

    Else a part that was left out would be seen in another one of its value that shares a rail with it.
    """
    whole = sum(1 for e in found if e.agreed == e.ends)
    enough = 0.5 if whole >= max(_WHOLESALE, wanted / 2) else 1.0
    return [e for e in found if len(e.shared) >= enough * e.ends]


class _Side:
    """One file's structure in the making; only nets that hold an end are in it."""

    def __init__(self, graph: CircuitGraph) -> None:
        self.graph = graph
        self.parts: list[Part] = []
        self._made: list[StructurePart] = []
        self._nets: dict[int, int] = {}
        self._roles: dict[int, tuple[str, ...]] = {}  # by shape, which many parts share and all keep

    def net(self, at: int) -> int:
        """The number of a point's net in the structure."""
        return self._nets.setdefault(self.graph.circuit.nets[at], len(self._nets))

    def add(self, part: Part, colour: Hashable, *, plain: bool = False) -> None:
        """Takes a part in; ``plain`` where its two leads are not told apart by their roles."""
        points = self.graph.terminals(part)
        roles = ("end",) * len(points) if plain and len(points) == 2 else self.roles(part)
        ends = tuple((role, self.net(at)) for role, at in zip(roles, points, strict=True))
        self.parts.append(part)
        self._made.append(StructurePart((colour, tuple(sorted(roles))), ends, kin(part)))

    def roles(self, part: Part) -> tuple[str, ...]:
        """The role of each point of ``terminals``: plus and minus, an electrode, or the same word for what is free."""
        if id(part.shape) not in self._roles:
            self._roles[id(part.shape)] = self._worked_out(part)
        return self._roles[id(part.shape)]

    @staticmethod
    def _worked_out(part: Part) -> tuple[str, ...]:
        keys = tuple(dict.fromkeys(terminal.key for terminal in part.leads))
        shape = part.shape
        if shape is None:
            return keys
        key_of = {terminal.name: terminal.key for terminal in part.leads}
        if shape.polarity and len(keys) == 2:
            plus = key_of[shape.polarity[0]]
            return tuple("plus" if key == plus else "minus" for key in keys)
        shared = {
            key_of[name]: f"{key_of[one]} or {key_of[other]}" for one, other in shape.free for name in (one, other)
        }
        return tuple(shared.get(key, key) for key in keys)

    def structure(self) -> Structure:
        """What was taken in."""
        return Structure(tuple(self._made), len(self._nets))
