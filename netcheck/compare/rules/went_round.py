"""Three leads or more went round by one: each is where the next one belongs.

It happens at a can whose lugs were counted from another mark, at the coloured leads of a transformer, at a rectifier
socket: every lead is well soldered, but one place too far. It is one slip, so it is told once.

Original:

    can C1 grounded
    section C1A 40 mfd 450 V half-moon
    section C1B 20 mfd 450 V square
    section C1C 20 mfd 25 V triangle
    strip SP1 5 lugs foot 3
    resistor R1 1k
    resistor R2 10k
    resistor R3 270 ohm
    at SP1.1: R1.1
    at SP1.2: R2.1
    at SP1.4: R3.1
    at SP1.3: R1.2, R2.2, R3.2
    wire SP1.1 to C1.A red
    wire SP1.2 to C1.B red
    wire SP1.4 to C1.C green

Wrong:

    parts from "original.netck"
    at SP1.1: R1.1
    at SP1.2: R2.1
    at SP1.4: R3.1
    at SP1.3: R1.2, R2.2, R3.2
    wire SP1.1 to C1.B red
    wire SP1.2 to C1.C red
    wire SP1.4 to C1.A green

Right:

    parts from "original.netck"
    at SP1.1: R1.1
    at SP1.2: R2.1
    at SP1.4: R3.1
    at SP1.3: R1.2, R2.2, R3.2
    wire SP1.1 to C1.A red
    wire SP1.2 to C1.B red
    wire SP1.4 to C1.C green

Source: the original.
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import fitting, labels, listed, net_beside, touched
from netcheck.compare.words.orders import ordered
from netcheck.core.diagnostic import About, Grade
from netcheck.core.difference import Rearranged, Way
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    for fault in pair.faults:
        if isinstance(fault, Rearranged) and fault.way is Way.ROUND:
            yield _finding(pair, fault)


def _finding(pair: Pair, fault: Rearranged) -> Finding:
    leads = [lead for swap in fault.swaps for lead in swap.leads]
    groups = [[lead.name for lead in swap.leads] for swap in fault.swaps]
    each = listed([listed(names, len(names)) for names in groups], len(groups))
    counted = listed([lead.name for lead in leads])
    nets = tuple(dict.fromkeys(swap.old_net for swap in fault.swaps))
    belong = "belongs" if len(groups[0]) == 1 else "belong"
    where = f"{listed(groups[0])} {belong} on {net_beside(pair, nets[0], fault.swaps[0].leads)}"
    return Finding(
        fitting(
            f"{each} went round by one: {where}",
            f"{counted} went round by one: {where}",
            f"{counted} went round by one",
        ),
        labels(pair, leads) + labels(pair, leads[1:])[:1],
        do=ordered(pair, fault),
        mends=fault.mends,
        why="each of them is where the next one belongs",
        touched=touched(pair, leads, *nets),
    )


RULE = Rule("went-round", Grade.STOP, _check, __doc__, About.MISPLACED)
