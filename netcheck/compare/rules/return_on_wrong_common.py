"""A return is on the chassis but belongs on the common, or the other way round.

B- is not always the chassis. A return on the wrong one of the two means hum, a lost bias voltage, or one side of the
line on the chassis.

Original:

    common B-
    electrolytic C1 40 mfd 150 V
    resistor R1 220k
    resistor R2 33 ohm
    net B+: C1+, R2.1
    net B-: C1-, R1.1
    net ground: chassis, R1.2, R2.2

Wrong:

    start from "original.netck"
    strip SP1 3 lugs foot 2
    move C1- to SP1.2

Right:

    start from "original.netck"
    strip SP1 3 lugs foot 2
    at SP1.1: R1.1
    move C1- to SP1.1

Source: the original; common practice for sets whose B- is apart from the chassis.
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.reference import references
from netcheck.compare.words.describe import listed
from netcheck.compare.words.strayed import Strayed, strayed
from netcheck.core.diagnostic import About, Grade
from netcheck.core.difference import Move
from netcheck.engine.rule import Finding, Rule

_WHY = "hum or lost bias; in a set without a power transformer, line voltage on the chassis"


def _check(pair: Pair) -> Iterator[Finding]:
    known = references(pair)
    for fault in pair.faults:
        if isinstance(fault, Move) and {fault.old_net, fault.wrong_net} <= known:
            yield strayed(pair, fault, _ways, _WHY)


def _ways(told: Strayed) -> tuple[str, ...]:
    names, right, wrong = told.names, told.right, told.wrong
    it, verb = ("it", "returns") if len(names) == 1 else ("them", "return")
    return (
        f"{listed(names)} {verb} to {wrong}{told.at}; the original returns {it} to {right}",
        f"{listed(names, 2)} {verb} to {wrong} instead of {right}",
    )


RULE = Rule("return-on-wrong-common", Grade.STOP, _check, __doc__, About.MISPLACED | About.STRAY)
