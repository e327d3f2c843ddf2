"""The joins that end at each point, in one row: a mapping of tuples takes five times as much, for every state tried."""

from array import array
from collections.abc import Sequence
from itertools import accumulate

from netcheck.core.circuit import Join

__all__ = ["JoinsAt"]


class JoinsAt:
    """``joins_at[point]`` are the joins that end there, in the order of the file; of a point of another state none."""

    __slots__ = ("_begin", "_row")

    def __init__(self, points: int, joins: Sequence[Join]) -> None:
        ending = array("I", bytes(4 * points))
        for join in joins:
            ending[join.a] += 1
            if join.b != join.a:
                ending[join.b] += 1
        self._begin = array("I", accumulate(ending, initial=0))
        self._row = list(joins[:1]) * self._begin[-1]  # each place is filled below
        free = self._begin[:]
        for join in joins:
            for at in (join.a, join.b) if join.b != join.a else (join.a,):
                self._row[free[at]] = join
                free[at] += 1

    def __getitem__(self, point: int) -> Sequence[Join]:
        begin = self._begin
        return self._row[begin[point] : begin[point + 1]] if point < len(begin) - 1 else ()
