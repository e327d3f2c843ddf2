"""A point that is marked as bare on purpose is connected to something.

Either the joint or the `spare` line is wrong.

Wrong:

    resistor R1 470k
    resistor R2 470k
    net grid: R1.1, R2.1
    net ground: R1.2, R2.2, chassis
    spare R2.2 "test point"

Right:

    resistor R1 470k
    resistor R2 470k
    net grid: R1.1, R2.1
    net ground: R1.2, chassis
    spare R2.2 "test point"

Source: the file's own word.
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    circuit = graph.circuit
    for statement in circuit.spared:
        for name in statement.points:
            at = circuit.index[name]
            if graph.is_bare(at):
                continue
            net = graph.net_names[circuit.nets[at]]
            yield Finding(
                f"{name} is marked spare but is connected to {net}",
                (Label(graph.said_at(at), "joined here"), Label(statement.place, "marked spare")),
                do="undo the joint, or take the `spare` line out",
                touched=Touched(leads=(name,), parts=(circuit.points[at].part,), nets=(net,)),
            )


RULE = Rule("spare-in-use", Grade.STOP, _check, __doc__, About.NET)
