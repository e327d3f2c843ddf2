"""A fuse in the line lets through many times what the set takes.

A fuse protects the transformer and the house only if a fault blows it: common practice is one and a half times to twice
what the set takes, slow where a transformer or an empty capacitor is switched on. More than ten times is no protection:
STOP in a planned or rewired state, LOOK in a drawing; more than five times is LOOK. What the set takes is
computed from its running supply and its heaters; where that can't be done the fuse is not judged.

Wrong:

    mains 117 V 60 Hz
    common B-
    cord P1
    fuse F1 20 A
    diode D1 1N4007
    resistor R1 33 ohm 10 W
    electrolytic C1 47 mfd 250 V
    resistor R2 2.2k 20 W
    net in: P1.1, F1.1
    net line: F1.2, R1.1
    net rect: R1.2, D1.anode
    net B+: D1.cathode, C1+, R2.1
    net B-: P1.2, C1-, R2.2

Right:

    start from "wrong.netck"
    change F1 1/2 A slow

Source: a fuse of one and a half times to twice the running current, common practice; the current is computed.
"""

from collections.abc import Iterator

from netcheck.core.circuit import StateOfWork
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension
from netcheck.core.wording import significant
from netcheck.electrical.fuses import fuse_for
from netcheck.electrical.network.supplies import is_driven
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph

FAR, USELESS = 5.0, 10.0  # times what the set takes at most
LEAST = 0.2  # amperes: of a set that takes less, a fuse of 1 A is the usual one


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    if not graph.circuit.has(Family.FUSE) or not is_driven(graph):
        return
    from netcheck.electrical.drawn import drawn
    from netcheck.electrical.shorts import shorts

    taken = None if graph.once(shorts) else graph.once(drawn)  # a fuse is there to open on a short
    for part in taken.fuses if taken else ():
        said = part.features.first(Dimension.CURRENT)
        share = float(said.amount) / max(taken.most, LEAST) if said and taken else 0.0
        if said is None or taken is None or share <= FAR:
            continue
        built = graph.circuit.state in (StateOfWork.DRAWN, StateOfWork.FOUND)
        yield Finding(
            f"{part.name} is a {' '.join(said.written.split())} fuse "
            f"in a set that takes about {significant(taken.about, 2)} A",
            (Label(part.place),),
            do=f"fit a fuse for {fuse_for(taken.about):g} A, slow",
            why=f"computed: at most {significant(taken.most, 2)} A; "
            "a shorted rectifier burns the set before such a fuse opens",
            touched=Touched(parts=(part.name,)),
            grade=Grade.STOP if share > USELESS and not built else Grade.LOOK,
        )


RULE = Rule("fuse-too-large", Grade.STOP, _check, __doc__, About.DESIGN)
