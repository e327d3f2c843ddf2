"""Two parts changed places.

If they have the same kind, value and rating it makes no difference but to the names: a NOTE. Two parts in series in one
branch may be in either order: a NOTE too. Two parts that differ are STOP.

Original:

    resistor R1 470k
    resistor R2 10k
    resistor R3 1k
    resistor R4 1k
    net grid: R1.1, R3.1
    net plate: R2.1, R4.1
    net ground: chassis, R1.2, R2.2, R3.2, R4.2

Wrong:

    start from "original.netck"
    move R1.1 to R4.1
    move R2.1 to R3.1

Right:

    start from "original.netck"
    move R1.1 to R3.1

Source: the original.
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.roles.alike import alike
from netcheck.compare.words.describe import fitting, labels, listed, net_beside, touched
from netcheck.compare.words.orders import ordered
from netcheck.compare.words.reordered import reordered
from netcheck.compare.words.sections import sections_of
from netcheck.core.diagnostic import About, Grade
from netcheck.core.difference import Rearranged, Way
from netcheck.engine.rule import Finding, Rule

_IN_SERIES = "in series that changes nothing"


def _check(pair: Pair) -> Iterator[Finding]:
    for fault in pair.faults:
        if not isinstance(fault, Rearranged) or sections_of(pair, fault):
            continue
        if fault.way is Way.PARTS or reordered(pair, fault):
            yield _finding(pair, fault)


def _finding(pair: Pair, fault: Rearranged) -> Finding:
    parts = pair.as_shown.circuit.parts
    one, other = parts[fault.parts[0]], parts[fault.parts[1]]
    leads = [lead for swap in fault.swaps for lead in swap.leads]
    nets = tuple(dict.fromkeys(swap.old_net for swap in fault.swaps))
    ours = (swap for swap in fault.swaps if swap.leads[0].part == one.name)
    names = list(dict.fromkeys(net_beside(pair, swap.old_net, swap.leads) for swap in ours))
    same = fault.way is Way.PARTS and alike(one, other)
    if same or reordered(pair, fault):
        pair_of = f"{one.name} and {other.name}"
        said = f"{pair_of} are alike and changed places" if same else f"{pair_of} changed places; {_IN_SERIES}"
        return Finding(
            fitting(said, f"{pair_of} changed places"),
            labels(pair, leads),
            do="nothing to do; exchange the names in the file if you like",
            touched=touched(pair, leads, *nets),
            grade=Grade.NOTE,
        )
    return Finding(
        fitting(
            f"{one.name} and {other.name} changed places; {one.name} belongs on {listed(names)}",
            f"{one.name} and {other.name} changed places",
        ),
        labels(pair, leads),
        do=f"exchange {one.name} and {other.name}: {ordered(pair, fault)}",
        mends=fault.mends,
        touched=touched(pair, leads, *nets),
    )


RULE = Rule("parts-exchanged", Grade.STOP, _check, __doc__, About.MISPLACED)
