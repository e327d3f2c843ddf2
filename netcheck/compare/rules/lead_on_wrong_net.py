"""A lead, or a group of leads on one lug, is on the wrong net.

The commonest slip under a chassis: two lugs look alike from below, and the drawing is seen from above. The
finding names the lead, the lug where it is, and the lug where it belongs.

Original:

    resistor R1 470k
    resistor R2 470k
    resistor R3 10k
    capacitor C1 .02 mfd
    net grid-5: R1.1, C1.2, R3.1
    net grid-6: R2.1, R3.2
    net ground: chassis, R1.2, R2.2, C1.1

Wrong:

    start from "original.netck"
    strip SP1 3 lugs
    at SP1.1: R1.1
    at SP1.2: R2.1
    move C1.2 to SP1.2

Right:

    start from "original.netck"
    strip SP1 3 lugs
    at SP1.1: R1.1
    at SP1.2: R2.1
    move C1.2 to SP1.1

Source: the original.
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.reference import references
from netcheck.compare.words.describe import listed
from netcheck.compare.words.strayed import Strayed, strayed
from netcheck.core.diagnostic import About, Grade
from netcheck.core.difference import Move
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    known = references(pair)
    for fault in pair.faults:
        if isinstance(fault, Move) and not {fault.old_net, fault.wrong_net} <= known:
            yield strayed(pair, fault, _ways)


def _ways(told: Strayed) -> tuple[str, ...]:
    names, right, wrong = told.names, told.right, told.wrong
    it, verb, belong = ("it", "is", "belongs") if len(names) == 1 else ("they", "are", "belong")
    return (
        f"{listed(names)} {verb} on {wrong}{told.at}; {it} {belong} on {right}",
        f"{listed(names)} {verb} on {wrong}; {it} {belong} on {right}",
        f"{listed(names, 2)} {verb} on {wrong} instead of {right}",
    )


RULE = Rule("lead-on-wrong-net", Grade.STOP, _check, __doc__, About.MISPLACED | About.STRAY)
