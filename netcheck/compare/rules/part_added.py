"""A part of the rewired state that the original does not have, and that does not say what it is there for.

It ``replaces`` an old part, is ``inserted "why"`` in series where a joint was, or ``added "why"`` across two
nets.

Original:

    resistor R1 470k
    resistor R2 10k
    net grid: R1.1, R2.1
    net ground: chassis, R1.2, R2.2

Wrong:

    start from "original.netck"
    resistor R3 220k from R1.1 to chassis

Right:

    start from "original.netck"
    resistor R3 220k from R1.1 to chassis added "bleeder"

Source: the original netlist.
"""

from collections.abc import Iterator

from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import listed, net_at
from netcheck.compare.words.panels import part_only
from netcheck.core.diagnostic import Grade, Label, Touched
from netcheck.core.panel import Mark
from netcheck.engine.rule import Finding, Rule


def _check(pair: Pair) -> Iterator[Finding]:
    graph = pair.real
    for part in pair.pairing.extra:
        points = graph.terminals(part)
        nets = list(dict.fromkeys(net_at(pair, at) for at in points))
        yield Finding(
            f"{part.name} is not in the original; it is on {listed(nets)}",
            (Label(part.place),),
            do='say what it is there for: `replaces PART`, `inserted "why"` or `added "why"`; or take it out',
            mends=pair.whole.get(part.name, ()),
            touched=Touched(tuple(graph.point(at).name for at in points), (part.name,), tuple(nets)),
            panel=part_only(pair, part, old=False, mark=Mark.OFF),
        )


RULE = Rule("part-added", Grade.STOP, _check, __doc__)
