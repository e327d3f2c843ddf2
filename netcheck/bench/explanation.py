"""An explanation of readings that disagree: one slip or two, how well they fit, and what each reading would be."""

from collections.abc import Iterable, Sequence

import numpy as np
from msgspec import Struct, field

from netcheck.bench.expected import MOST
from netcheck.bench.ohms import OPEN, Matrix
from netcheck.bench.predicted import Flags
from netcheck.bench.slips import Cause
from netcheck.core.mend import Mend

__all__ = ["COST", "Explanation", "Weighed", "alike", "best_of"]

COST = 2.0  # what a slip's unlikeliness weighs beside a reading that is off
SAME = 0.05  # of a logarithm, within which two readings are the same


class Explanation(Struct, frozen=True):
    """One slip or two, how badly they fit (0 is perfect), and whether no reading contradicts them.

    ``reads`` are the logarithms of what every reading would be, to hold explanations against each other.
    """

    slips: tuple[Cause, ...]
    misfit: float
    explains_all: bool
    reads: Matrix = field(default_factory=lambda: np.zeros(0))

    @property
    def words(self) -> str:
        """The slips as one sentence."""
        return "; and ".join(slip.words for slip in self.slips)

    @property
    def mend(self) -> Mend:
        """The order to mend all of them."""
        return tuple(act for slip in self.slips for act in slip.mend)

    @property
    def subjects(self) -> frozenset[tuple[str, str]]:
        """What it is about; the same for all degrees of one drift."""
        return frozenset((slip.kind.word, slip.subject) for slip in self.slips)

    @property
    def cost(self) -> float:
        """What its unlikeliness counts in the misfit."""
        return COST * sum(slip.kind.cost for slip in self.slips)


def alike(one: Explanation, other: Explanation) -> bool:
    """Whether no reading tells two explanations apart."""
    return bool(np.abs(one.reads - other.reads).max(initial=0.0) < SAME)


def best_of(found: Iterable[Explanation]) -> list[Explanation]:
    """The best of each set of subjects, in order; what explains all comes first."""
    kept: dict[frozenset[tuple[str, str]], Explanation] = {}
    for one in sorted(found, key=lambda one: (not one.explains_all, one.misfit, one.words)):
        kept.setdefault(one.subjects, one)
    return list(kept.values())


class Weighed(Struct, frozen=True, eq=False):
    """Slips held against the readings at once, a column each; an explanation is only made of what is asked for.

    ``stops`` is where a junction that was to conduct does not; ``cost`` is the part of a misfit that is the slips' own.
    """

    slips: Sequence[tuple[Cause, ...]]
    ohms: Matrix
    stops: Flags
    misfit: Matrix
    cost: Matrix
    possible: Flags

    def one(self, at: int) -> Explanation:
        """The explanation in a column."""
        return Explanation(
            self.slips[at], float(self.misfit[at]), bool(self.possible[at]), self._logarithms([at])[:, 0]
        )

    def better_than(self, most: float) -> list[Explanation]:
        """Every explanation that fits better, however unlikely its slips."""
        return [self.one(int(at)) for at in np.flatnonzero(self.misfit - self.cost < most)]

    def reading_as(self, reads: Matrix) -> list[Explanation]:
        """The explanations with these readings, whatever they cost."""
        off = np.abs(self._logarithms(slice(None)) - reads[:, None]).max(axis=0, initial=0.0)
        return [self.one(int(at)) for at in np.flatnonzero(off < SAME)]

    def best(self, count: int) -> list[list[Explanation]]:
        """The best ones, the best first, each with those behind it that read alike."""
        groups: list[list[Explanation]] = []
        for at in np.lexsort((self.misfit, ~self.possible)):
            one = self.one(int(at))
            group = next((group for group in groups if alike(one, group[0])), None)
            if group is not None:
                group.append(one)
            elif len(groups) < count:
                groups.append([one])
            else:
                break
        return groups

    def _logarithms(self, columns: slice | list[int]) -> Matrix:
        # A junction that stops reads open, whatever the ohms beside it.
        ohms = np.where(self.stops[:, columns], OPEN, self.ohms[:, columns])
        found: Matrix = np.log(np.clip(ohms, 1.0, MOST))
        return found
