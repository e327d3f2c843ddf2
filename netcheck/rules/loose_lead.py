"""A lead that is joined to nothing while other leads of its part are in use.

A joint that was never made, or a lead that hangs free. In a rewired state it is STOP: something is not
finished. A lead that is bare on purpose is declared with ``spare``. A section whose lug was lifted as a bundle
is dead in place and silent.

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
from netcheck.core.diagnostic import Grade, Label, Touched
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
            do=f'solder it to its net, or write `spare {circuit.points[loose[0]].name} "why"`',
            touched=Touched(leads=tuple(circuit.points[at].name for at in loose), parts=(part.name,)),
            grade=grade,
        )


def _listed(names: list[str]) -> str:
    shown = ", ".join(names[:3])
    return shown if len(names) <= 3 else f"{shown} and {len(names) - 3} more"


RULE = Rule("loose-lead", Grade.LOOK, _check, __doc__)
