"""A named net has a single lead on it.

A net connects things. One lead alone under a name is a slip of the pen, or the other leads are still to be written. A
net that has lost all its leads to changes is not mentioned.

Wrong:

    resistor R1 470k
    net grid: R1.1
    net ground: R1.2, chassis

Right:

    resistor R1 470k
    resistor R2 470k
    net grid: R1.1, R2.1
    net ground: R1.2, R2.2, chassis

Source: common practice.
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    circuit = graph.circuit
    for net in graph.members:
        if not graph.declared_names(net) or not graph.is_lonely(net):
            continue
        lead = graph.leads_on(net)[0]
        if lead in graph.spared:
            continue
        name = graph.net_names[net]
        yield Finding(
            f"net {name} has only one lead, {graph.spoken(lead)}",
            (Label(graph.said_at(lead)),),
            do="add the other leads of this net, or take the net out",
            touched=Touched((circuit.points[lead].name,), (circuit.points[lead].part,), (name,)),
        )


RULE = Rule("lonely-net", Grade.LOOK, _check, __doc__, About.NET | About.NOT_DONE)
