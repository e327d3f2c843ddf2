"""A lead, or a group of leads, is no longer connected to its net.

A wire was lifted to reach another one and forgotten, or a joint on the list was never made.

Original:

    resistor R1 470k
    resistor R2 470k
    capacitor C1 .02 mfd
    net grid: R1.1, R2.1, C1.1
    net ground: chassis, R1.2, R2.2, C1.2

Wrong:

    start from "original.netck"
    lift C1.1

Right:

    start from "original.netck"
    strip SP1 3 lugs
    lift C1.1
    at SP1.1: C1.1, R1.1

Source: the original.
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.reference import references
from netcheck.compare.words.describe import net_beside
from netcheck.compare.words.parted import parted
from netcheck.core.diagnostic import About, Grade
from netcheck.core.difference import Split
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    known = references(pair)
    for fault in pair.faults:
        if isinstance(fault, Split) and fault.old_net not in known:
            yield parted(pair, fault, net_beside(pair, fault.old_net, fault.leads))


RULE = Rule("missing-connection", Grade.STOP, _check, __doc__, About.NOT_DONE)
