"""Linear programmes of a few hundred variables: the least of a linear function over A x = b, x >= 0."""

import numpy as np
import numpy.typing as npt

__all__ = ["Programme"]

Reals = npt.NDArray[np.float64]

NEAR = 1e-9  # what counts as nothing after the rows are scaled to 1
FEASIBLE = 1e-7
STALL = 50  # steps without gain after which the rule that cannot cycle takes over


class Programme:
    """The feasible set of A x = b, x >= 0, kept as a tableau, so that several functions are minimised in turn."""

    def __init__(self, matrix: Reals, right: Reals) -> None:
        """Scale the rows and find a feasible corner, if there is one."""
        rows, self._columns = matrix.shape
        scale = np.abs(matrix).max(axis=1, initial=0.0)
        scale[scale == 0] = 1.0
        sign = np.where(right < 0, -1.0, 1.0) / scale
        self._tableau = np.hstack([matrix * sign[:, None], np.eye(rows), (right * sign)[:, None]])
        self._basis = np.arange(self._columns, self._columns + rows)
        costs = np.zeros(self._tableau.shape[1] - 1)
        costs[self._columns :] = 1.0
        self.feasible = self._descend(costs) <= FEASIBLE * (1.0 + float(np.abs(right * sign).max(initial=0.0)))
        self._drop_helpers()

    def least(self, costs: Reals) -> float:
        """The least value of the function with these coefficients; minus infinity where it has none."""
        return self._descend(costs)

    def _drop_helpers(self) -> None:
        """Take the helping variables of the search for a corner out of the basis and out of the tableau."""
        for row in np.flatnonzero(self._basis >= self._columns):
            best = int(np.abs(self._tableau[row, : self._columns]).argmax())
            if abs(self._tableau[row, best]) > NEAR:
                self._pivot(int(row), best)
        kept = self._basis < self._columns
        self._basis = self._basis[kept]
        self._tableau = self._tableau[kept][:, [*range(self._columns), -1]]

    def _descend(self, costs: Reals) -> float:
        best, still = np.inf, 0
        while True:
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
