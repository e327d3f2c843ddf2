"""What explains readings that disagree: one slip, else two; what can't be told apart is shown side by side.

An open joint is followed to where its lead may have gone by the readings that it mends: by all readings together, a
joint whose opening does nothing came before one that explains the wrong reading and spoils another.
"""

from collections.abc import Sequence

from msgspec import Struct

from netcheck.bench.chassis import Chassis
from netcheck.bench.explanation import COST, Explanation, alike, best_of
from netcheck.bench.ohms import ohms_of
from netcheck.bench.plan import Step
from netcheck.bench.predicted import measured
from netcheck.bench.readings import Reading
from netcheck.bench.search import Search

__all__ = ["MOST_NAMED", "Diagnosis", "Explanation", "explained"]

MOST_TOLD = 8
MOST_NAMED = 5  # groups of which every member is looked for
MOST_GROUPED = 120
SPREAD = 2 * COST  # of the misfits of a group, as its members are not equally likely
SINGLED_OUT = 4.0  # by how much the next explanation must be worse before one is named alone


class Diagnosis(Struct, frozen=True):
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
    told = measured(chassis, steps, readings, ohms)
    wrong = tuple(told.steps[at] for at in told.wrong)
    if not wrong:
        return Diagnosis((), (), certain=False)
    search = Search(chassis, ohms, told)
    singles = search.singles()
    if any(one.explains_all for one in singles):
        found = best_of([*singles, *search.two_off()])
    else:
        found = best_of([*singles, *_more_than_one(search.doubles(singles), singles)])
    groups = _grouped(found)
    named = tuple(_named(search, group) for group in groups[:MOST_NAMED])
    certain = bool(named) and len(named[0]) == 1 and named[0][0].explains_all and len(named[0][0].slips) == 1
    rivals = [one for one in found[1:] if one.explains_all or one.misfit < found[0].misfit + SINGLED_OUT]
    return Diagnosis(wrong, (*named, *groups[MOST_NAMED:]), certain=certain and not rivals)


def _more_than_one(doubles: Sequence[Explanation], singles: Sequence[Explanation]) -> list[Explanation]:
    """The pairs that explain more than either of their members alone: the other would be noise."""
    alone = {one.slips[0]: one.misfit for one in singles}
    most = float("inf")
    return [one for one in doubles if one.misfit < min(alone.get(slip, most) for slip in one.slips)]


def _grouped(found: Sequence[Explanation]) -> list[tuple[Explanation, ...]]:
    """Explanations that make of every reading nearly the same stand together."""
    groups: list[list[Explanation]] = []
    for one in found[:MOST_GROUPED]:
        group = next((group for group in groups if alike(one, group[0]) and _as_good(one, group[0])), None)
        if group is None:
            groups.append([one])
        elif len(one.slips) == len(group[0].slips):  # two slips that explain no more than one are not told
            group.append(one)
    return [tuple(group) for group in groups[:MOST_TOLD]]


def _as_good(one: Explanation, other: Explanation) -> bool:
    return one.explains_all == other.explains_all and abs(one.misfit - other.misfit) < SPREAD


def _named(search: Search, group: tuple[Explanation, ...]) -> tuple[Explanation, ...]:
    """A group with every explanation by as many slips that reads as its first does."""
    first = group[0]
    more = [other for one in group for other in search.reading_alike(one)]
    return tuple(best_of([*group, *(one for one in more if _as_good(one, first))]))
