"""A point that the original has on the chassis or the common is on neither now.

It looks grounded but floats: the lug has no bond, the can sits on an insulating wafer, the mounting screw that made the
ground is gone. The set hums, or a part that should have no voltage across it gets all of it.

Original:

    electrolytic C1 20 mfd 450 V
    resistor R1 22k
    net B+: C1+, R1.1
    net ground: chassis, C1-, R1.2

Wrong:

    start from "original.netck"
    strip SP1 3 lugs foot 2 insulated
    move C1- to SP1.2

Right:

    start from "original.netck"
    strip SP1 3 lugs foot 2
    move C1- to SP1.2

Source: the original netlist; common practice.
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.reference import references
from netcheck.compare.words.describe import net_name
from netcheck.compare.words.parted import parted
from netcheck.core.diagnostic import About, Grade
from netcheck.core.difference import Split
from netcheck.core.kind import Family
from netcheck.engine.rule import Finding, Rule

_WHY = "its ground leads nowhere: it hums, or puts full voltage across a part"
_EARTH = "without it nothing blows the fuse when the line touches metal that a hand touches"


def _check(pair: Pair) -> Iterator[Finding]:
    known = references(pair)
    for fault in pair.faults:
        if isinstance(fault, Split) and fault.old_net in known:
            name = net_name(pair, fault.old_net)
            shown = "the chassis" if name == "chassis" else name
            yield parted(pair, fault, shown, why=_EARTH if _is_earth(pair, fault) else _WHY)


def _is_earth(pair: Pair, fault: Split) -> bool:
    """Whether it is the earth of the cord that came off."""
    graph = pair.real
    ends = ((graph.part_of(lead.new), graph.point(lead.new).terminal) for lead in fault.leads)
    return any(
        part is not None and part.kind.family is Family.CORD and terminal is not None and terminal.name == "earth"
        for part, terminal in ends
    )


RULE = Rule("floating-ground", Grade.STOP, _check, __doc__, About.NOT_DONE)
