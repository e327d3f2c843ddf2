"""A fuse in the line is rated for less than the set takes.

It opens after minutes or at the first switch-on, and then somebody bridges it with foil. What the set takes is
computed from its running supply and its heaters, with a margin for what is not known; where that can't be done the
fuse is not judged.

Wrong:

    mains 117 V 60 Hz
    common B-
    cord P1
    fuse F1 100 mA
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

Source: the effective current heats a fuse; computed. One and a half times to twice the running current, common
practice.
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension
from netcheck.core.wording import significant
from netcheck.electrical.fuses import fuse_for
from netcheck.electrical.network.supplies import is_driven
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph

FAR = 1.2  # times a part's rating, from which something in the set draws too much


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    if not graph.circuit.has(Family.FUSE) or not is_driven(graph):
        return
    from netcheck.electrical.drawn import drawn
    from netcheck.electrical.duties import duties
    from netcheck.electrical.shorts import shorts

    taken = None if graph.once(shorts) else graph.once(drawn)  # a fuse is there to open on a short
    wrong = taken is not None and any(one.share > FAR for one in duties(graph))
    for part in taken.fuses if taken else ():
        said = part.features.first(Dimension.CURRENT)
        if said is None or taken is None or float(said.amount) >= taken.least:
            continue
        yield Finding(
            f"{part.name} is a {' '.join(said.written.split())} fuse "
            f"in a set that takes about {significant(taken.about, 2)} A",
            (Label(part.place),),
            do="find what draws so much, and fit no larger fuse before"
            if wrong
            else f"fit a fuse for {fuse_for(taken.about):g} A, slow",
            why=f"computed: at least {significant(taken.least, 2)} A; it opens, though nothing is wrong",
            touched=Touched(parts=(part.name,)),
        )


RULE = Rule("fuse-too-small", Grade.LOOK, _check, __doc__, About.DESIGN)
