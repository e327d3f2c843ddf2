"""Time: exact steps of x' = A x, of any length, by halving and doubling.

What is kept for each length is exp(A h) - 1 rather than exp(A h), so that slow changes keep all their digits
however small the step.
"""

import math

import numpy as np

from netcheck.electrical.running.assembly import Matrix

__all__ = ["Clock"]

CALM = 1e-3  # below this length times rate, three terms of the series are exact


class Clock:
    """Steps of ``length`` seconds and of all its halves down to one so short that nothing in the circuit is quick.

    ``weights`` bring volts and amperes to one scale; they only tell how quick the circuit is.
    """

    def __init__(self, rate: Matrix, length: float, weights: Matrix) -> None:
        quickest = float(np.abs(weights[:, None] * rate / weights).sum(axis=1).max())
        self.rate = rate
        self.length = length
        self.depth = max(1, math.ceil(math.log2(max(quickest * length / CALM, 2.0))))
        small = rate * (length / 2**self.depth)
        change = small + small @ small / 2 + small @ small @ small / 6 + small @ small @ small @ small / 24
        changes = [change]
        for _ in range(self.depth):
            change = 2 * change + change @ change
            changes.append(change)
        one = np.eye(len(rate))
        self.halves: list[Matrix] = [one + change for change in reversed(changes)]
        self._change = change
        self._doubles: list[Matrix] = [self.halves[0]]

    def power(self, k: int) -> Matrix:
        """Returns the step of 2**k lengths; k may be negative, down to ``-depth``."""
        if k < 0:
            return self.halves[-k]
        while len(self._doubles) <= k:
            self._change = 2 * self._change + self._change @ self._change
            self._doubles.append(np.eye(len(self.rate)) + self._change)
        return self._doubles[k]

    def points(self, x: Matrix, times: int, scale: int = 0) -> Matrix:
        """Returns x now and after each of the next 2**times steps of 2**scale lengths, as columns."""
        columns = np.empty((len(x), 1 + 2**times))
        columns[:, 0] = x
        columns[:, 1] = self.power(scale) @ x
        for k in range(times):
            known = 1 + 2**k
            columns[:, known : known + 2**k] = self.power(scale + k) @ columns[:, 1:known]
        return columns

    def steps(self, x: Matrix, count: int) -> Matrix:
        """Returns x (a vector, or a matrix of them) after ``count`` whole steps."""
        k = 0
        while count >> k:
            if count >> k & 1:
                x = self.power(k) @ x
            k += 1
        return x

    def part(self, x: Matrix, seconds: float) -> Matrix:
        """Returns x after ``seconds``, less than one step."""
        step = self.length
        for half in self.halves[1:]:
            step /= 2
            if seconds >= step:
                x, seconds = half @ x, seconds - step
        return self.rest(x, seconds)

    def rest(self, x: Matrix, seconds: float) -> Matrix:
        """Returns x after ``seconds``, no more than the shortest half."""
        first = self.rate @ x * seconds
        second = self.rate @ first * (seconds / 2)
        third = self.rate @ second * (seconds / 3)
        return x + first + second + third + self.rate @ third * (seconds / 4)
