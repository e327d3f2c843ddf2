"""The parts of a network that hang together by more than one node, and which of them lie between two nodes.

What is tied to the rest by a single node passes no net current to it, whatever it contains.
"""

from collections.abc import Iterable, Sequence

__all__ = ["Blocks", "are_in"]


def are_in(nodes: Iterable[int], mask: int) -> bool:
    """Whether some nodes all are in a set, which is an integer, a bit a node."""
    return all(mask >> node & 1 for node in nodes)


class Blocks:
    """The blocks of an undirected graph; a set of nodes is an integer, a bit a node."""

    def __init__(self, count: int, edges: Iterable[tuple[int, int]]) -> None:
        """Take the graph apart at every node whose removal would part it."""
        # Sets while it is taken apart: a bit more in an integer copies all of them.
        neighbours: list[set[int]] = [set() for _ in range(count)]
        for a, b in edges:
            neighbours[a].add(b)
            neighbours[b].add(a)
        self._members: list[list[int]] = []
        self._blocks: list[int] = []
        self._member_of: list[list[int]] = [[] for _ in range(count)]
        self._between: dict[tuple[int, int], int] = {}
        self._descend([sorted(nodes) for nodes in neighbours])

    def between(self, a: int, b: int) -> int:
        """The nodes that lie on some path from ``a`` to ``b`` which passes no node twice; 0 where there is none."""
        key = (min(a, b), max(a, b))
        if key not in self._between:
            self._between[key] = self._chain(a, b)
        return self._between[key]

    def around(self, node: int) -> int:
        """The nodes that share a block with one, itself among them."""
        nodes = 0
        for block in self._member_of[node]:
            nodes |= self._blocks[block]
        return nodes

    def _chain(self, a: int, b: int) -> int:
        came: dict[int, int] = dict.fromkeys(self._member_of[a], -1)
        queue = list(came)
        for block in queue:
            if self._blocks[block] >> b & 1:
                nodes = 0
                while block >= 0:
                    nodes |= self._blocks[block]
                    block = came[block]  # noqa: PLW2901 - the loop over the queue has found its end
                return nodes
            for node in self._members[block]:
                for other in self._member_of[node]:
                    if other not in came:
                        came[other] = block
                        queue.append(other)
        return 0

    def _descend(self, neighbours: Sequence[list[int]]) -> None:
        seen: dict[int, int] = {}
        for root in range(len(neighbours)):
            if root not in seen:
                self._from_root(root, neighbours, seen)

    def _from_root(self, root: int, neighbours: Sequence[list[int]], seen: dict[int, int]) -> None:
        """Search in depth; ``low`` is the earliest node seen that a node's descendants reach back to."""
        low = {root: len(seen)}
        seen[root] = len(seen)
        stack = [(root, iter(neighbours[root]))]
        waiting: list[int] = []
        while stack:
            node, rest = stack[-1]
            child = next(rest, None)
            if child is None:
                stack.pop()
                if stack:
                    self._close(stack[-1][0], node, waiting, closed=low[node] >= seen[stack[-1][0]])
                    low[stack[-1][0]] = min(low[stack[-1][0]], low[node])
            elif child in seen:
                low[node] = min(low[node], seen[child])
            else:
                low[child] = seen[child] = len(seen)
                waiting.append(child)
                stack.append((child, iter(neighbours[child])))

    def _close(self, parent: int, node: int, waiting: list[int], *, closed: bool) -> None:
        if not closed:
            return
        members = [parent]
        while members[-1] != node:
            members.append(waiting.pop())
        members.sort()
        for member in members:
            self._member_of[member].append(len(self._blocks))
        self._members.append(members)
        self._blocks.append(_bits(members))


def _bits(ordered: Sequence[int]) -> int:
    octets = bytearray(ordered[-1] // 8 + 1)
    for node in ordered:
        octets[node // 8] |= 1 << node % 8
    return int.from_bytes(octets, "little")
