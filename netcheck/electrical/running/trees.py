"""Which nodes are held together by capacitors and ideal sources, and by how many volts."""

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

__all__ = ["Forest"]


class Forest:
    """Trees of nodes whose differences in potential the vector of volts and currents gives."""

    def __init__(self) -> None:
        self._edges: dict[int, list[tuple[int, NDArray[np.float64]]]] = {}
        self._up: dict[int, int] = {}

    def join(self, plus: int, minus: int, volts: NDArray[np.float64]) -> bool:
        """Holds ``plus`` at ``volts`` (weights on the vector) above ``minus``; False where they are joined already."""
        top, other = self._top(plus), self._top(minus)
        if top == other:
            return False
        self._up[top] = other
        self._edges.setdefault(plus, []).append((minus, -volts))
        self._edges.setdefault(minus, []).append((plus, volts))
        return True

    def joined(self, one: int, other: int) -> bool:
        """Says whether the potential of one is known from that of the other."""
        return self._top(one) == self._top(other)

    def potentials(
        self, count: int, size: int, ties: Iterable[tuple[int, int]]
    ) -> tuple[list[int], NDArray[np.float64]]:
        """Returns each node's tree (-1 at ground) and its volts above the tree's root, as weights on the vector.

        Node 0 is ground. ``ties`` are all other connections: an island that they do not tie to ground either is
        given a ground of its own, since no current can tell.
        """
        trees, raised = [-1] * count, np.zeros((count, size))
        roots = self._grounds(count, ties)
        waiting = 0
        seen = [False] * count
        for root in [*roots, *range(count)]:
            if seen[root]:
                continue
            tree = -1 if root in roots else waiting
            waiting += tree >= 0
            self._climb(root, tree, (seen, trees, raised))
        return trees, raised

    def _climb(self, root: int, tree: int, found: tuple[list[bool], list[int], NDArray[np.float64]]) -> None:
        seen, trees, raised = found
        seen[root], stack = True, [root]
        while stack:
            node = stack.pop()
            trees[node] = tree
            for other, volts in self._edges.get(node, ()):
                if not seen[other]:
                    seen[other] = True
                    raised[other] = raised[node] + volts
                    stack.append(other)

    def _grounds(self, count: int, ties: Iterable[tuple[int, int]]) -> list[int]:
        whole = Forest()
        whole._up = dict(self._up)
        for one, other in ties:
            top, beyond = whole._top(one), whole._top(other)
            if top != beyond:
                whole._up[top] = beyond
        islands = {whole._top(node): node for node in reversed(range(count))}
        return sorted(islands.values())

    def _top(self, node: int) -> int:
        while node in self._up:
            node = self._up[node]
        return node
