"""A rectifier, diode or battery is the other way round than in the original.

Every electrolytic after it is then reversed; `why` names those for which the circuit proves it. A selenium stack's plus
is its cathode end; a silicon diode's band is its cathode.

Original:

    transformer T1
    winding T1 high red-a red-b 120 V
    selenium CR1 130 V 100 mA
    electrolytic C1 40 mfd 150 V
    resistor R1 22k
    net high: T1.red-a, CR1-
    net B+: CR1+, C1+, R1.1
    net ground: chassis, T1.red-b, C1-, R1.2

Wrong:

    start from "original.netck"
    remove CR1
    diode D1 1000 V anode C1+ cathode T1.red-a replaces CR1

Right:

    start from "original.netck"
    remove CR1
    diode D1 1000 V anode T1.red-a cathode C1+ replaces CR1

Source: the original; the plus of a selenium stack is its cathode end (from memory), the band of a
silicon diode likewise (common practice).
"""

from collections.abc import Iterator

from netcheck.compare.own.proofs import with_those_behind
from netcheck.compare.pair import Pair
from netcheck.compare.words.turnabout import turnabout, turned_part
from netcheck.core.diagnostic import Grade
from netcheck.core.difference import Rearranged
from netcheck.engine.rule import Finding, Rule

_ENDS = {"diode": ("its band", "its anode")}


def _check(pair: Pair) -> Iterator[Finding]:
    for fault in pair.faults:
        part = turned_part(pair, fault)
        if part is None or not isinstance(fault, Rearranged) or part.kind.word in ("electrolytic", "section"):
            continue
        ends = _ENDS.get(part.kind.word)
        told = turnabout(pair, part, fault, ends, "every electrolytic after it is reversed too")
        yield with_those_behind(pair, told)


RULE = Rule("reversed-rectifier", Grade.STOP, _check, __doc__)
