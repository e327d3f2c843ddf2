"""An electrolytic is the other way round than in the original.

It heats, vents and bursts, some time after it is powered. In a bias supply the plus is at the chassis, so it is the
original that says which way is right, not the chassis. If the circuit proves it too, `why` says so, and how surely. If
the circuit proves that the original has it reversed, the drawing is wrong: that is LOOK.

Original:

    electrolytic C1 20 mfd 450 V
    resistor R1 22k
    resistor R2 22k
    net B+: C1+, R1.1
    net ground: chassis, C1-, R1.2, R2.1, R2.2

Wrong:

    start from "original.netck"
    lift C1+, C1-
    wire C1- to R1.1
    wire C1+ to chassis

Right:

    start from "original.netck"
    move C1+ to R1.1

Source: the original; polar aluminium electrolytics must not be reversed (IEC 60384-4, from memory).
"""

from collections.abc import Iterator

from netcheck.compare.by_itself.proofs import turned_as_it_should, with_proof
from netcheck.compare.pair import Pair
from netcheck.compare.words.turnabout import turnabout, turned_part
from netcheck.core.diagnostic import About, Grade
from netcheck.core.difference import Rearranged
from netcheck.core.kind import Family
from netcheck.engine.rule import Finding, Rule

_WHY = "a reversed electrolytic heats, vents and bursts; if it has been powered this way, fit a new one"


def _check(pair: Pair) -> Iterator[Finding]:
    for fault in pair.faults:
        part = turned_part(pair, fault)
        if part is not None and isinstance(fault, Rearranged) and part.kind.family is Family.ELECTROLYTIC:
            told = turnabout(pair, part, fault, None, _WHY)
            yield turned_as_it_should(pair, part, told) or with_proof(pair, part, told)


RULE = Rule("reversed-electrolytic", Grade.STOP, _check, __doc__, About.POLARITY, burns=True)
