"""Two named nets are joined, so they are one net.

Two names for one net are usually a bridge on paper: the same lead written in two nets, or a wire between them. If it is
meant, one name is enough.

Wrong:

    resistor R1 470k
    resistor R2 47k
    net B+1: R1.1, R2.1
    net B+2: R2.1, chassis
    net ground: R1.2, chassis

Right:

    resistor R1 470k
    resistor R2 47k
    net B+1: R1.1, R2.1
    net ground: R1.2, R2.2, chassis

Source: common practice.
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    circuit = graph.circuit
    meant = {intent.place for intent in circuit.intended}
    apart = {frozenset(a.points) for a in circuit.apart}
    for net in graph.members:
        names = graph.declared_names(net)
        if len(names) < 2:
            continue
        if any(pair <= {*names, "chassis"} for pair in apart):
            continue
        first, second = (circuit.index[name] for name in names[:2])
        cut = graph.cheapest_cut((first,), (second,))
        if any(join.statement in meant for join in cut):
            continue
        labels = tuple(Label(join.place, "joins them") for join in cut[:1])
        yield Finding(
            f"nets {names[0]} and {names[1]} are joined, so they are one net",
            (*labels, Label(graph.said_at(second))),
            do="use one name for both, or undo the joint",
            touched=Touched(nets=names),
        )


RULE = Rule("two-names", Grade.LOOK, _check, __doc__, About.NET | About.NAMES)
