"""Silicon in place of selenium or of a rectifier tube raises the volts, and no resistor takes them down.

Silicon drops 0.7 V where a tube drops 20 to 60 V and a new stack 5 V and more by its ohms. What rises by more than a
tenth is LOOK, with the resistor that brings the running volts back; everything behind it gets hotter by twice as
much. The resistor does not help before the tubes draw current: then every filter capacitor sees what it would without.

Original:

    mains 117 V 60 Hz
    common B-
    cord P1
    tube V3 35Z5GT
    resistor R1 22 ohm 5 W
    electrolytic C1 40 mfd 250 V
    net line: P1.1, R1.1
    net plate: R1.2, V3.5
    net B+: V3.8, C1+
    net B-: P1.2, C1-
    draws B+ 70 mA
    spare V3.2, V3.3, V3.7

Wrong:

    start from "original.netck"
    remove V3 "silicon now"
    diode D1 1N4007 anode R1.2 cathode C1+ replaces V3

Right:

    start from "original.netck"
    remove V3 "silicon now"
    strip SP1 4 lugs foot 4
    resistor R50 82 ohm 10 W from R1.2 to SP1.1 inserted "silicon drops less"
    diode D1 1N4007 anode SP1.1 cathode C1+ replaces V3

Source: computed for both running sets; a resistor after silicon, ab1dq.com/2020/04/19.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import fitting, listed
from netcheck.compare.words.pictures import value_only
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule

if TYPE_CHECKING:
    from netcheck.compare.by_itself.silicon import RaisedCapacitor

WATTS = (1, 2, 3, 5, 10, 20, 25, 50)


def _check(pair: Pair) -> Iterator[Finding]:
    from netcheck.compare.by_itself.silicon import raised

    found = raised(pair)
    if found is None:
        return
    fitted, gone = [part.name for part in found.fitted], [part.name for part in found.gone]
    before, now = f"{found.before:.0f} V", f"{found.now:.0f} V"
    drops = "drops" if len(fitted) == 1 else "drop"
    yield Finding(
        fitting(
            f"{found.new.name} gets {now}, was {before}: {listed(fitted)} {drops} less than {listed(gone)}",
            f"{found.new.name} gets {now}, was {before}: silicon drops less than {listed(gone, 2)}",
        ),
        (Label(found.fitted[0].place, "drops less"), Label(found.gone[0].place, "in the original")),
        do=_do(found),
        why="calculated (running, both sets); before the tubes draw current the resistor takes nothing off",
        touched=Touched((), (*fitted, *gone)),
        panel=value_only(found.old, found.new, before, now),
    )


def _do(found: "RaisedCapacitor") -> str:
    swap = found.swap
    best = swap.preferred[0] if swap.preferred else None
    if best is None:
        return "put a resistor in series with the rectifier, or see that every part behind stands more"
    watts = next((each for each in WATTS if each >= 2 * best.watts), WATTS[-1])
    gone = ", ".join(part.name for part in found.gone)
    place = swap.place.replace(gone, listed([part.name for part in found.fitted]))
    return f"put {best.ohms:g} ohm, {watts} W or more, {place}: it brings back {best.volts:.0f} V on {found.held}"


RULE = Rule("silicon-raises-volts", Grade.LOOK, _check, __doc__, About.ITSELF)
