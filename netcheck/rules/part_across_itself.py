"""Both leads of a part are on one net.

The part does nothing. An electrolytic or a rectifier is badly missed, and that is STOP; lamps, fuses and other parts
are LOOK.

Wrong:

    electrolytic C1 20 mfd 450 V
    resistor R1 470k
    net B+: C1+, C1-, R1.1
    net ground: R1.2, chassis

Right:

    electrolytic C1 20 mfd 450 V
    resistor R1 470k
    net B+: C1+, R1.1
    net ground: C1-, R1.2, chassis

Source: common practice.
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    circuit = graph.circuit
    # Where `apart` is violated, every part between the two is across itself; that is told once, as not-apart.
    joined = {
        circuit.net_of(a.points[0]) for a in circuit.apart if len({circuit.net_of(p) for p in a.points}) < len(a.points)
    }
    for part in circuit.parts.values():
        leads = graph.terminals(part)
        if len(leads) != 2 or circuit.nets[leads[0]] != circuit.nets[leads[1]] or circuit.nets[leads[0]] in joined:
            continue
        polarised = part.polarity is not None
        net = graph.net_names[circuit.nets[leads[0]]]
        yield Finding(
            f"both leads of {part.name} are on {net}",
            tuple(Label(graph.said_at(at)) for at in leads),
            do="move one of the two leads to where it belongs",
            touched=Touched(leads=tuple(circuit.points[at].name for at in leads), parts=(part.name,), nets=(net,)),
            grade=Grade.STOP if polarised else Grade.LOOK,
        )


RULE = Rule("part-across-itself", Grade.LOOK, _check, __doc__, About.NET | About.ACROSS)
