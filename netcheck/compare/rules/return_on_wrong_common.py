"""A return is on the chassis where it belongs on the common, or the other way round.

The negative bus of a set is not always its chassis. A return on the wrong one means hum, a lost bias voltage,
or one side of the mains on the chassis.

Original:

    common B-
    electrolytic C1 40 mfd 150 V
    resistor R1 220k
    resistor R2 33 ohm
    net B+: C1+, R2.1
    net B-: C1-, R1.1
    net ground: chassis, R1.2, R2.2

Fails:

    start from "original.netck"
    strip SP1 3 lugs foot 2
    move C1- to SP1.2

Passes:

    start from "original.netck"
    strip SP1 3 lugs foot 2
    at SP1.1: R1.1
    move C1- to SP1.1

Source: the original netlist; common practice for sets whose B- is apart from the chassis.
"""

from collections.abc import Iterator

from netcheck.compare.describe import (
    belongs_at,
    fitting,
    here,
    labels,
    listed,
    net_name,
    placed,
    touched,
    undoing,
)
from netcheck.compare.pair import Pair
from netcheck.compare.panels import moved
from netcheck.compare.reference import references
from netcheck.core.diagnostic import Severity
from netcheck.core.difference import Move
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    known = references(pair)
    for fault in pair.faults:
        if isinstance(fault, Move) and {fault.old_net, fault.wrong_net} <= known:
            yield _finding(pair, fault)


def _finding(pair: Pair, fault: Move) -> Finding:
    names = [lead.name for lead in fault.leads]
    right, wrong = net_name(pair, fault.old_net), net_name(pair, fault.wrong_net)
    place = here(pair, fault.leads[0])
    place = "" if place == wrong else place
    graph = pair.rewired
    site = graph.site(fault.leads[0].new)
    target = belongs_at(pair, fault.home, site)
    where = placed(pair, target, fault.old_net)
    hint = ", the lug beside it" if target in graph.beside(site) else ""
    it, verb = ("it", "returns") if len(names) == 1 else ("them", "return")
    return Finding(
        fitting(
            f"{listed(names)} {verb} to {wrong}{f' ({place})' if place else ''}; the original returns {it} to {right}",
            f"{listed(names, 2)} {verb} to {wrong} instead of {right}",
        ),
        labels(pair, fault.leads),
        do=f"take {undoing(pair, fault.culprits)}; solder {it} to {where}{hint}",
        why="hum or lost bias; in a set without a power transformer, mains on the chassis",
        touched=touched(pair, fault.leads, fault.old_net, fault.wrong_net),
        panel=moved(pair, fault),
    )


RULE = Rule("return-on-wrong-common", Severity.ERROR, _check, __doc__)
