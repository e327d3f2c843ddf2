"""A winding, or the line itself, is shorted by rectifiers every half wave.

Where rectifiers stand in a loop that all point one way, with nothing in it but a winding, the winding's whole
short-circuit current flows once a period: the rectifiers, the fuse or the transformer burn within seconds. A bridge
with one diode turned round is such a loop, and so are two diodes in series across a winding, or a full-wave pair of
which one points the other way. It follows from the wiring alone. A resistor below 100 ohm in the loop saves nothing:
it burns first.

Wrong:

    mains 117 V 60 Hz
    cord P1
    transformer T1
    winding T1 primary black-a black-b 117 V
    winding T1 high red-a red-b 250 V 60 ohm
    diode D1 1N4007
    diode D2 1N4007
    diode D3 1N4007
    diode D4 1N4007
    electrolytic C1 40 mfd 450 V
    resistor R1 10k 20 W
    net a: P1.1, T1.black-a
    net b: P1.2, T1.black-b
    net x: T1.red-a, D1.anode, D3.anode
    net y: T1.red-b, D2.anode, D4.cathode
    net B+: D1.cathode, D2.cathode, C1+, R1.1
    net ground: chassis, D3.cathode, D4.anode, C1-, R1.2

Right:

    start from "wrong.netck"
    move D3.anode to D4.anode
    move D3.cathode to T1.red-a

Source: Kirchhoff's voltage law: a winding's volts stand across rectifiers that all conduct, and nothing else.
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import Grade, Label, Touched
from netcheck.core.kind import Family
from netcheck.electrical.network.supplies import is_driven
from netcheck.engine.headline import fitting
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    if not is_driven(graph):
        return
    from netcheck.electrical.shorts import shorts

    for short in graph.once(shorts):
        names = short.rectifiers
        through = " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))
        parts = graph.circuit.parts
        line = parts[short.source].kind.family is Family.CORD
        what = "the line" if line else f"the winding {short.source} {' '.join(short.leads)}"
        yield Finding(
            fitting(f"{what} is shorted through {through} each half wave", f"{what} is shorted through {names[0]}"),
            tuple(Label(parts[name].place, "" if at else "in the loop") for at, name in enumerate(names)),
            do="don't power it: find which of them is turned round, or on the wrong end",
            why="proven (without power): they all point one way round, and nothing in that loop limits the current",
            touched=Touched(parts=(*names, short.source)),
        )


RULE = Rule("winding-shorted", Grade.STOP, _check, __doc__, burns=True)
