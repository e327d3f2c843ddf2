"""A lead is connected to nothing while other leads of its part are in use.

A joint was never made, or a lead hangs free. In a rewired state it is STOP: something is not finished. A lead that is
bare on purpose is marked with `spare`. A section whose lug was lifted with all that hung on it is dead in place, and
is not mentioned.

Wrong:

    resistor R1 470k
    resistor R2 10k
    net grid: R1.1, R2.1
    net ground: chassis, R1.2

Right:

    resistor R1 470k
    resistor R2 10k
    net grid: R1.1, R2.1
    net ground: chassis, R1.2
    spare R2.2 "test point"

Source: common practice: every lead is soldered to something, or cut off.
"""

from collections.abc import Iterator

from netcheck.core.circuit import StateOfWork
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    circuit = graph.circuit
    grade = Grade.STOP if circuit.state is StateOfWork.REWIRED else Grade.LOOK
    replaced = {old for part in circuit.parts.values() for old in part.replaces}
    meant = {name for intent in circuit.intended if intent.verb == "lift" for name in intent.points}
    for part in circuit.parts.values():
        loose = [at for at in graph.loose_leads(part) if circuit.points[at].name not in meant]
        if not loose or part.host or part.name in replaced or len(loose) == len(graph.wanted(part)):
            continue
        names = [graph.spoken(at) for at in loose]
        yield Finding(
            f"{_listed(names)} {'hang' if len(names) > 1 else 'hangs'} free",
            tuple(Label(graph.said_at(at)) for at in loose[:1]),
            do=_order([circuit.points[at].name for at in loose]),
            touched=Touched(leads=tuple(circuit.points[at].name for at in loose), parts=(part.name,)),
            grade=grade,
        )


def _order(names: list[str]) -> str:
    solder = "solder them to their nets" if len(names) > 1 else "solder it to its net"
    return f'{solder}, or write `spare {", ".join(names)} "why"`'


def _listed(names: list[str]) -> str:
    if len(names) > 3:
        return f"{', '.join(names[:3])} and {len(names) - 3} more"
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


RULE = Rule("loose-lead", Grade.LOOK, _check, __doc__, About.JOINTS | About.NOT_DONE)
