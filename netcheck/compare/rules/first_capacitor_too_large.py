"""The capacitor that a rectifier tube charges directly is larger than the tube takes, and larger than it was.

Each charge goes through the tube in a short, high pulse; its data sheet gives the largest first capacitor that does no
harm. After the choke or a resistor a larger capacitor is all right. Up to 20 % more is a NOTE, since that is the usual
tolerance of a capacitor; more is STOP where the limit was read, LOOK where it is from memory. Silicon and selenium have
no such limit here. If the value is too far from the original as well, only this is told.

Original:

    transformer T1 grounded
    winding T1 high red-a red-yellow red-b 300-0-300 V
    winding T1 filament yellow-a yellow-b 5 V
    tube V7 5Y3GT
    electrolytic C1 20 mfd 450 V
    resistor R1 22k
    net fil: T1.yellow-a, V7.2
    net B+: T1.yellow-b, V7.8, C1+, R1.1
    net a: T1.red-a, V7.4
    net b: T1.red-b, V7.6
    net ground: chassis, T1.red-yellow, C1-, R1.2

Wrong:

    start from "original.netck"
    change C1 47 mfd 500 V

Right:

    start from "original.netck"
    change C1 20 mfd 500 V

Source: makers' data sheets, which state the largest capacitor, or the peak plate current that it must not exceed (the
GE sheet of the 6X4, scribd.com/document/708372590). Each type's limit has its own source in the table of rectifiers.
"""

from collections.abc import Iterator

from netcheck.compare.first_capacitor import TooLarge, overloads
from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import fitting, listed
from netcheck.compare.words.pictures import value_only
from netcheck.core.article import with_article
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.kind import Standing
from netcheck.core.quantity import Dimension
from netcheck.core.spelling import spelled
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    for overload in overloads(pair):
        yield _finding(overload)


def _finding(overload: TooLarge) -> Finding:
    tube, limit = overload.tube, overload.limit
    fitted, gone = [part.name for part in overload.new], [part.name for part in overload.old]
    now, most = (spelled(amount, Dimension.CAPACITANCE) for amount in (overload.now, limit.most))
    names = listed(fitted) if fitted == gone or not gone else f"{listed(fitted)} (in place of {listed(gone)})"
    verb = "is" if len(fitted) == 1 else "are"
    said = f"{with_article(tube.features.type)} takes {most}"
    old = overload.old[0] if overload.old else overload.new[0]
    then = spelled(overload.then, Dimension.CAPACITANCE) if overload.old else "no capacitor here"
    labels = [Label(overload.new[0].place, "now")]
    if overload.old:
        labels.append(Label(old.place, "in the original"))
    return Finding(
        fitting(
            f"{names} {verb} {now} right after {tube.name}; {said} at most",
            f"{listed(fitted)} {verb} {now} right after {tube.name}; {said} at most",
            f"{listed(fitted, 2)} {verb} {now}; {said} at most",
        ),
        (*labels, Label(tube.place, "the rectifier")),
        do=_instruction(overload, most),
        why=_why(overload),
        touched=Touched((), (*fitted, *gone, tube.name)),
        grade=overload.grade,
        panel=value_only(old, overload.new[0], then, now),
    )


def _instruction(overload: TooLarge, most: str) -> str:
    name = overload.new[0].name
    if overload.grade is Grade.NOTE:
        now = spelled(overload.now, Dimension.CAPACITANCE)
        return f"leave it: {now} is within the usual tolerance of {most}"
    return (
        f"fit {most} or less here, more only after the choke; "
        f'or accept it: `accept first-capacitor-too-large {name} "why"`'
    )


def _why(overload: TooLarge) -> str:
    limit = overload.limit
    most = spelled(limit.most, Dimension.CAPACITANCE)
    said = f"it takes {most} (from memory: look it up)"
    if limit.standing is not Standing.MEMORY:
        said = f"its data sheet allows {most}"
    under = f" ({limit.terms})" if limit.terms else ""
    return f"each charging pulse goes through the tube; {said}{under}"


RULE = Rule("first-capacitor-too-large", Grade.STOP, _check, __doc__, About.SAME_VOLTS)
