"""An electrolytic is reversed for part of every cycle: its ripple is larger than the direct voltage on it.

On average it may be the right way round, and it heats and vents all the same. It happens to one across alternating
current (a winding, the line), and in a supply that is starved: a doubler whose capacitors are too small for what is
drawn. The running set is computed with the currents that the file states and the usual ones of its tubes; the voltage
at the lowest point of a cycle counts. That a doubler reverses a capacitor in the first half cycle after switching on
does no harm and is not told, nor are two back to back, which have no polarity together.

Wrong:

    mains 120 V 60 Hz
    cord P1
    transformer T1
    winding T1 primary black-a black-b 120 V 10 ohm
    winding T1 high red-a red-b 120 V 20 ohm
    diode D1 1000 V 1 A
    electrolytic C1 40 mfd 250 V
    electrolytic C2 8 mfd 250 V
    resistor R1 22k 5 W
    resistor R2 1k 20 W
    net line-a: P1.1, T1.black-a
    net line-b: P1.2, T1.black-b
    net high: T1.red-a, D1.anode, R2.1
    net x: R2.2, C2+
    net B+: D1.cathode, C1+, R1.1
    net ground: chassis, T1.red-b, C1-, R1.2, C2-

Right:

    start from "wrong.netck"
    move R2.1 to C1+

Source: polar aluminium parts bear 1 to 1.5 V in reverse for a short time (IEC 60384-4, from memory).
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.wording import significant
from netcheck.electrical.network.supplies import is_driven, poles
from netcheck.electrical.proof.judgement import WayRound
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    if not is_driven(graph):
        return
    from netcheck.electrical.study import judged, known

    found, ways = known(graph), judged(graph)
    for duty in found.capacitors if found is not None else ():
        verdict = ways.get(duty.name)
        if verdict is None or verdict.way is not WayRound.BOTH:
            continue
        ends, seen = poles(graph, duty.name), duty.volts
        low, high, mean, swing = (significant(each, 3) for each in (seen.low, seen.high, seen.mean, seen.swing))
        yield Finding(
            f"{duty.name} is reversed in every cycle: from {low} to {high} V",
            (Label(graph.said_at(ends.plus_at), "the plus"), Label(graph.said_at(ends.minus_at), "the minus")),
            do="take it off alternating current; in a supply, fit more capacitance or draw less",
            why=f"calculated (running): {mean} V on average, {swing} V of ripple on it",
            touched=Touched(
                (ends.plus, ends.minus), (duty.name,), tuple(dict.fromkeys((ends.plus_net, ends.minus_net)))
            ),
        )


RULE = Rule("reversed-by-ripple", Grade.STOP, _check, __doc__, About.POLARITY)
