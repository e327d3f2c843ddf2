"""Two leads of one part changed places: blue and red of a transformer, wiper and end of a control.

Original:

    transformer T1 "output"
    winding T1 primary blue red 250 ohm
    resistor R1 470k
    resistor R2 470k
    resistor R3 470k
    net plate: T1.blue, R1.1, R3.1
    net B+: T1.red, R2.1, R3.2
    net ground: chassis, R1.2, R2.2

Fails:

    start from "original.netck"
    move T1.blue to R2.1
    move T1.red to R1.1

Passes:

    start from "original.netck"
    move T1.blue to R1.1

Source: the original netlist.
"""

from collections.abc import Iterator

from netcheck.compare.describe import fitting, labels, net_name, touched
from netcheck.compare.pair import Pair
from netcheck.compare.panels import exchanged
from netcheck.compare.turnabout import is_turned
from netcheck.core.diagnostic import Severity
from netcheck.core.difference import Exchange
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    for fault in pair.faults:
        if not isinstance(fault, Exchange) or is_turned(pair, fault) is not None:
            continue
        one, other = fault.one.leads[0], fault.other.leads[0]
        belongs, its = net_name(pair, fault.one.old_net), net_name(pair, fault.other.old_net)
        yield Finding(
            fitting(
                f"{one.name} and {other.name} changed places: {one.name} belongs on {belongs}",
                f"{one.name} and {other.name} changed places",
            ),
            labels(pair, fault.one.leads) + labels(pair, fault.other.leads)[:1],
            do=f"exchange them: {one.name} to {belongs}, {other.name} to {its}",
            touched=touched(pair, (one, other), fault.one.old_net, fault.other.old_net),
            panel=exchanged(pair, fault),
        )


RULE = Rule("leads-exchanged", Severity.ERROR, _check, __doc__)
