"""A lead, or a group of leads on one lug, left its net and sits on another one.

The commonest slip under a chassis: two lugs look alike from below, and the drawing is seen from above. The
finding names the lead, the lug where it is, and the lug where it belongs.

Original:

    resistor R1 470k
    resistor R2 470k
    resistor R3 10k
    capacitor C1 .02 mfd
    net grid-5: R1.1, C1.2, R3.1
    net grid-6: R2.1, R3.2
    net ground: chassis, R1.2, R2.2, C1.1

Fails:

    start from "original.netck"
    strip SP1 3 lugs
    at SP1.1: R1.1
    at SP1.2: R2.1
    move C1.2 to SP1.2

Passes:

    start from "original.netck"
    strip SP1 3 lugs
    at SP1.1: R1.1
    at SP1.2: R2.1
    move C1.2 to SP1.1

Source: the original netlist.
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
from netcheck.core.circuit import How, Join
from netcheck.core.diagnostic import Severity
from netcheck.core.difference import Move
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    known = references(pair)
    for fault in pair.faults:
        if isinstance(fault, Move) and not {fault.old_net, fault.wrong_net} <= known:
            yield _finding(pair, fault)


def _finding(pair: Pair, fault: Move) -> Finding:
    names = [lead.name for lead in fault.leads]
    right, wrong = net_name(pair, fault.old_net), net_name(pair, fault.wrong_net)
    it, verb, belong = ("it", "is", "belongs") if len(names) == 1 else ("they", "are", "belong")
    place = here(pair, fault.leads[0])
    place = "" if place == wrong else place
    return Finding(
        fitting(
            f"{listed(names)} {verb} on {wrong}{f' ({place})' if place else ''}; {it} {belong} on {right}",
            f"{listed(names)} {verb} on {wrong}; {it} {belong} on {right}",
            f"{listed(names, 2)} {verb} on {wrong} instead of {right}",
        ),
        labels(pair, fault.leads),
        do=_instruction(pair, fault),
        touched=touched(pair, fault.leads, fault.old_net, fault.wrong_net),
        panel=moved(pair, fault),
    )


def _instruction(pair: Pair, fault: Move) -> str:
    graph = pair.rewired
    site = graph.site(fault.leads[0].new)
    target = belongs_at(pair, fault.home, site)
    where = placed(pair, target, fault.old_net)
    on_lug = not graph.point(site).net_name
    if len(fault.leads) > 1:
        start = graph.spoken(site) if on_lug else fault.leads[0].name
        return f"take off {undoing(pair, fault.culprits)}; join {start} to {where}"
    exchanged = _or_exchanged(pair, fault)
    if not on_lug or site == fault.leads[0].new:
        return f"take off {undoing(pair, fault.culprits)}; join {fault.leads[0].name} to {where}{exchanged}"
    hint = ", the lug beside it" if target in graph.beside(site) else ""
    wires = _wires(fault)
    other = f"; or, if the wire is astray, take off {undoing(pair, wires)}" if wires else ""
    return f"move {fault.leads[0].name} from {graph.spoken(site)} to {where}{hint}{other}{exchanged}"


def _or_exchanged(pair: Pair, fault: Move) -> str:
    """The two leads that may have changed places instead: one lead is left on the right net, one on the wrong."""
    old, new = pair.original.circuit.nets, pair.rewired.circuit.nets
    leads = [lead for lead in pair.pairing.leads if lead not in fault.leads]
    stayed = [lead for lead in leads if new[lead.new] == fault.home and old[lead.old] == fault.old_net]
    there = [lead for lead in leads if new[lead.new] == fault.new_net and old[lead.old] == fault.wrong_net]
    if len(stayed) != 1 or len(there) != 1 or not (stayed[0].part and there[0].part):
        return ""
    parts = pair.rewired.circuit.parts
    one, other = parts[stayed[0].part], parts[there[0].part]
    return f"; or {stayed[0].name} and {there[0].name} changed places" if one.kind is other.kind else ""


def _wires(fault: Move) -> list[Join]:
    """The wires among the culprits that are not soldered to the lead itself."""
    own = {lead.new for lead in fault.leads}
    return [join for join in fault.culprits if join.how is How.WIRE and own.isdisjoint((join.a, join.b))]


RULE = Rule("lead-on-wrong-net", Severity.ERROR, _check, __doc__)
