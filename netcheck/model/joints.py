"""Joints undone, and those that nobody writes: one meaning for a work log's lines and for the acts of a mend.

What is lifted off a point stays joined together, as a bundle: for a lug and for a lead alike.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from msgspec.structs import replace

from netcheck.core.circuit import How, Join, Part, Point
from netcheck.model.points import section_lugs

__all__ = ["cut", "implicit", "is_bundle", "lifted", "soldered_at", "without_parts"]

# Of several joints between two points the one that is quickest seen and cut is meant.
_FIRST_CUT = (How.WIRE, How.SOLDERED, How.LEAD, How.NET)
_PHYSICAL = (How.SOLDERED, How.LEAD, How.WIRE)


def lifted(joins: Iterable[Join], bundles: Mapping[int, int]) -> list[Join]:
    """The joints once some points are taken off all that they were on; ``bundles`` is what takes each one's place."""
    return [_moved(join, bundles) if join.a in bundles or join.b in bundles else join for join in joins]


def _moved(join: Join, bundles: Mapping[int, int]) -> Join:
    a, b = bundles.get(join.a, join.a), bundles.get(join.b, join.b)
    return replace(join, a=a, b=b)


def cut(joins: Sequence[Join], pairs: Sequence[tuple[int, int]]) -> tuple[list[Join], list[Join | None]]:
    """The joints that are left once one is cut between each pair of points, in turn, and which these were.

    Each is stated between exactly these two points, a wire before all else; None where there is none.
    """
    ends = {end for pair in pairs for end in pair}
    between: dict[frozenset[int], list[int]] = {}
    for at, join in enumerate(joins):
        if join.a in ends and join.b in ends and join.how in _FIRST_CUT:
            between.setdefault(frozenset((join.a, join.b)), []).append(at)
    for found in between.values():
        found.sort(key=lambda at: (_FIRST_CUT.index(joins[at].how), at), reverse=True)
    hits = [left.pop() if (left := between.get(frozenset(pair))) else None for pair in pairs]
    gone = set(hits)
    return [join for at, join in enumerate(joins) if at not in gone], [
        joins[n] if n is not None else None for n in hits
    ]


def without_parts(joins: Iterable[Join], points: Sequence[Point], gone: Collection[str]) -> list[Join]:
    """The joints that are left when parts are taken out."""
    return [join for join in joins if points[join.a].part not in gone and points[join.b].part not in gone]


def soldered_at(
    joins: Iterable[Join], points: Sequence[Point], parts: Iterable[Part]
) -> Mapping[str, tuple[Join, Point]]:
    """The first joint that keeps each strip, can or plug of some parts from being taken out, and where it is made."""
    places = {part.name for part in parts if part.kind.place}
    found: dict[str, tuple[Join, Point]] = {}
    for join in joins if places else ():
        if join.how in _PHYSICAL and not any(is_bundle(points[end], end) for end in (join.a, join.b)):
            for end in (points[join.a], points[join.b]):
                if end.part in places:
                    found.setdefault(end.part, (join, end))
    return found


def is_bundle(point: Point, at: int) -> bool:
    """Whether a point is what hung on a lifted one."""
    return at != 0 and not point.part and not point.net_name


def implicit(parts: Mapping[str, Part], index: Mapping[str, int]) -> Iterator[Join]:
    """The joins that nobody writes: inside a part, a section's leads at its can's lugs, mounting to chassis."""
    for part in parts.values():
        if part.shape is None or not (part.shape.tied or part.shape.bonded or part.host):
            continue
        own = {t.name: index[part.name + t.suffix] for t in part.shape.terminals}
        for group in part.shape.tied:
            for other in group[1:]:
                yield Join(own[group[0]], own[other], How.INSIDE, part.place, part.place)
        for terminal in part.shape.bonded:
            yield Join(0, own[terminal], How.BOND, part.place, part.place)
        if part.host in parts:
            at_lugs = section_lugs(part, parts[part.host])
            # A can whose own declaration is broken, which is told, has no such lug.
            yield from (
                Join(index[lug], own[sign], How.INSIDE, part.place, part.place) for sign, lug in at_lugs if lug in index
            )
