"""An electrolytic carries more ripple current than it is rated for.

The current that charges and empties a filter capacitor heats it. A capacitor that states its ripple current
(`electrolytic C1 47 mfd 450 V 300 mA`) is held against what flows in the running set: more is STOP in a planned or
rewired state, more than four fifths of it LOOK. One that does not state it is not judged. The first capacitor after the
rectifier gets the most, above all in a doubler.

Wrong:

    mains 117 V 60 Hz
    cord P1
    transformer T1
    winding T1 primary black-a black-b 117 V 10 ohm
    winding T1 high red-a red-b 117 V 20 ohm
    diode D1 1N4007
    resistor R1 33 ohm 10 W
    electrolytic C1 47 mfd 250 V 100 mA
    resistor R2 1.5k 20 W
    net line-a: P1.1, T1.black-a
    net line-b: P1.2, T1.black-b
    net high: T1.red-a, R1.1
    net rect: R1.2, D1.anode
    net B+: D1.cathode, C1+, R2.1
    net ground: chassis, T1.red-b, C1-, R2.2

Right:

    start from "wrong.netck"
    change C1 47 mfd 250 V 400 mA

Source: effective current computed for the running set; ripple current as a rating, IEC 60384-4, from memory.
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.electrical.network.supplies import is_driven
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    if not is_driven(graph):
        return
    from netcheck.electrical.duties import Demand
    from netcheck.electrical.overload import Degree, overloads

    for one in overloads(graph, {Demand.RIPPLE}):
        seen, rated = (f"{amperes * 1000:.0f} mA" for amperes in (one.duty.seen, one.duty.rated))
        yield Finding(
            f"{one.part.name} is rated {rated} of ripple current and gets {seen}",
            (Label(one.part.place),),
            do=f"fit one that is rated {one.duty.seen * 1250:.0f} mA or more",
            why=f"calculated (running): {one.duty.of_rating}; it heats up and dries out",
            touched=Touched(parts=(one.part.name,)),
            grade=Grade.STOP if one.degree is Degree.BURNS else Grade.LOOK,
        )


RULE = Rule("ripple-too-high", Grade.STOP, _check, __doc__, About.RATING | About.LOAD)
