"""Two circuits as bare structures, without names: are they the same, and which part is then which?

A part is its colour (whatever tells it from other parts: kind, value class) and its ends, each a role on a net.
Ends of one part that bear the same role may change places. Three answers: a match, checked end by end; a
difference; or undecided, where the search was given up.
"""

from collections import Counter
from collections.abc import Hashable

from msgspec import Struct

from netcheck.core.budget import Budget
from netcheck.matching.individualise import Outcome, search
from netcheck.matching.refinement import Partition

__all__ = [
    "MOST_WALKED",
    "Anchors",
    "Different",
    "Match",
    "Structure",
    "StructurePart",
    "Undecided",
    "match",
    "verified",
]

MOST_WALKED = 1_000_000
"""Edges that may be walked in tries that fail: about three seconds on a slow machine."""


class StructurePart(Struct, frozen=True):
    """A part by what may be compared; each end is (role, net), equal roles may change places.

    ``kin`` is what parts of different colours may still have in common (kind without value); it matters only
    where structures that are not the same are laid over each other.
    """

    colour: Hashable
    ends: tuple[tuple[Hashable, int], ...]
    kin: Hashable = None


class Structure(Struct, frozen=True):
    """Parts on nets that are numbered from 0; ``nets`` counts them, those without an end too."""

    parts: tuple[StructurePart, ...]
    nets: int


class Anchors(Struct, frozen=True):
    """Parts and nets known to correspond, by index; no index occurs twice. An anchored part's colour is not asked."""

    parts: tuple[tuple[int, int], ...] = ()
    nets: tuple[tuple[int, int], ...] = ()


class Match(Struct, frozen=True):
    """The same: the new part of each old part, the new net of each old net."""

    parts: tuple[int, ...]
    nets: tuple[int, ...]


class Different(Struct, frozen=True):
    """Not the same. ``old`` and ``new`` are parts that look alike and are not equally many, where such were met."""

    old: tuple[int, ...] = ()
    new: tuple[int, ...] = ()


class Undecided(Struct, frozen=True):
    """The search was given up: these parts could not be told apart within the budget."""

    old: tuple[int, ...]
    new: tuple[int, ...]


def match(
    a: Structure, b: Structure, anchors: Anchors | None = None, budget: Budget | None = None
) -> Match | Different | Undecided:
    """Whether two structures are the same; the budget counts edges that failed tries walk (``MOST_WALKED``)."""
    known = anchors or Anchors()
    if len(a.parts) != len(b.parts) or a.nets != b.nets:
        return Different()
    partition = Partition(_colours(a, b, known), _edges(a, b), len(a.parts) + a.nets)
    outcome = search(partition, budget or Budget(MOST_WALKED))
    first_new = len(a.parts) + a.nets
    if outcome is not Outcome.SAME:
        old = tuple(v for v in partition.met if v < len(a.parts))
        new = tuple(v - first_new for v in partition.met if first_new <= v < first_new + len(b.parts))
        return Different(old, new) if outcome is Outcome.DIFFERENT else Undecided(old, new)
    twins = partition.twins()
    found = Match(
        tuple(twins[p] - first_new for p in range(len(a.parts))),
        tuple(twins[len(a.parts) + n] - first_new - len(b.parts) for n in range(a.nets)),
    )
    # Only two sums of 64-bit marks that agree by chance could bring a match that does not hold.
    return found if verified(a, b, known, found) else Undecided((), ())


def verified(a: Structure, b: Structure, anchors: Anchors, found: Match) -> bool:
    """Whether a match holds: one to one, anchors kept, colours equal, and every end on the right net."""
    if sorted(found.parts) != list(range(len(b.parts))) or sorted(found.nets) != list(range(b.nets)):
        return False
    if any(found.parts[old] != new for old, new in anchors.parts):
        return False
    if any(found.nets[old] != new for old, new in anchors.nets):
        return False
    anchored = {old for old, _ in anchors.parts}
    for old, part in enumerate(a.parts):
        other = b.parts[found.parts[old]]
        if old not in anchored and part.colour != other.colour:
            return False
        ends = tuple([(role, found.nets[net]) for role, net in part.ends])
        if ends != other.ends and Counter(ends) != Counter(other.ends):
            return False
    return True


def _colours(a: Structure, b: Structure, anchors: Anchors) -> list[int]:
    """One number for every vertex: parts and nets of a, then of b; an anchored pair has one of its own."""
    numbers: dict[tuple[str, Hashable], int] = {}
    colours: list[int] = []
    for side, structure in enumerate((a, b)):
        parts = {pair[side]: n for n, pair in enumerate(anchors.parts)}
        nets = {pair[side]: n for n, pair in enumerate(anchors.nets)}
        named: list[tuple[str, Hashable]] = [
            ("known part", parts[n]) if n in parts else ("part", part.colour) for n, part in enumerate(structure.parts)
        ]
        named.extend(("known net", nets[n]) if n in nets else ("net", "") for n in range(structure.nets))
        colours.extend(numbers.setdefault(name, len(numbers)) for name in named)
    return colours


def _edges(a: Structure, b: Structure) -> list[list[tuple[int, int]]]:
    """For every vertex its neighbours, each with the mark of the role."""
    marks: dict[Hashable, int] = {}
    edges: list[list[tuple[int, int]]] = []
    for structure in (a, b):
        first = len(edges)
        edges.extend([] for _ in range(len(structure.parts) + structure.nets))
        for at, part in enumerate(structure.parts, first):
            for role, net in part.ends:
                if role not in marks:
                    marks[role] = _mark(len(marks))
                mark = marks[role]
                there = first + len(structure.parts) + net
                edges[at].append((there, mark))
                edges[there].append((at, mark))
    return edges


_WORD = (1 << 64) - 1


def _mark(number: int) -> int:
    """A number spread over 64 bits, so that sums of marks differ where the marks do (Steele, Lea, Flood 2014)."""
    z = ((number + 1) * 0x9E3779B97F4A7C15) & _WORD
    z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & _WORD
    z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & _WORD
    return z ^ (z >> 31)
