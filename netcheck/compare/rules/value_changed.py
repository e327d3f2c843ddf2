"""A part's value is not the original's, by more than the trade takes for the same.

Resistors within 10 % and capacitors within 20 % are the same value (.05 mfd and .047 mfd). Electrolytics may be
larger: up to 50 % is a note, up to twice the value a warning. Beyond that, and for every decade slip, it is an
error. A control is the same within 30 %. A larger fuse is an error, a smaller one a warning.

Original:

    resistor R1 470k
    resistor R2 10k
    net grid: R1.1, R2.1
    net ground: chassis, R1.2, R2.2

Fails:

    start from "original.netck"
    change R1 47k

Passes:

    start from "original.netck"
    change R1 430k

Source: electrolytics from -20 to +100 %, published rule of thumb; control resistance 30 % (a service book of
1947); resistors and film capacitors common practice.
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.panels import value_only
from netcheck.compare.values import Judged, judged_values
from netcheck.core.diagnostic import Label, Severity, Touched
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    for judged in judged_values(pair):
        yield _finding(pair, judged)


def _finding(pair: Pair, judged: Judged) -> Finding:
    decade = " (a decade slip?)" if judged.decade else ""
    return Finding(
        f"{judged.names} is {judged.now}; the original has {judged.then}{decade}",
        (Label(judged.new.place, "now"), Label(judged.old.place, "in the original")),
        do=f'fit {judged.then}, or allow it: `allow value-changed {judged.new.name} "why"`',
        touched=Touched((), (judged.new.name, judged.old.name)),
        severity=judged.severity,
        panel=value_only(pair, judged.old, judged.new, judged.then, judged.now),
    )


RULE = Rule("value-changed", Severity.ERROR, _check, __doc__)
