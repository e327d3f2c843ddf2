"""An electrolytic is backwards for a while after switching on, though the running set has it right.

It lies between two lines, and the line on its minus is the first to come up: the other charges through resistors, or is
high only once the tubes draw current from the first. Or it is the first capacitor of a doubler and far smaller than the
next: every other half wave turns it round until the next is up to the peak of the line. Each time the set is switched
on the capacitor is reversed until that is over. The set is computed with everything discharged before and cold tubes
that draw nothing, on a line 10 % high. It is told from more than 1.5 V backwards for longer than a cycle of the line in
all, parts of cycles added up: a rectifier's own drop, 0.7 V, does no harm, and every doubler turns a capacitor round
for part of a cycle and has always been built that way (where nothing is lost, 0.5 of a cycle with two equal capacitors,
0.8 with one half as large, 1.6 with a fifth). From a second on the capacitor heats, each time (STOP; LOOK where the set
was made so).

Wrong:

    mains 120 V 60 Hz
    cord P1
    transformer T1
    winding T1 primary black-a black-b 120 V 10 ohm
    winding T1 low green-a green-b 100 V 20 ohm
    winding T1 high red-a red-b 150 V 50 ohm
    diode D1 1000 V 1 A
    diode D2 1000 V 1 A
    electrolytic C1 40 mfd 250 V
    electrolytic C2 40 mfd 350 V
    electrolytic C3 10 mfd 250 V
    resistor R1 10k 5 W
    resistor R2 47k 2 W
    net line-a: P1.1, T1.black-a
    net line-b: P1.2, T1.black-b
    net low: T1.green-a, D1.anode
    net high: T1.red-a, D2.anode
    net fast: D1.cathode, C1+, C3-, R2.1
    net rectified: D2.cathode, R1.1
    net slow: R1.2, C2+, C3+
    net ground: chassis, T1.green-b, T1.red-b, C1-, C2-, R2.2
    draws fast 5 mA

Right:

    start from "wrong.netck"
    move C3- to C1-

Source: polar aluminium parts bear 1 to 1.5 V in reverse for a short time (IEC 60384-4, from memory).
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from netcheck.core.circuit import StateOfWork
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.wording import significant
from netcheck.electrical.network.supplies import is_driven, poles
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph

if TYPE_CHECKING:
    from netcheck.electrical.running.coming_up import Reversal

HEATS = 1.0  # seconds backwards from which a capacitor heats, and does not only draw a pulse of current (practice)

_SLOWER = "fit a film or non-polarized capacitor there, or slow the line that comes up first"
_LARGER = "fit a film or non-polarized capacitor there, or one as large as what it charges"


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    if not is_driven(graph):
        return
    from netcheck.electrical.starting import reversed_while_starting

    built = graph.circuit.state in (StateOfWork.DRAWN, StateOfWork.FOUND)
    for one in reversed_while_starting(graph):
        ends = poles(graph, one.name)
        time = "until the tubes draw current" if one.lasting else f"for {significant(one.seconds, 2)} s"
        heats = one.lasting or one.seconds >= HEATS
        yield Finding(
            f"{one.name} is reversed after switching on: up to {significant(one.volts, 3)} V, {time}",
            (Label(graph.said_at(ends.plus_at), "the plus"), Label(graph.said_at(ends.minus_at), "the minus")),
            do=_LARGER if one.rides else _SLOWER,
            why=f"calculated (cold tubes, line 10 % high): {ends.minus_net} is above {ends.plus_net} {_when(one)}",
            touched=Touched(
                (ends.plus, ends.minus), (one.name,), tuple(dict.fromkeys((ends.plus_net, ends.minus_net)))
            ),
            grade=Grade.STOP if heats and not built else Grade.LOOK,
        )


def _when(one: "Reversal") -> str:
    return "for a part of each of the first cycles" if one.rides else "at first"


RULE = Rule("reversed-at-switch-on", Grade.STOP, _check, __doc__, About.POLARITY)
