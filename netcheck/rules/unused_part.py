"""No lead of a part is connected to anything.

It was listed and then forgotten, or its joints were never made. A part that another one `replaces` may stay in place
dead; a part that is bare on purpose is marked with `spare`.

Wrong:

    resistor R1 470k
    resistor R2 10k
    net grid: R1.1, chassis
    net top: R1.2, chassis

Right:

    resistor R1 470k
    resistor R2 10k
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
    replaced = {old for part in circuit.parts.values() for old in part.replaces}
    for part in circuit.parts.values():
        loose = graph.loose_leads(part)
        if not loose or part.host or part.name in replaced:
            continue
        leads = graph.wanted(part)
        if len(loose) == len(leads):
            yield Finding(
                f"{part.name} is listed but connected to nothing",
                (Label(part.place),),
                do=f"write where its leads go, or take {part.name} out",
                touched=Touched(
                    leads=tuple(circuit.points[at].name for at in leads),
                    parts=(part.name,),
                ),
            )


RULE = Rule("unused-part", Grade.LOOK, _check, __doc__, About.JOINTS | About.NOT_DONE)
