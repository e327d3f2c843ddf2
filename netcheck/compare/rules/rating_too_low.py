"""A new part is rated lower than the old one: fewer volts, fewer watts, fewer amperes.

Before the tubes warm up nothing draws current, and every filter capacitor sees the peak of the line; the original's
rating was chosen for that. Ratings are compared as written, AC volts with AC volts: surge volts are not a rating, and
450 V is not 460 V. Line capacitors of class X or Y are rated for the line by their class, so their volts are not
compared with a DC rating. Two parts in place of one count with their rating together. A new capacitor whose rating is
not stated is a NOTE.

Original:

    electrolytic C1 20 mfd 450 V
    resistor R1 22k 2 W
    net B+: C1+, R1.1
    net ground: chassis, C1-, R1.2

Wrong:

    start from "original.netck"
    change C1 22 mfd 350 V

Right:

    start from "original.netck"
    change C1 22 mfd 500 V

Source: never below the original's volts (several published restoration guides); watts common practice.
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.values import Misvalued, judged_ratings
from netcheck.compare.words.describe import fitting
from netcheck.compare.words.pictures import value_only
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension
from netcheck.engine.rule import Finding, Rule

_FILTER_VOLTS = 100
"""Electrolytics rated less are at cathodes and in bias lines."""


def _check(pair: Pair) -> Iterator[Finding]:
    for judged in judged_ratings(pair):
        yield Finding(
            _headline(judged),
            (Label(judged.new.place, "now"), Label(judged.old.place, "in the original")),
            do=f"fit one rated {judged.then} or more"
            if judged.now
            else f"write what is printed on {judged.new.name}; it must be rated {judged.then} or more",
            why=_why(judged),
            touched=Touched((), (judged.new.name, judged.old.name)),
            grade=judged.grade,
            panel=value_only(judged.old, judged.new, judged.then, judged.now or "unsaid"),
        )


def _headline(judged: Misvalued) -> str:
    if not judged.now:
        return fitting(
            f"the rating of {judged.names} is not stated; the original's is {judged.then}",
            f"the rating of {judged.new.name} is not stated; the original's is {judged.then}",
        )
    verb = "are" if judged.several else "is"
    return fitting(
        f"{judged.names} {verb} rated {judged.now}; the original was {judged.then}",
        f"{judged.new.name} is rated {judged.now}; the original was {judged.then}",
    )


def _why(judged: Misvalued) -> str:
    """A reason that fits what the part does: only a filter capacitor waits for the tubes to draw current."""
    if judged.dimension is not Dimension.VOLTAGE:
        return "it will run too hot"
    old = judged.old.features.first(Dimension.VOLTAGE)
    electrolytic = judged.new.kind.family is Family.ELECTROLYTIC
    if electrolytic and old is not None and old.amount >= _FILTER_VOLTS:
        return "while the tubes warm up it gets the full voltage; a part rated lower fails after weeks"
    return "the maker chose the rating for the peaks in this place, not for the voltage on the chart"


RULE = Rule("rating-too-low", Grade.STOP, _check, __doc__, About.RATING | About.SAME_VOLTS)
