"""The least resistance from some nodes to every other one."""

from collections.abc import Iterable, Mapping, Sequence
from heapq import heappop, heappush

__all__ = ["least_ohms"]


def least_ohms(paths: Mapping[int, Sequence[tuple[int, float]]], sources: Iterable[int]) -> dict[int, float]:
    """The ohms of the best single path to any source; a node that none leads to is missing.

    ``paths`` has for a node those that it is joined to, each with the ohms between them, from both ends.
    """
    found: dict[int, float] = {}
    queue = [(0.0, node) for node in sources]
    while queue:
        ohms, at = heappop(queue)
        if at not in found:
            found[at] = ohms
            for other, more in paths.get(at, ()):
                heappush(queue, (ohms + more, other))
    return found
