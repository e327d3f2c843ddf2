"""A rectifier carries more current than it is rated for.

Its mean current is the direct current that it delivers, its peak that of the pulses that charge the first capacitor,
and at switch-on an empty capacitor is charged through it at once. In a planned or rewired state more than the rated
mean is STOP, more than four fifths of it LOOK: makers take a fifth off a silicon diode's rating for a load with a
capacitor. The first pulse is judged for the usual types of silicon (30 A for a 1N4007) on a line that is 10 % high; it
is LOOK, since how many ohms the house has is not known. What a tube takes is from memory unless its data sheet is
named, and then is LOOK at most, as is what the set was built with.

Wrong:

    mains 117 V 60 Hz
    common B-
    cord P1
    diode D1 1N4007
    resistor R1 5.6 ohm 50 W
    electrolytic C1 150 mfd 250 V
    resistor R2 100 ohm 300 W
    net line: P1.1, R1.1
    net rect: R1.2, D1.anode
    net B+: D1.cathode, C1+, R2.1
    net B-: P1.2, C1-, R2.2

Right:

    start from "wrong.netck"
    change D1 1N5408

Source: mean and peak currents computed for the running set; ratings of silicon from makers' data sheets
(dtsheet.com/doc/260565: "for capacitive load, derate current by 20 %"), of tubes as their table says.
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

if TYPE_CHECKING:
    from netcheck.electrical.duties import Duty
    from netcheck.electrical.overload import Overload

AMPERES = (1.0, 1.5, 3.0, 6.0)  # of the usual silicon diodes
ENOUGH = 0.8  # of a diode's mean rating, behind which a capacitor stands


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    if not is_driven(graph):
        return
    from netcheck.electrical.duties import Demand
    from netcheck.electrical.overload import Degree, overloads

    told = set[str]()
    found = list(overloads(graph, {Demand.MEAN, Demand.PEAK, Demand.SURGE}))
    for one in sorted(found, key=lambda each: (each.degree is not Degree.BURNS, -each.duty.share)):
        if one.part.name in told:
            continue
        told.add(one.part.name)
        at = {Demand.MEAN: "on average", Demand.PEAK: "at the peak of each pulse", Demand.SURGE: "at switch-on"}
        yield Finding(
            fitting(
                f"{one.part.name} is rated {_amperes(one.duty.rated)} and carries {_amperes(one.duty.seen)} "
                f"{at[one.duty.asked]}"
            ),
            (Label(one.part.place),),
            do=_do(one, surge=one.duty.asked is Demand.SURGE),
            why=_why(one.duty, surge=one.duty.asked is Demand.SURGE, read=_is_read(one)),
            touched=Touched(parts=(one.part.name,)),
            grade=Grade.STOP if one.degree is Degree.BURNS else Grade.LOOK,
        )


def _do(one: "Overload", *, surge: bool) -> str:
    if surge:
        return "put a resistor of 22 ohm or more, 5 W, in series with it, or fit a 3 A diode"
    if one.part.kind.family is Family.TUBE:
        return "find what draws so much; a smaller first capacitor makes the pulses lower"
    least = next((each for each in AMPERES if each * ENOUGH >= one.duty.seen), None)
    return f"fit one for {least:g} A or more" if least else "find what draws so much"


def _is_read(one: "Overload") -> bool:
    """Whether the rating that is exceeded was read in a tube's data sheet."""
    from netcheck.electrical.tube_data import rectifier_tube_of

    tube = rectifier_tube_of(one.part.features.type)
    return tube is not None and one.duty.asked.name.lower() in tube.read


def _why(duty: "Duty", *, surge: bool, read: bool) -> str:
    if surge:
        return "calculated (switching on at the worst moment, line 10 % high): the empty capacitor takes all it can"
    usual = "" if duty.surely else ", with the tubes' usual currents, which are not stated here"
    memory = "; its rating is from memory" if duty.remembered and not read else ""
    return f"calculated (running{usual}): {duty.of_rating}{memory}"


def _amperes(value: float) -> str:
    return f"{significant(value, 3)} A" if value >= 1 else f"{significant(value * 1000, 3)} mA"


RULE = Rule("rectifier-overloaded", Grade.STOP, _check, __doc__, About.RATING | About.LOAD)
