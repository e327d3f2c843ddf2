"""The connections of a socket, a plug or a strip are the mirror image of the original's.

The base diagram is drawn from below and was read from above: of seven pins, pin 1 has what belongs on pin 7, pin 2 what
belongs on pin 6, and so on. It is one slip, so it is told once, whatever the number of leads.

Original:

    tube V1 6J5
    resistor R1 47k
    resistor R2 470k
    resistor R3 2.7k
    resistor R4 10k
    net plate: V1.3, R1.1
    net grid: V1.5, R2.1
    net cathode: V1.8, R3.1
    net heater: V1.7, R4.1
    net ground: chassis, V1.2, R1.2, R2.2, R3.2, R4.2, V1.1

Wrong:

    start from "original.netck"
    lift V1.1, V1.2, V1.3, V1.5, V1.7, V1.8
    wire V1.6 to R1.1
    wire V1.4 to R2.1
    wire V1.1 to R3.1
    wire V1.2 to R4.1
    wire V1.7 to V1.8 to chassis

Right:

    start from "original.netck"
    lift V1.3
    wire V1.3 to R1.1

Source: tube bases are numbered clockwise seen from the wiring side (published base diagrams).
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import labels, said_first, touched, with_place
from netcheck.compare.words.orders import moved_leads, pin_by_pin
from netcheck.core.diagnostic import About, Grade
from netcheck.core.difference import Rearranged, Way
from netcheck.core.kind import Seat
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    for fault in pair.faults:
        if isinstance(fault, Rearranged) and fault.way is Way.MIRRORED:
            yield _finding(pair, fault)


def _finding(pair: Pair, fault: Rearranged) -> Finding:
    part = pair.as_shown.circuit.parts[fault.parts[0]]
    thing = "socket" if part.kind.seat is Seat.SOCKET else part.kind.word
    leads = [lead for swap in fault.swaps for lead in swap.leads]
    leads.sort(key=lambda lead: said_first(pair, lead))
    nets = tuple(dict.fromkeys(swap.old_net for swap in fault.swaps))
    found = touched(pair, leads, *nets)
    return Finding(
        f"the {thing} of {part.name} is wired as its mirror image"
        if thing == "socket"
        else f"the {thing} {part.name} is wired as its mirror image",
        labels(pair, leads),
        do=pin_by_pin(pair, fault, part),
        mends=fault.mends,
        why="the diagram is drawn from below and was read from above",
        touched=with_place(found, moved_leads(fault), part),
    )


RULE = Rule("pins-mirrored", Grade.STOP, _check, __doc__, About.MISPLACED)
