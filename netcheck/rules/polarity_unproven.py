"""The circuit does not settle which way round an electrolytic belongs: something could reverse the voltage across it.

That is not a fault, and it is common with grid and bias lines, boost supplies and capacitors between two lines. `why`
names what could reverse it and through what; `do` is the reading that settles it, written as the line to add: measure
on the running set with the meter's plus on the capacitor's plus, and put the volts in. Two readings to the chassis do
not settle a capacitor between two lines; one across the capacitor does. Against an original (`compare`) it is told only
where the original does settle it: whether the part is the same way round as in the original is compared anyway.

Wrong:

    mains 120 V 60 Hz
    cord P1
    transformer T1
    winding T1 primary black-a black-b 120 V 10 ohm
    winding T1 high red-a red-b 120 V 20 ohm
    diode D1 1000 V 1 A
    electrolytic C1 40 mfd 250 V
    electrolytic C2 4 mfd 250 V
    resistor R1 22k
    resistor R2 33k
    resistor R3 47k
    resistor R4 47k
    net line-a: P1.1, T1.black-a
    net line-b: P1.2, T1.black-b
    net high: T1.red-a, D1.anode
    net B+: D1.cathode, C1+, R1.1, R2.1
    net screen-1: R1.2, C2+, R3.1
    net screen-2: R2.2, C2-, R4.1
    net ground: chassis, T1.red-b, C1-, R3.2, R4.2

Right:

    start from "wrong.netck"
    volts C2+ to C2- 12 V

Source: the currents into a point add up to nothing over one cycle of the line (Kirchhoff).
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.electrical.network.supplies import Poles, poles
from netcheck.electrical.proof.judgement import Surety, Verdict, graded
from netcheck.engine.headline import fitting
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph

MOST_READINGS = 2


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    from netcheck.electrical.polarities import polarities

    found = polarities(graph)
    names = found.translation.network.names
    for verdict in found.verdicts.values():
        if verdict.surety is not Surety.UNPROVEN:
            continue
        name = verdict.capacitor
        ends = poles(graph, name)
        yield Finding(
            fitting(
                f"the circuit does not settle {name}'s polarity",
                f"{name}'s polarity is not settled",
            ),
            (Label(graph.said_at(ends.plus_at), "the plus"), Label(graph.said_at(ends.minus_at), "the minus")),
            do=f"once it is safe to run the set, measure it and add `{_statement(names, verdict, ends)}`",
            why=graded(verdict),
            touched=Touched((ends.plus, ends.minus), (name,), tuple(dict.fromkeys((ends.plus_net, ends.minus_net)))),
        )


def _statement(names: tuple[str, ...], verdict: Verdict, ends: Poles) -> str:
    """The readings asked for; across the capacitor itself by the names of its leads."""
    across = f"volts {ends.plus} to {ends.minus} ... V"
    others = [f"volts {names[plus]} to {names[minus]} ... V" for plus, minus in verdict.settles[1:MOST_READINGS]]
    return "` and `".join((across, *others))


RULE = Rule("polarity-unproven", Grade.NOTE, _check, __doc__, About.POLARITY | About.DESIGN)
