"""Where the joins that are left lead once some are undone; ``joins_at`` are all joins of a state by their points."""

from collections.abc import Collection

from netcheck.core.circuit import Join
from netcheck.model.joins_at import JoinsAt

__all__ = ["first_reached", "reached"]


def reached(joins_at: JoinsAt, undone: Collection[Join], points: Collection[int]) -> set[int]:
    """The points that joins, but those undone, lead to from some points, these among them."""
    gone = set(map(id, undone))
    seen, frontier = set(points), list(points)
    while frontier:
        for join in joins_at[at := frontier.pop()]:
            end = join.b if join.a == at else join.a
            if id(join) not in gone and end not in seen:
                seen.add(end)
                frontier.append(end)
    return seen


def first_reached(
    joins_at: JoinsAt, undone: Collection[Join], one: Collection[int], others: Collection[int]
) -> int | None:
    """The first of ``others`` that the far ends of undone joins lead to; ``one`` is the near side."""
    near, gone = reached(joins_at, undone, one), set(map(id, undone))
    frontier = [end for join in undone for end in (join.a, join.b) if end not in near]
    seen = set(frontier)
    while frontier:
        if (at := frontier.pop(0)) in others:
            return at
        for join in joins_at[at]:
            end = join.b if join.a == at else join.a
            if id(join) not in gone and end not in seen:
                seen.add(end)
                frontier.append(end)
    return None
