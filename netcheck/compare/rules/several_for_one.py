"""Several parts do the work of one and amount to the same.

Two capacitors in parallel add up, two resistors in series too; the total is worked out and shown beside what the
original has. If the total is not the same, or is rated lower, that is told instead.

Original:

    electrolytic C1 40 mfd 450 V
    resistor R1 22k
    net B+: C1+, R1.1
    net ground: chassis, C1-, R1.2

Wrong:

    start from "original.netck"
    remove C1
    electrolytic C51 22 mfd 500 V plus R1.1 minus chassis replaces C1
    electrolytic C52 22 mfd 500 V plus R1.1 minus chassis replaces C1

Right:

    start from "original.netck"
    remove C1
    electrolytic C51 47 mfd 500 V plus R1.1 minus chassis replaces C1

Source: series and parallel connection, calculated.
"""

from collections.abc import Iterator

from netcheck.compare.bands import verdict
from netcheck.compare.pair import Pair
from netcheck.compare.roles.groups import arrangement
from netcheck.compare.roles.pairing import PartPair
from netcheck.compare.roles.reduction import reduced
from netcheck.compare.values import judged_ratings
from netcheck.compare.words.describe import fitting, listed
from netcheck.compare.words.pictures import value_only
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.spelling import spelled
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    low = {judged.new.name for judged in judged_ratings(pair)}
    for roles in pair.pairing.pairs:
        several = len(roles.new) > 1 and roles.new[0].name not in low
        finding = _finding(pair, roles) if several else None
        if finding is not None:
            yield finding


def _finding(pair: Pair, roles: PartPair) -> Finding | None:
    old, new = reduced(roles.old, pair.original), reduced(roles.new, pair.as_shown)
    dimension = roles.new[0].kind.principal
    if old is None or new is None or dimension is None or old.amount is None or new.amount is None:
        return None
    if dimension is not roles.old[0].kind.principal or verdict(roles.old[0], dimension, old.amount, new.amount):
        return None
    fitted, gone = [part.name for part in roles.new], [part.name for part in roles.old]
    how = arrangement(roles.new, pair.as_shown)
    then, now = spelled(old.amount, dimension), spelled(new.amount, dimension)
    return Finding(
        fitting(
            f"{listed(fitted)} {how} take the place of {listed(gone)}: {now}, was {then}",
            f"{listed(fitted, 2)} {how} for {listed(gone, 2)}: {now}, was {then}",
            f"{roles.new[0].name} and {len(fitted) - 1} more: {now}, was {then}",
        ),
        (*(Label(part.place) for part in roles.new), Label(roles.old[0].place, "in the original")),
        do="nothing to do: together they do what the original did",
        touched=Touched((), (*fitted, *gone)),
        panel=value_only(roles.old[0], roles.new[0], then, f"{now} together"),
    )


RULE = Rule("several-for-one", Grade.NOTE, _check, __doc__, About.ITSELF)
