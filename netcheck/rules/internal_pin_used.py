"""Something is soldered to a pin that the tube uses inside.

A pin marked IC in the tube manual is connected to an electrode or a support inside the envelope. It is not a tie
point: what is soldered there touches something that the drawing does not show. A pin marked NC is free.

Wrong:

    tube V1 6BQ5
    resistor R1 470k
    net tie: V1.1, R1.1
    net rest: R1.2, V1.2, V1.3, V1.4, V1.5, V1.7, V1.9, chassis

Right:

    tube V1 6BQ5
    resistor R1 470k
    net rest: R1.1, V1.2, V1.3
    net ground: R1.2, V1.4, V1.5, V1.7, V1.9, chassis

Source: tube manuals ("internal connection, do not use").
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.kind import Role
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    for at in graph.playing(Role.INTERNAL_PIN):
        if graph.is_bare(at):
            continue
        point, part = graph.point(at), graph.part_of(at)
        kind = part.features.type if part else ""
        yield Finding(
            f"{point.name} is an internal connection of the {kind} and must stay empty",
            (Label(graph.said_at(at)),),
            do="use a free lug as the tie point",
            why="the pin is connected to something inside the envelope",
            touched=Touched(leads=(point.name,), parts=(point.part,)),
        )


RULE = Rule("internal-pin-used", Grade.STOP, _check, __doc__, About.ITSELF)
