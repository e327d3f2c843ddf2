"""Closure: which points are one net."""

from collections.abc import Iterable

from netcheck.core.circuit import Join

__all__ = ["closure"]


def closure(count: int, joins: Iterable[Join]) -> tuple[int, ...]:
    """For each of ``count`` points the number of its net: the least point in it.

    Union-find over integers with path halving; near-linear in points plus joins.
    """
    parent = list(range(count))
    for join in joins:
        a, b = join.a, join.b
        while parent[a] != a:
            parent[a] = parent[parent[a]]
            a = parent[a]
        while parent[b] != b:
            parent[b] = parent[parent[b]]
            b = parent[b]
        # The smaller root wins, so that a net's number does not depend on the order of joins.
        if a < b:
            parent[b] = a
        elif b < a:
            parent[a] = b
    for at in range(count):
        parent[at] = parent[parent[at]]
    return tuple(parent)
