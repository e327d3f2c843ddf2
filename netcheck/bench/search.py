"""The search for slips that explain readings: each alone, then two together."""

from collections.abc import Iterable, Iterator, Sequence

import numpy as np

from netcheck.bench.chassis import Chassis, Joint
from netcheck.bench.explanation import COST, Explanation, Weighed, alike, best_of
from netcheck.bench.ohms import Ohms
from netcheck.bench.predicted import Flags, Told, compared
from netcheck.bench.slips import MISSING, Cause, exchanges, missing, moves, simple_slips

__all__ = ["Search"]

BEAM = 24  # first slips to which a second is looked for, and seconds kept of each; of those that read alike one
MENDERS = 8  # besides, by what they mend alone
CUTS = 40  # open joints from which moved and exchanged leads are thought of
FELT = 0.5  # of the measure of misfits, by which a slip must fit better than none
SPOILT = 8  # besides, of the leads whose own reading is wrong
MOST_LIKE = 30  # slips that read alike, tried in each other's place


class Search:
    """The search over one set of readings."""

    def __init__(self, chassis: Chassis, ohms: Ohms, told: Told) -> None:
        """Holds every slip by itself against the readings."""
        self._chassis, self._ohms, self._told = chassis, ohms, told
        self._ends = {(a, b): branch.name for a, b, branch in chassis.branches}
        self._slips = tuple(simple_slips(chassis))
        simple = self._judged(ohms, (), self._slips)
        self._alone = (simple, *self._rewired(self._cuts(simple)))
        self._seconds: dict[tuple[Cause, ...], tuple[Cause, ...]] = {}

    def singles(self) -> list[Explanation]:
        """Explanations by one slip, the best first, of those that explain anything."""
        return best_of(one for judged in self._alone for one in judged.better_than(self._most))

    @property
    def _most(self) -> float:
        """What slips may leave unexplained that explain anything."""
        told = self._told
        none = compared(told, self._ohms.between[told.red, told.black][:, None], self._stops([()]))
        return float(none.miss.sum()) - FELT

    def doubles(self, singles: Sequence[Explanation]) -> list[Explanation]:
        """Explanations by two slips, the first among the best alone, that explain anything; of alike ones one."""
        most = self._most
        found: list[Explanation] = []
        for slips in self._first(singles):
            for group in self._judged(self._ohms.after(slips[0].changes), slips, self._slips).best(BEAM):
                others = [one for one in group if one.slips[1].subject != slips[0].subject]
                found += others[:1]
                self._seconds.update({one.slips: tuple(other.slips[1] for other in others) for one in others[:1]})
        return best_of(one for one in [*found, *self._both_moved(singles)] if one.misfit - one.cost < most)

    def two_off(self) -> list[Explanation]:
        """Two joints open, each where its own reading is wrong, that no reading contradicts.

        In a net of three points both others off read as the one off does.
        """
        slips = [missing(self._chassis, joint) for joint in self._unproven[:CUTS]]
        pairs = ((first, slips[at + 1 :]) for at, first in enumerate(slips))
        judged = (
            each for first, others in pairs for each in self._on(self._ohms.after(first.changes), (first,), others)
        )
        return [each.one(int(at)) for each in judged for at in np.flatnonzero(each.possible)]

    def reading_alike(self, one: Explanation) -> list[Explanation]:
        """Every explanation by as many slips that no reading tells apart from this one, itself among them."""
        if len(one.slips) == 1:
            return [other for judged in self._alone for other in judged.reading_as(one.reads)]
        first, second = one.slips
        seconds = tuple(dict.fromkeys((second, *self._seconds.get(one.slips, ())[:MOST_LIKE], *self._like(second))))
        found = [one]
        for slip in self._like(first):
            after = self._ohms.after(slip.changes)
            others = [other for other in seconds if other.subject != slip.subject]
            found += [such for each in self._on(after, (slip,), others) for such in each.reading_as(one.reads)]
        return found

    def _like(self, slip: Cause) -> list[Cause]:
        """The slips that by themselves read as one does."""
        reads = next(self._on(self._ohms, (), (slip,))).one(0).reads
        like = [one.slips[0] for judged in self._alone for one in judged.reading_as(reads)]
        return list(dict.fromkeys((slip, *like)))[:MOST_LIKE]

    def _on(self, ohms: Ohms, first: tuple[Cause, ...], slips: Iterable[Cause]) -> Iterator[Weighed]:
        """Slips on top of a first, of which ``ohms`` are; those of one change at once."""
        slips = tuple(slips)
        several = [slip for slip in slips if len(slip.changes) > 1]
        single = [slip for slip in slips if len(slip.changes) == 1]
        if single:
            yield self._judged(ohms, first, single)
        for slip in several:
            yield self._judged(ohms.after(slip.changes[:-1]), first, (slip,))

    def _first(self, singles: Sequence[Explanation]) -> list[tuple[Cause, ...]]:
        """Slips to which a second is looked for: the best alone, and those that spoil what a second may hide."""
        found: list[Explanation] = []
        menders = map(self._alone[0].one, self._mending(self._alone[0]))
        for ranked, count in ((iter(singles), BEAM), (self._spoilt(), SPOILT), (menders, MENDERS)):
            wanted = len(found) + count
            for one in ranked:
                if len(found) == wanted:
                    break
                if not any(alike(one, other) for other in found):
                    found.append(one)
        return [one.slips for one in found]

    def _spoilt(self) -> Iterator[Explanation]:
        """Leads that are off where their own reading is wrong; what else is wrong may spoil what they explain."""
        ends = {end for joint in self._unproven for end in (joint.a, joint.b)}
        for judged in self._alone[1:]:
            for at, (slip,) in enumerate(judged.slips):
                if all({change.a, change.b} <= ends for change in slip.changes[: len(slip.changes) // 2]):
                    yield judged.one(at)

    def _both_moved(self, singles: Sequence[Explanation]) -> Iterator[Explanation]:
        """Two of the leads moved or exchanged."""
        moved = [one.slips[0] for one in singles if len(one.slips[0].changes) > 1][:BEAM]
        for at, slip in enumerate(moved):
            after = self._ohms.after(slip.changes)
            for judged in self._on(after, (slip,), moved[at + 1 :]):
                yield judged.one(0)

    def _mending(self, judged: Weighed, columns: Sequence[int] | None = None) -> list[int]:
        """The columns of slips by what they leave of the readings that disagree, then by what they spoil."""
        chosen = np.arange(len(judged.slips)) if columns is None else np.array(columns, dtype=np.intp)
        miss = compared(self._told, judged.ohms[:, chosen], judged.stops[:, chosen]).miss
        left, spoilt = miss[list(self._told.wrong)].sum(axis=0), miss.sum(axis=0)
        return [int(at) for at in chosen[np.lexsort((spoilt, left))]]

    def _cuts(self, simple: Weighed) -> list[Joint]:
        """The open joints that explain most of what disagrees; where the lead went may explain what they spoil."""
        joints = {(joint.a, joint.b): joint for joint in self._chassis.joints}
        missing = [at for at, slip in enumerate(self._slips) if slip.kind is MISSING]
        mending = [self._slips[at].changes[0] for at in self._mending(simple, missing)[:CUTS]]
        return list(dict.fromkeys((*self._unproven, *(joints[change.a, change.b] for change in mending))))[:CUTS]

    @property
    def _unproven(self) -> list[Joint]:
        """The joints whose own reading is wrong."""
        return [joint for at in self._told.wrong if (joint := self._told.steps[at].joint) is not None]

    def _rewired(self, cuts: Sequence[Joint]) -> Iterator[Weighed]:
        """Leads on the lug beside, and exchanged ones, where an open joint would explain something."""
        for joint in cuts:
            slips = tuple(moves(self._chassis, joint))
            if slips:
                yield self._judged(self._ohms.after(slips[0].changes[:-1]), (), slips)
        for at, one in enumerate(cuts):
            for other in cuts[at + 1 :]:
                yield from self._on(self._ohms, (), exchanges(self._chassis, one, other))

    def _judged(self, ohms: Ohms, first: tuple[Cause, ...], slips: Sequence[Cause]) -> Weighed:
        """Slips on top of a first, a column each; ``ohms`` have all changes but the last of each slip."""
        told, columns = self._told, [(*first, slip) for slip in slips]
        predicted = ohms.changed_each(told.red, told.black, [slip.changes[-1] for slip in slips])
        stops = self._stops(columns)
        truth = compared(told, predicted, stops)
        cost = COST * np.array([sum(slip.kind.cost for slip in column) for column in columns])
        possible = np.asarray(truth.possible.all(axis=0))
        return Weighed(columns, predicted, stops, truth.miss.sum(axis=0) + cost, cost, possible)

    def _stops(self, columns: Sequence[Sequence[Cause]]) -> Flags:
        """Where a junction that was to conduct does not."""
        names = [self._ends.get((step.red, step.black), "") for step in self._told.steps]
        found = np.zeros((len(names), len(columns)), dtype=bool)
        for at, slips in enumerate(columns):
            stopped = {name for slip in slips for name in slip.stops}
            if stopped:
                found[:, at] = [name in stopped for name in names]
        return found
