"""A replaced part is still wired in, in parallel with the new one.

The old can "still reads", so it stays. It leaks, hums, and takes the new part with it. Lift its lug, or take
it out.

Original:

    electrolytic C1 20 mfd 450 V
    resistor R1 22k
    net B+: C1+, R1.1
    net ground: chassis, C1-, R1.2

Fails:

    start from "original.netck"
    electrolytic C51 22 mfd 500 V plus C1+ minus C1- replaces C1

Passes:

    start from "original.netck"
    lift C1+
    electrolytic C51 22 mfd 500 V plus R1.1 minus C1- replaces C1

Source: common practice of the trade.
"""

from collections.abc import Iterator

from netcheck.compare.describe import listed
from netcheck.compare.pair import Pair
from netcheck.compare.panels import part_only
from netcheck.core.diagnostic import Label, Severity, Touched
from netcheck.core.panel import Mark
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    graph = pair.real
    for part in pair.pairing.dead:
        points = graph.terminals(part)
        nets = {graph.circuit.nets[at] for at in points}
        live = [net for net in nets if any(graph.point(at).part != part.name for at in graph.leads_on(net))]
        if len(points) < 2 or len(live) < 2:
            continue
        new = next((p for p in graph.circuit.parts.values() if part.name in p.replaces), part)
        names = sorted((graph.net_names[net] for net in live), key=lambda name: (name == "chassis", name))
        yield Finding(
            f"{part.name} is still wired in across {listed(names)}, although {new.name} replaces it",
            (Label(new.place, "replaces it"), Label(part.place, "the old one")),
            do=f"lift one end of {part.name}, or write `remove {part.name}` when it is out",
            why="an old electrolytic in parallel leaks, hums and takes the new one with it",
            touched=Touched(tuple(graph.point(at).name for at in points), (part.name, new.name), tuple(names)),
            panel=part_only(pair, part, old=False, mark=Mark.TAKE_OFF),
        )


RULE = Rule("dead-section-in-circuit", Severity.ERROR, _check, __doc__)
