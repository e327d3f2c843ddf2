"""Vertices of two structures in one partition, refined until no cell can be split by what its members touch.

Both sides lie in the same cells, so a cell that holds more of one side than of the other is a difference, found
the moment it arises. A split puts all parts of a cell but the largest on the worklist, which keeps the whole
refinement at n log n where rounds over everything would be quadratic on a chain of stages.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence

__all__ = ["Partition"]

Edges = Sequence[Sequence[tuple[int, int]]]


class Partition:
    """Cells of vertices; ``first_new`` is the first vertex of the second side. Every split can be undone.

    A cell is a run of ``order``, known by where it starts. ``met`` holds the members of the last cell that was
    found out of balance; ``walked`` counts the edges looked at so far.
    """

    def __init__(self, colours: Sequence[int], edges: Edges, first_new: int) -> None:
        self._edges = edges
        self._first_new = first_new
        self._order = sorted(range(len(colours)), key=lambda v: colours[v])
        self._at = [0] * len(colours)
        self._cell = [0] * len(colours)
        self._length = [0] * len(colours)
        self._waiting = bytearray(len(colours))
        self._splits: list[tuple[int, int]] = []
        self.met: tuple[int, ...] = ()
        self.walked = 0
        start = 0
        for at, vertex in enumerate(self._order):
            if colours[vertex] != colours[self._order[start]]:
                start = at
            self._at[vertex] = at
            self._cell[vertex] = start
            self._length[start] += 1

    def settled(self) -> bool:
        """Refines from scratch; False where the sides can't be the same."""
        cells = sorted(set(self._cell))
        if not all(self._balanced(self.members(cell)) for cell in cells):
            return False
        return self._refine(cells)

    def members(self, cell: int) -> list[int]:
        """The vertices of a cell."""
        return self._order[cell : cell + self._length[cell]]

    def cell_of(self, vertex: int) -> int:
        """The cell that a vertex is in."""
        return self._cell[vertex]

    def likenesses(self, vertex: int) -> int:
        """How many vertices are in the cell of a vertex, itself among them."""
        return self._length[self._cell[vertex]]

    def is_alone(self, vertex: int) -> bool:
        """Whether a vertex is told apart: its cell holds it and its twin only."""
        return self._length[self._cell[vertex]] == 2

    def is_old(self, vertex: int) -> bool:
        """Whether a vertex is of the first side."""
        return vertex < self._first_new

    def neighbours(self, vertex: int) -> Iterable[int]:
        """The vertices that a vertex touches."""
        return (other for other, _ in self._edges[vertex])

    def old_vertices(self) -> range:
        """The vertices of the first side."""
        return range(self._first_new)

    def twins(self) -> dict[int, int]:
        """The new vertex of every old one, once all are told apart."""
        found = {}
        for old in self.old_vertices():
            found[old] = next(v for v in self.members(self._cell[old]) if v != old)
        return found

    def mark(self) -> int:
        """What ``undo`` takes to come back to this state."""
        return len(self._splits)

    def undo(self, mark: int) -> None:
        """Takes back every split since a mark."""
        while len(self._splits) > mark:
            cell, parent = self._splits.pop()
            for vertex in self.members(cell):
                self._cell[vertex] = parent
            self._length[parent] += self._length[cell]
            self._length[cell] = 0

    def pair(self, old: int, new: int) -> bool:
        """Takes two vertices of one cell for each other and refines; False where that can't be."""
        return self._refine([self._break_off(self._cell[old], (old, new))])

    def _refine(self, cells: Iterable[int]) -> bool:
        work = list(cells)
        for cell in work:
            self._waiting[cell] = 1
        while work:
            cell = work.pop()
            self._waiting[cell] = 0
            for touched, sums in self._touched(cell):
                if not self._split(touched, sums, work):
                    for left in work:
                        self._waiting[left] = 0
                    return False
        return True

    def _touched(self, cell: int) -> list[tuple[int, dict[int, list[int]]]]:
        """The cells that a cell touches, each with its touched members by the sum of their marks."""
        sums: dict[int, int] = {}
        for vertex in self.members(cell):
            edges = self._edges[vertex]
            self.walked += len(edges)
            for other, mark in edges:
                sums[other] = sums.get(other, 0) + mark
        found: dict[int, dict[int, list[int]]] = defaultdict(lambda: defaultdict(list))
        for vertex, total in sums.items():
            found[self._cell[vertex]][total].append(vertex)
        return list(found.items())

    def _split(self, cell: int, sums: dict[int, list[int]], work: list[int]) -> bool:
        groups = list(sums.values())
        for group in groups:
            if not self._balanced(group):
                return False
        if sum(map(len, groups)) == self._length[cell]:
            groups.remove(max(groups, key=len))
        if not groups:
            return True
        pieces = [self._break_off(cell, group) for group in groups]
        if not self._waiting[cell]:
            # The largest needs no turn: what touches it is what touches the whole less what touches the others.
            pieces.append(cell)
            pieces.remove(max(pieces, key=lambda piece: self._length[piece]))
        for piece in pieces:
            self._waiting[piece] = 1
        work.extend(pieces)
        return True

    def _balanced(self, group: Sequence[int]) -> bool:
        if 2 * sum(map(self._first_new.__gt__, group)) == len(group):
            return True
        self.met = tuple(group)
        return False

    def _break_off(self, cell: int, group: Sequence[int]) -> int:
        """Makes some members of a cell, not all, a cell of their own at its end."""
        order, at = self._order, self._at
        start = end = cell + self._length[cell]
        for vertex in group:
            start -= 1
            here, other = at[vertex], order[start]
            order[here], order[start] = other, vertex
            at[other], at[vertex] = here, start
        for vertex in group:
            self._cell[vertex] = start
        self._length[cell] = start - cell
        self._length[start] = end - start
        self._splits.append((start, cell))
        return start
