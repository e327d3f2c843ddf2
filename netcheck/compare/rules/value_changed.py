"""A part's value differs from the original's by more than the trade counts as the same.

Fixed resistors are the same within 10 %, or within the drawing's own tolerance if that is wider; up to 20 % is a NOTE.
Paper and film capacitors are the same within 20 % (.05 mfd and .047 mfd). Mica, trimmers and gangs set a frequency: 10
%, and to 20 % is LOOK. Electrolytics are the same within 20 % and may be larger: to 50 % is a NOTE, to twice the value
LOOK. Controls: 30 %. A fuse may be the same or smaller (LOOK). The usual stand-ins for old values (10 for 8 mfd, 22 for
16) are never more than a NOTE. The volts of a winding are the same within 5 %; to 10 % is a NOTE, to 20 % LOOK.

Anything beyond that is STOP, and so are the same figures in another decade.

Original:

    resistor R1 470k
    resistor R2 10k
    net grid: R1.1, R2.1
    net ground: chassis, R1.2, R2.2

Wrong:

    start from "original.netck"
    change R1 47k

Right:

    start from "original.netck"
    change R1 430k

Source: windings from memory; electrolytics within 20 % (a published restoration page), from -20 to +100 % (a published
rule of thumb), to 50 % and control resistance 30 % (a service book of 1947); resistors, film and mica common practice;
old and modern values computed from the preferred numbers of IEC 60063.
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.values import Misvalued, judged_values
from netcheck.compare.words.describe import fitting
from netcheck.compare.words.pictures import value_only
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    for judged in judged_values(pair):
        yield _finding(judged)


def _finding(judged: Misvalued) -> Finding:
    decade = " (a decade slip?)" if judged.decade else ""
    verb = "are" if judged.several else "is"
    return Finding(
        fitting(
            f"{judged.names} {verb} {judged.now}; the original has {judged.then}{decade}",
            f"{judged.new.name} is {judged.now}; the original has {judged.then}{decade}",
            f"{judged.new.name} is {judged.now} for {judged.then}{decade}",
        ),
        (Label(judged.new.place, "now"), Label(judged.old.place, "in the original")),
        do=_instruction(judged),
        touched=Touched((), (judged.new.name, judged.old.name)),
        grade=judged.grade,
        panel=value_only(judged.old, judged.new, judged.then, judged.now),
    )


def _instruction(judged: Misvalued) -> str:
    accept = f'accept it: `accept value-changed {judged.new.name} "why"`'
    if judged.grade is Grade.NOTE:
        return f"leave it, or {accept}"
    today = f" (today {' or '.join(judged.picks[:2])})" if judged.picks else ""
    if judged.winding:
        return f"fit a transformer with {judged.then} there, mend the line `winding`, or {accept}"
    return f"fit {judged.then}{today}, or {accept}"


RULE = Rule("value-changed", Grade.STOP, _check, __doc__, About.VALUE)
