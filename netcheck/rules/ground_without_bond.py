"""A net is called ground, but nothing connects it to the chassis or the common.

What returns to it only looks grounded: it floats, with hum or the full supply voltage across parts that should have
none. Names that say ground are `ground`, `gnd` and `earth`, also with a number or a word after them.

Wrong:

    electrolytic C1 20 mfd 450 V
    resistor R1 22k
    net B+: C1+, R1.1
    net ground: C1-, R1.2

Right:

    electrolytic C1 20 mfd 450 V
    resistor R1 22k
    net B+: C1+, R1.1
    net ground: C1-, R1.2, chassis

Source: common practice.
"""

import re
from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph

_GROUND = re.compile(r"(ground|gnd|earth)([-_ ]?\w*)?$", re.IGNORECASE)


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    circuit = graph.circuit
    bonded = {circuit.nets[0], circuit.net_of(circuit.common)}
    earths = {
        circuit.nets[at] for at, point in enumerate(circuit.points) if point.terminal and point.terminal.name == "earth"
    }
    for net in graph.members:
        names = [name for name in graph.declared_names(net) if _GROUND.match(name)]
        if not names or net in bonded | earths or not graph.leads_on(net):
            continue
        lead = graph.leads_on(net)[0]
        yield Finding(
            f"net {names[0]} is not connected to the chassis",
            (Label(graph.said_at(lead)),),
            do="connect it to the chassis, a foot or a grounded lug; "
            f"if it is meant to be apart, write `common {names[0]}`",
            why="this ground leads nowhere: it hums, or puts full voltage across a part",
            touched=Touched(nets=tuple(names)),
        )


RULE = Rule("ground-without-bond", Grade.STOP, _check, __doc__, About.ITSELF)
