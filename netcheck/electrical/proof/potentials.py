"""Every potential as a linear function of the currents that are not known: Kirchhoff's current law, solved once."""

from collections import defaultdict
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from netcheck.core.groups import joined_by
from netcheck.electrical.proof.inequalities import Inequalities, Inequality

__all__ = ["Potentials"]

Reals = npt.NDArray[np.float64]


class Potentials:
    """The potentials as functions of the variables.

    What conductors hold together has one potential that they leave open: it is a variable too, unless it
    holds the reference, and the currents into it have to cancel. Those variables come first.
    """

    def __init__(self, book: Inequalities) -> None:
        """Solve for the potentials."""
        self._joined = book.joined
        count = len(book.joined)
        islands = self._islands(book)
        self._open = len(islands) - 1
        self._box = book.box
        slope = np.zeros((count, count))
        for a, b, siemens in self._ends(book.conductors):
            slope[[a, b], [a, b]] += siemens
            slope[[a, b], [b, a]] -= siemens
        into = np.zeros((count, len(book.variables) + 1))
        for column, (a, b, amperes) in enumerate(self._ends(book.variables)):
            into[[a, b], column] += [-amperes, amperes]
        for a, b, amperes in self._ends(book.fixed):
            into[[a, b], -1] += [-amperes, amperes]
        self._volts = np.zeros((count, self._open + into.shape[1]))
        balances = np.zeros((self._open, self._volts.shape[1]))
        for number, island in enumerate(islands):
            rest = island[1:]
            self._volts[rest, self._open :] = np.linalg.solve(slope[np.ix_(rest, rest)], into[rest])
            if number:
                self._volts[island, number - 1] = 1.0
                self._volts[island, -1] -= book.box
                balances[number - 1, self._open :] = into[island].sum(axis=0)
        self.balances = (balances[:, :-1], -balances[:, -1])

    def across(self, plus: int, minus: int) -> tuple[Reals, float]:
        """The coefficients of the volts between two nodes, and what is fixed of them."""
        row = self._volts[self._joined[plus]] - self._volts[self._joined[minus]]
        return row[:-1], float(row[-1])

    def rows(self, rows: Sequence[Inequality]) -> tuple[Reals, Reals]:
        """The matrix and the limits of the rows, and of the box that open potentials lie in."""
        matrix = np.zeros((self._open + len(rows), self._volts.shape[1] - 1))
        limits = np.full(len(matrix), 2 * self._box)
        matrix[range(self._open), range(self._open)] = 1.0
        for number, row in enumerate(rows, start=self._open):
            coefficients, fixed = self.across(*row.ends)
            matrix[number] = row.factor * coefficients
            limits[number] = row.limit - row.factor * fixed
            for variable, factor in row.variables:
                matrix[number, self._open + variable] += factor
        return matrix, limits

    def _ends(self, currents: Sequence[tuple[int, int, float]]) -> list[tuple[int, int, float]]:
        """Currents between joined nodes change nothing: both their ends become the reference."""
        moved = [(self._joined[a], self._joined[b], amount) for a, b, amount in currents]
        return [(a, b, amount) if a != b else (0, 0, 0.0) for a, b, amount in moved]

    def _islands(self, book: Inequalities) -> list[list[int]]:
        """The nodes that conductors hold together, those with the reference first."""
        held = joined_by((a, b) for a, b, _ in self._ends(book.conductors))
        islands: dict[int, list[int]] = defaultdict(list)
        for node in sorted(set(self._joined)):
            islands[held.get(node, node)].append(node)
        return list(islands.values())
