"""A resistor gets more heat, or more volts, than it is rated for.

Its heat is worked out from the running set: a resistor ahead of the first filter capacitor is heated by pulses, several
times as much as the direct current alone would. In a planned or rewired state more than the rating is STOP, more than
four fifths of it LOOK: a resistor rated in free air runs in a hot chassis, and is run at half its watts by good
practice. In a drawing, or as found, it is LOOK: the set was made that way. A composition resistor takes only so many
volts, however cool it runs: 250 V for 1/4 W, 350 V for 1/2 W, 500 V for 1 W. A resistor that does not state its watts
is not judged.

Wrong:

    mains 117 V 60 Hz
    cord P1
    transformer T1
    winding T1 primary black-a black-b 117 V 10 ohm
    winding T1 high red-a red-b 117 V 20 ohm
    diode D1 1N4007
    resistor R1 47 ohm 1/2 W
    electrolytic C1 47 mfd 250 V
    resistor R2 2.7k 20 W
    net line-a: P1.1, T1.black-a
    net line-b: P1.2, T1.black-b
    net high: T1.red-a, R1.1
    net rect: R1.2, D1.anode
    net B+: D1.cathode, C1+, R2.1
    net ground: chassis, T1.red-b, C1-, R2.2

Right:

    start from "wrong.netck"
    change R1 47 ohm 5 W

Source: watts are the effective current squared, times ohms; volts of composition resistors,
studylib.net/doc/18037366; half the watts in use, common practice.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.kind import Family
from netcheck.core.wording import significant
from netcheck.electrical.network.supplies import is_driven
from netcheck.engine.headline import fitting
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph
from netcheck.parts.made import RESISTOR_WATTS, next_made

if TYPE_CHECKING:
    from netcheck.electrical.overload import Overload


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    if not is_driven(graph) and not graph.circuit.has(Family.CORD):
        return
    from netcheck.electrical.duties import Demand
    from netcheck.electrical.overload import Degree, overloads

    told = set[str]()
    for one in sorted(overloads(graph, {Demand.WATTS, Demand.VOLTS}), key=lambda each: -each.duty.share):
        if one.part.name in told:
            continue
        told.add(one.part.name)
        heat = one.duty.asked is Demand.WATTS
        yield Finding(
            _headline(one, heat=heat),
            (Label(one.part.place),),
            do=_fit(one.duty.seen)
            if heat
            else "fit two of half the ohms in series, or one that is rated for the volts",
            why=_why(one, heat=heat),
            touched=Touched(parts=(one.part.name,)),
            grade=Grade.STOP if one.degree is Degree.BURNS else Grade.LOOK,
        )


def _headline(one: "Overload", *, heat: bool) -> str:
    name, seen, rated = one.part.name, one.duty.seen, one.duty.rated
    if heat:
        return fitting(f"{name} is rated {rated:g} W and gets {significant(seen, 2)} W of heat")
    return fitting(f"{name} is rated {rated:.0f} V and has {seen:.0f} V across it")


def _fit(watts: float) -> str:
    """Twice the heat, as sold: half its rating is what a resistor is run at."""
    least = next_made(2 * watts, RESISTOR_WATTS)
    if least is None:
        return "share the heat among several resistors, or find what draws so much"
    return f"fit {least:g} W or more{', wirewound or flameproof' if least > 2 else ''}"


def _why(one: "Overload", *, heat: bool) -> str:
    if not heat:
        return "calculated (running): a composition resistor of this size breaks down along its length"
    usual = "" if one.duty.surely else ", with the tubes' usual currents, which are not stated here"
    return f"calculated (running{usual}): {one.duty.of_rating}"


RULE = Rule("resistor-overloaded", Grade.STOP, _check, __doc__, About.RATING | About.LOAD)
