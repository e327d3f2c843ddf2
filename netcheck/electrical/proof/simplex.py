"""Linear programmes of a few hundred rows: the least of a linear function of variables that are never negative."""

import numpy as np
import numpy.typing as npt

__all__ = ["Programme"]

Reals = npt.NDArray[np.float64]

NEAR = 1e-9  # what counts as nothing after rows and columns are scaled to 1
FEASIBLE = 1e-6
LOOSER = 1e-7  # by which limits are widened, each by a little more than the one before: no two corners coincide
STALL = 50  # steps without gain after which the rule that cannot cycle takes over
PATIENCE = 20  # steps a row, after which the search is given up and nothing is claimed


class Programme:
    """The feasible set of A x <= limits, B x = totals, x >= 0 as a tableau, to minimise several functions over.

    A search that is given up leaves the set feasible and every least value minus infinity, which claims nothing.
    """

    def __init__(self, at_most: Reals, limits: Reals, equal: Reals, totals: Reals) -> None:
        """Scale the coefficients and find a feasible corner, if there is one."""
        count, self._columns = at_most.shape
        matrix = np.vstack([at_most, equal])
        self._scale = _largest(matrix, axis=0)
        matrix = matrix / self._scale
        heights = _largest(matrix, axis=1)
        right = np.concatenate([limits, totals]) / heights
        largest = 1.0 + float(np.abs(right).max(initial=0.0))
        right[:count] += LOOSER * (1 + np.arange(count) / (count + 1))
        slacks = np.eye(len(matrix), count)
        self._tableau = np.hstack([matrix / heights[:, None], slacks, right[:, None]])
        self._basis = self._columns + np.arange(len(matrix))
        self._given_up = False
        helped = np.flatnonzero((right < 0) | (np.arange(len(matrix)) >= count))
        self.feasible = self._repaired(helped) <= FEASIBLE * largest or self._given_up

    def least(self, costs: Reals) -> float:
        """The least value of the function with these coefficients; minus infinity where none is known."""
        if self._given_up or not self.feasible:
            return -np.inf
        padded = np.zeros(self._tableau.shape[1] - 1)
        padded[: self._columns] = costs / self._scale
        value = self._descend(padded)
        if self._given_up:
            self._given_up = False
            return -np.inf
        return value

    def _repaired(self, helped: npt.NDArray[np.intp]) -> float:
        """Bring the rows that fail at zero to rest with helping variables; what is left of these is returned."""
        own = self._tableau.shape[1] - 1
        self._tableau[helped] *= np.where(self._tableau[helped, -1] < 0, -1.0, 1.0)[:, None]
        helpers = np.eye(len(self._tableau))[:, helped]
        self._tableau = np.hstack([self._tableau[:, :-1], helpers, self._tableau[:, -1:]])
        self._basis[helped] = own + np.arange(len(helped))
        costs = np.zeros(own + len(helped))
        costs[own:] = 1.0
        left = self._descend(costs)
        for row in np.flatnonzero(self._basis >= own):
            best = int(np.abs(self._tableau[row, :own]).argmax())
            if abs(self._tableau[row, best]) > NEAR:
                self._pivot(int(row), best)
        kept = self._basis < own
        self._basis = self._basis[kept]
        self._tableau = self._tableau[kept][:, [*range(own), -1]]
        return left

    def _descend(self, costs: Reals) -> float:
        best, still = np.inf, 0
        for _ in range(PATIENCE * (len(self._tableau) + 10)):
            reduced = costs - costs[self._basis] @ self._tableau[:, :-1]
            value = float(costs[self._basis] @ self._tableau[:, -1])
            still = still + 1 if value > best - NEAR else 0
            best = min(best, value)
            falling = np.flatnonzero(reduced < -NEAR)
            if not falling.size:
                return value
            column = int(falling[0] if still > STALL else falling[reduced[falling].argmin()])
            row = self._leaving(column)
            if row is None:
                return -np.inf
            self._pivot(row, column)
        self._given_up = True
        return -np.inf

    def _leaving(self, column: int) -> int | None:
        """The row that limits the step; among equals the one whose variable comes first (Bland 1977)."""
        steps = self._tableau[:, column]
        rows = np.flatnonzero(steps > NEAR)
        if not rows.size:
            return None
        ratios = np.maximum(self._tableau[rows, -1], 0.0) / steps[rows]
        equal = rows[ratios <= ratios.min() + NEAR]
        return int(equal[self._basis[equal].argmin()])

    def _pivot(self, row: int, column: int) -> None:
        self._tableau[row] /= self._tableau[row, column]
        others = self._tableau[:, column].copy()
        others[row] = 0.0
        self._tableau -= np.outer(others, self._tableau[row])
        self._basis[row] = column


def _largest(matrix: Reals, axis: int) -> Reals:
    largest = np.abs(matrix).max(axis=axis, initial=0.0)
    return np.where(largest > 0, largest, 1.0)
