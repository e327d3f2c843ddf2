"""An electrolytic is the wrong way round for the voltage that this circuit puts across it.

It heats, vents and bursts, some time after it is powered. The plus is not always away from the chassis: in a bias
supply it is at the chassis, and the first capacitor of a cascade doubler is on the line. So the circuit decides.
`proven` holds for any values and for tubes hot or cold; `calculated` rests on what the file states (its currents and
its voltage chart) and says so. Both speak of the set once it runs, on average over each cycle, with switches as they
are `drawn`; where the position of a switch is not said, the verdict has to hold in all of them. The moment of
switching on is not in it: while its capacitors charge, a doubler reverses one of them for half a cycle, and no harm
is known from that. A proof may assume that a grid draws no current; then it names the tube. One that leans on a
rectifier says so: less than its drop, some volts for a selenium stack, may stand across the capacitor either way.
What states no ohms or mfd is in the proof all the same, and on a line below the common `draws` flows out of the common.
A tube that alternating current reaches, through a winding, a resistor or a capacitor, conducts one way like any
rectifier, and is taken as one.

Wrong:

    mains 120 V 60 Hz
    cord P1
    transformer T1
    winding T1 primary black-a black-b 120 V 10 ohm
    winding T1 high red-a red-b 120 V 20 ohm
    diode D1 1000 V 1 A
    electrolytic C1 40 mfd 250 V
    resistor R1 22k 5 W
    net line-a: P1.1, T1.black-a
    net line-b: P1.2, T1.black-b
    net high: T1.red-a, D1.anode
    net B+: D1.cathode, C1-, R1.1
    net ground: chassis, T1.red-b, C1+, R1.2

Right:

    start from "wrong.netck"
    move D1.anode to C1-
    move D1.cathode to T1.red-a

Source: the currents into a point add up to nothing over one cycle of the line (Kirchhoff); polar aluminium
electrolytics must not be reversed, 1 to 1.5 V does no harm for a short time (IEC 60384-4, from memory).
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.electrical.network.supplies import poles
from netcheck.electrical.proof.judgement import HARMLESS_VOLTS, Verdict, graded, is_reversed
from netcheck.engine.headline import fitting
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph

POWERED = "; if it has been powered this way, fit a new one"


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    from netcheck.electrical.polarities import polarities

    wrong = [one for one in polarities(graph).verdicts.values() if is_reversed(one)]
    for verdict in wrong:
        yield from _backwards(graph, verdict, len(wrong))


def _backwards(graph: CircuitGraph, verdict: Verdict, together: int) -> Iterator[Finding]:
    ends = poles(graph, verdict.capacitor)
    name, plus, minus = verdict.capacitor, ends.plus_net, ends.minus_net
    first = f"{together} are reversed together, so check the rectifier first; if that is right, " * (together > 1)
    slight = verdict.volts is not None and verdict.volts[0] > -HARMLESS_VOLTS
    yield Finding(
        fitting(
            f"{name} is in backwards: its plus is on {plus}, but {minus} is the more positive",
            f"{name} is in backwards: its plus is on {plus}",
            f"{name} is in backwards",
        ),
        (
            Label(graph.said_at(ends.plus_at), "the plus"),
            Label(graph.said_at(ends.minus_at), "the minus"),
        ),
        do=f"{first}turn it round: {ends.plus} to {minus}, {ends.minus} to {plus}{POWERED}",
        why=f"{graded(verdict)}; a reversed electrolytic heats, vents and bursts",
        touched=Touched((ends.plus, ends.minus), (name,), tuple(dict.fromkeys((plus, minus)))),
        grade=Grade.LOOK if slight else None,
    )


RULE = Rule("reversed-electrolytic", Grade.STOP, _check, __doc__, About.POLARITY, also_compared=True, burns=True)
