"""The shell pin of a metal tube, or the frame of a part, is not on the chassis or the common.

The whole envelope then has that voltage, and a finger finds it.

Wrong:

    tube V1 6SJ7
    resistor R1 470k
    net B+: V1.1, V1.8, R1.1
    net ground: R1.2, V1.2, V1.3, V1.4, V1.5, V1.6, V1.7, chassis

Right:

    tube V1 6SJ7
    resistor R1 470k
    net B+: V1.8, R1.1
    net ground: R1.2, V1.1, V1.2, V1.3, V1.4, V1.5, V1.6, V1.7, chassis

Source: tube manuals (pin 1 is the shell of metal types).
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.kind import Family, Role
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph

_TUBE = ("shell", "connect the shell pin to the chassis, or leave it empty")
_FRAME = ("frame", "connect it to the chassis, and to nothing else")


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    circuit = graph.circuit
    safe = {circuit.nets[0], circuit.net_of(circuit.common)}
    for at in graph.playing(Role.SHELL):
        point, part = graph.point(at), graph.part_of(at)
        if part is None or graph.is_bare(at) or circuit.nets[at] in safe:
            continue
        metal, do = _TUBE if part.kind.family is Family.TUBE else _FRAME
        net = graph.net_names[circuit.nets[at]]
        there = "not on the chassis" if net.startswith(point.name) else f"on {net}"  # a net may go by the pin itself
        yield Finding(
            f"the {metal} of {point.part} ({point.name}) is {there}",
            (Label(graph.said_at(at)),),
            do=do,
            why="whoever touches it touches that voltage",
            touched=Touched(leads=(point.name,), parts=(point.part,), nets=(net,)),
        )


RULE = Rule("live-shell", Grade.LOOK, _check, __doc__, About.ITSELF, burns=True)
