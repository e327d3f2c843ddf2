"""The two equal halves of one tube have swapped places: a NOTE, since it makes no difference.

Both triodes of a 6SN7 are the same; which one does which work does not matter to the circuit. If only a grid is
swapped, that is a STOP of its own.

Original:

    tube V1 6SN7GT
    resistor R1 47k
    resistor R2 100k
    resistor R3 470k
    resistor R4 1 meg
    net plate-1: V1.plate-a, R1.1
    net plate-2: V1.plate-b, R2.1
    net grid-1: V1.grid-a, R3.1
    net grid-2: V1.grid-b, R4.1
    net ground: chassis, V1.cathode-a, V1.cathode-b, V1.7, V1.8, R1.2, R2.2, R3.2, R4.2

Wrong:

    start from "original.netck"
    move V1.plate-a to R2.1
    move V1.plate-b to R1.1
    move V1.grid-a to R4.1
    move V1.grid-b to R3.1

Right:

    start from "original.netck"
    move V1.plate-a to R1.1

Source: common practice.
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import labels, touched
from netcheck.core.diagnostic import About, Grade
from netcheck.core.difference import Rearranged, Way
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    for fault in pair.faults:
        if isinstance(fault, Rearranged) and fault.way is Way.UNITS:
            leads = [lead for swap in fault.swaps for lead in swap.leads]
            yield Finding(
                f"the two halves of {fault.parts[0]} have swapped places, which changes nothing",
                labels(pair, leads),
                do="nothing to do; mark it in the drawing for whoever measures next",
                touched=touched(pair, leads, *dict.fromkeys(swap.old_net for swap in fault.swaps)),
            )


RULE = Rule("units-exchanged", Grade.NOTE, _check, __doc__, About.ITSELF)
