"""What explains readings that disagree: one slip, else two; what can't be told apart is shown side by side."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from netcheck.bench.chassis import Chassis
from netcheck.bench.ohms import Change, Matrix, Ohms, ohms_of
from netcheck.bench.plan import Step
from netcheck.bench.predicted import Flags, Told, compared, measured
from netcheck.bench.readings import Reading
from netcheck.bench.slips import MISSING, Slip, exchanges, moves, simple_slips
from netcheck.core.mend import Mend

__all__ = ["Diagnosis", "Explanation", "explained"]

COST = 2.0  # what a slip's unlikeliness weighs beside a reading that is off
BEAM = 24  # first slips to which a second is looked for
MENDERS = 8  # besides, by what they mend alone
CUTS = 40  # open joints from which moved and exchanged leads are thought of
ALIKE = 0.75  # of the measure of misses, within which two explanations can't be told apart
MOST_TOLD = 8
MOST_GROUPED = 40
SINGLED_OUT = 4.0  # by how much the next explanation must be worse before one is named alone


@dataclass(frozen=True, slots=True)
class Explanation:
    """One slip or two, how badly they fit (0 is perfect), and whether no reading contradicts them."""

    slips: tuple[Slip, ...]
    misfit: float
    explains_all: bool

    @property
    def words(self) -> str:
        """The slips as one sentence."""
        return "; and ".join(slip.words for slip in self.slips)

    @property
    def mend(self) -> Mend:
        """The order to mend all of them."""
        return tuple(act for slip in self.slips for act in slip.mend)


@dataclass(frozen=True, slots=True)
class Diagnosis:
    """The steps that disagree; explanations, the likeliest first, in groups that the readings do not tell apart.

    ``certain`` only where one explanation stands alone and no reading contradicts it.
    """

    wrong: tuple[Step, ...]
    groups: tuple[tuple[Explanation, ...], ...]
    certain: bool

    @property
    def ranked(self) -> tuple[Explanation, ...]:
        """All explanations in order."""
        return tuple(one for group in self.groups for one in group)


def explained(chassis: Chassis, steps: Sequence[Step], readings: Sequence[Reading]) -> Diagnosis:
    """What explains the readings of some steps; nothing where all agree."""
    ohms = ohms_of(chassis)
    told = measured(steps, readings, ohms)
    wrong = tuple(told.steps[at] for at in told.wrong)
    if not wrong:
        return Diagnosis((), (), certain=False)
    search = _Search(chassis, ohms, told)
    singles = search.singles()
    found = singles
    if not any(one.explains_all for one in singles):
        found = _best([*singles, *search.doubles(singles)])
    groups = _grouped(search, found)
    certain = bool(groups) and len(groups[0]) == 1 and groups[0][0].explains_all and len(groups[0][0].slips) == 1
    rivals = [one for one in found[1:] if one.explains_all or one.misfit < found[0].misfit + SINGLED_OUT]
    return Diagnosis(wrong, groups, certain=certain and not rivals)


def _best(found: Sequence[Explanation]) -> list[Explanation]:
    """The best of each set of subjects, in order; what explains all comes first."""
    kept: dict[frozenset[tuple[str, str]], Explanation] = {}
    for one in sorted(found, key=lambda one: (not one.explains_all, one.misfit, one.words)):
        kept.setdefault(frozenset((slip.kind.word, slip.subject) for slip in one.slips), one)
    return list(kept.values())


class _Search:
    """The search over one set of readings."""

    def __init__(self, chassis: Chassis, ohms: Ohms, told: Told) -> None:
        self._chassis, self._ohms, self._told = chassis, ohms, told
        self._slips = tuple(simple_slips(chassis))
        self._without = self._judge(ohms, (), ())[0]

    def singles(self) -> list[Explanation]:
        """Explanations by one slip, the best first, of those that explain anything."""
        found = self._explanations(self._ohms, (), self._slips)
        found += self._rewired(self._cuts())
        return [one for one in _best(found) if one.misfit - COST * one.slips[0].kind.cost < self._without.misfit - 0.5]

    def _cuts(self) -> list[Change]:
        """The open joints that explain most of what disagrees; where the lead went may explain what they spoil."""
        missing = [slip for slip in self._slips if slip.kind is MISSING]
        return [missing[at].changes[0] for at in self._mending(missing)[:CUTS]]

    def _mending(self, slips: Sequence[Slip]) -> list[int]:
        """The places of slips by what they leave of the readings that disagree, then by what they spoil."""
        predicted = self._ohms.changed_each(self._told.red, self._told.black, [slip.changes[0] for slip in slips])
        miss = compared(self._told, predicted, self._stops([(slip,) for slip in slips])).miss
        left, spoilt = miss[list(self._told.wrong)].sum(axis=0), miss.sum(axis=0)
        return sorted(range(len(slips)), key=lambda at: (left[at], spoilt[at]))

    def _first(self, singles: Sequence[Explanation]) -> list[tuple[Slip, ...]]:
        """Slips to which a second is looked for: the best alone, and those that spoil what a second may hide."""
        found = [one.slips for one in singles[:BEAM]]
        menders = ((self._slips[at],) for at in self._mending(self._slips)[:MENDERS])
        return [*found, *(slips for slips in menders if slips not in found)]

    def doubles(self, singles: Sequence[Explanation]) -> list[Explanation]:
        """Explanations by two slips, the first of them among the best alone."""
        found: list[Explanation] = []
        for slips in self._first(singles):
            after = self._ohms.after(slips[0].changes)
            best = _best(self._explanations(after, slips, self._slips))
            found += [one for one in best if one.slips[1].subject != slips[0].subject][:BEAM]
        moved = [one.slips[0] for one in singles if len(one.slips[0].changes) > 1][:BEAM]
        for at, slip in enumerate(moved):
            after = self._ohms.after(slip.changes)
            for other in moved[at + 1 :]:
                found += self._explanations(after.after(other.changes[:-1]), (slip,), (other,), other.changes[-1:])
        return found

    def _rewired(self, cuts: Sequence[Change]) -> list[Explanation]:
        """Leads on the lug beside, and exchanged ones, where an open joint would explain something."""
        joints = {(joint.a, joint.b): joint for joint in self._chassis.joints}
        chosen = [joints[change.a, change.b] for change in cuts]
        found = []
        for joint, change in zip(chosen, cuts, strict=True):
            slips = tuple(moves(self._chassis, joint))
            if slips:
                found += self._explanations(self._ohms.after((change,)), (), slips, tuple(s.changes[-1] for s in slips))
        for at, one in enumerate(chosen):
            for other in chosen[at + 1 :]:
                for slip in exchanges(self._chassis, one, other):
                    after = self._ohms.after(slip.changes[:-1])
                    found += self._explanations(after, (), (slip,), slip.changes[-1:])
        return found

    def _explanations(
        self, ohms: Ohms, first: tuple[Slip, ...], slips: Sequence[Slip], last: Sequence[Change] = ()
    ) -> list[Explanation]:
        """One explanation for each slip on top of the first; ``last`` are the changes that ``ohms`` lack."""
        return self._judge(ohms, first, slips, last)

    def _judge(
        self, ohms: Ohms, first: tuple[Slip, ...], slips: Sequence[Slip], last: Sequence[Change] = ()
    ) -> list[Explanation]:
        told = self._told
        if slips:
            predicted = ohms.changed_each(told.red, told.black, [*last] or [slip.changes[0] for slip in slips])
        else:
            predicted = ohms.between[told.red, told.black][:, None]
        stops = self._stops([(*first, slip) for slip in slips] or [first])
        truth = compared(told, predicted, stops)
        misfits, possible = truth.miss.sum(axis=0), np.asarray(truth.possible.all(axis=0))
        cost = COST * sum(slip.kind.cost for slip in first)
        return [
            Explanation((*first, *slips[at : at + 1]),
                        float(misfits[at]) + cost + (COST * slips[at].kind.cost if slips else 0.0), bool(possible[at]))
            for at in range(len(misfits))
        ]  # fmt: skip

    def _stops(self, columns: Sequence[Sequence[Slip]]) -> Flags:
        """Where a junction that was to conduct does not."""
        ends = {(a, b): branch.name for a, b, branch in self._chassis.branches}
        names = [ends.get((step.red, step.black), "") for step in self._told.steps]
        found = np.zeros((len(names), len(columns)), dtype=bool)
        for at, slips in enumerate(columns):
            stopped = {name for slip in slips for name in slip.stops}
            if stopped:
                found[:, at] = [name in stopped for name in names]
        return found

    def reads(self, one: Explanation) -> Matrix:
        """What every reading would be."""
        after = self._ohms.after([change for slip in one.slips for change in slip.changes])
        found: Matrix = after.between[self._told.red, self._told.black]
        return found


def _grouped(search: _Search, found: Sequence[Explanation]) -> tuple[tuple[Explanation, ...], ...]:
    """Explanations that make of every reading nearly the same stand together."""
    groups: list[tuple[Matrix, list[Explanation]]] = []
    for one in found[:MOST_GROUPED]:
        reads = np.log(np.clip(search.reads(one), 1.0, 20e6))
        for others, group in groups:
            if np.abs(others - reads).max() < 0.05 and abs(group[0].misfit - one.misfit) < COST * 2:
                group.append(one)
                break
        else:
            groups.append((reads, [one]))
    return tuple(tuple(group) for _, group in groups[:MOST_TOLD])
