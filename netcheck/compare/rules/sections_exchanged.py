"""Two sections of a can changed places: half-moon, square, triangle and no mark were confused.

A 25 V section on the 400 V line fails at once. Two sections of the same value and rating make no difference to the
circuit: then it is a NOTE.

Original:

    can C1 grounded
    section C1A 20 mfd 450 V half-moon
    section C1B 20 mfd  25 V square
    resistor R1 22k
    resistor R2 270 ohm
    net B+: C1A+, R1.1
    net cathode: C1B+, R2.1
    net ground: chassis, R1.2, R2.2

Wrong:

    start from "original.netck"
    lift C1.A, C1.B
    wire C1.A to R2.1
    wire C1.B to R1.1

Right:

    start from "original.netck"
    lift C1.A
    wire C1.A to R1.1

Source: the original; the label of the can says which mark is which section (published guide).
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.roles.alike import alike
from netcheck.compare.words.describe import fitting, labels, touched
from netcheck.compare.words.orders import ordered
from netcheck.compare.words.sections import sections_of
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import About, Grade
from netcheck.core.difference import Rearranged
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    for fault in pair.faults:
        sections = sections_of(pair, fault) if isinstance(fault, Rearranged) else ()
        if sections and isinstance(fault, Rearranged):
            yield _finding(pair, fault, sections[0], sections[1])


def _finding(pair: Pair, fault: Rearranged, one: Part, other: Part) -> Finding:
    leads = [lead for swap in fault.swaps for lead in swap.leads]
    nets = tuple(dict.fromkeys(swap.old_net for swap in fault.swaps))
    marks = one.features.words + other.features.words
    shown = [w for w in marks if w in ("half-moon", "square", "triangle", "plain")]
    words = f" ({shown[0]} and {shown[1]})" if len(shown) == 2 else ""
    return Finding(
        fitting(
            f"sections {one.name} and {other.name}{words} changed places",
            f"sections {one.name} and {other.name} changed places",
        ),
        labels(pair, leads),
        do=f"exchange what is on the two lugs: {ordered(pair, fault)}",
        mends=fault.mends,
        why="" if alike(one, other) else "the two sections have different values or ratings",
        touched=touched(pair, leads, *nets),
        grade=Grade.NOTE if alike(one, other) else None,
    )


RULE = Rule("sections-exchanged", Grade.STOP, _check, __doc__, About.MISPLACED | About.STRAY)
