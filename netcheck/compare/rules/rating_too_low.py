"""A new part stands less than the old one: fewer volts, fewer watts, fewer amperes.

Before the tubes warm up nothing draws current, and every filter capacitor sees the peak of the line; the
original's rating was chosen for that. Ratings are held against each other as written, AC volts with AC volts: what a
part stands for a moment (its surge volts) is no rating, and 450 V are not 460 V. Line capacitors of class X or Y are
rated for the mains by their class, so their volts are not held against a DC rating. Two parts in one role stand what
they stand together. A new capacitor that does not say its volts is NOTE.

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
from netcheck.compare.values import Judged, judged_ratings
from netcheck.compare.words.describe import fitting
from netcheck.compare.words.panels import value_only
from netcheck.core.diagnostic import Grade, Label, Touched
from netcheck.core.quantity import Dimension
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    for judged in judged_ratings(pair):
        volts = judged.dimension is Dimension.VOLTAGE
        yield Finding(
            _headline(judged),
            (Label(judged.new.place, "now"), Label(judged.old.place, "in the original")),
            do=f"fit a part for {judged.then} or more"
            if judged.now
            else f"write what is printed on {judged.new.name}; it must stand {judged.then}",
            why="it may see its full voltage only when the tubes are cold, and fail weeks later"
            if volts
            else "it runs hotter than it may",
            touched=Touched((), (judged.new.name, judged.old.name)),
            grade=judged.grade,
            panel=value_only(pair, judged.old, judged.new, judged.then, judged.now or "unsaid"),
        )


def _headline(judged: Judged) -> str:
    if not judged.now:
        return fitting(
            f"{judged.names} says no volts; the original has {judged.then}",
            f"{judged.new.name} says no volts; the original has {judged.then}",
        )
    verb = "stand" if judged.several else "stands"
    return fitting(
        f"{judged.names} {verb} {judged.now}; the original has {judged.then}",
        f"{judged.new.name} stands {judged.now}; the original has {judged.then}",
    )


RULE = Rule("rating-too-low", Grade.STOP, _check, __doc__)
