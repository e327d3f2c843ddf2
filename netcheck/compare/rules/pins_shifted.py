"""A socket or strip is wired one pin or lug on: everything there is well soldered, but one place too far.

The pins were counted from the wrong side of the key, or the first lug was missed, so everything is on the next one. It
is one slip, so it is told once.

Original:

    tube V1 6SN7GT
    resistor R1 47k
    resistor R2 1k
    resistor R3 1 meg
    resistor R4 100k
    net plate: V1.2, R1.1
    net cathode: V1.3, R2.1
    net grid: V1.1, R3.1
    net other: V1.5, R4.1
    net ground: chassis, V1.4, V1.6, V1.7, V1.8, R1.2, R2.2, R3.2, R4.2

Wrong:

    parts from "original.netck"
    strip SP1 2 lugs foot 1
    at V1.3: R1.1
    at V1.4: R2.1
    at V1.2: R3.1
    at V1.6: R4.1
    at SP1.1: R1.2, R2.2, R3.2, R4.2, V1.5, V1.7, V1.8, V1.1

Right:

    parts from "original.netck"
    strip SP1 2 lugs foot 1
    at V1.2: R1.1
    at V1.3: R2.1
    at V1.1: R3.1
    at V1.5: R4.1
    at SP1.1: R1.2, R2.2, R3.2, R4.2, V1.4, V1.6, V1.7, V1.8

Source: the original; pins are numbered clockwise from the key, seen from below (tube manuals).
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import labels, said_first, touched, with_place
from netcheck.compare.words.orders import moved_leads, pin_by_pin
from netcheck.core.diagnostic import About, Grade
from netcheck.core.difference import Rearranged, Way
from netcheck.core.kind import Family
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    for fault in pair.faults:
        if isinstance(fault, Rearranged) and fault.way is Way.SHIFTED:
            yield _finding(pair, fault)


def _finding(pair: Pair, fault: Rearranged) -> Finding:
    part = pair.as_shown.circuit.parts[fault.parts[0]]
    lug = "pin" if part.kind.seat.has_pins else "lug"
    thing = f"the socket of {part.name}" if part.kind.family is Family.TUBE else f"the {part.kind.word} {part.name}"
    leads = [lead for swap in fault.swaps for lead in swap.leads]
    leads.sort(key=lambda lead: said_first(pair, lead))
    found = touched(pair, leads, *dict.fromkeys(swap.old_net for swap in fault.swaps))
    return Finding(
        f"{thing} is wired one {lug} on",
        labels(pair, leads),
        do=pin_by_pin(pair, fault, part),
        mends=fault.mends,
        why=f"everything soldered there is on the {lug} beside its own",
        touched=with_place(found, moved_leads(fault), part),
    )


RULE = Rule("pins-shifted", Grade.STOP, _check, __doc__, About.MISPLACED)
