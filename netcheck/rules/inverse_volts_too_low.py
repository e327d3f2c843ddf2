"""A rectifier's inverse rating is lower than the voltage that this supply puts across it.

A half-wave rectifier with a capacitor after it gets twice the peak of the line backwards, once a cycle: 339 V on a
120 V line, 373 V on a line that is 10 % high. What counts is the voltage with no load, before the tubes are warm. A
rating below that at normal line voltage is STOP. A silicon diode fails at the first spike above its rating, so one
rated less than 1.2 times the voltage of a high line is LOOK: on 120 V, 400 V is the bare minimum, and 600 to 1000 V
is usual. A selenium stack or a tube is never STOP, since sets were built that way and its figure is from memory: from
5 % over it at normal line voltage it is LOOK, else a NOTE if a high line exceeds it (for a tube, from 15 % on). A
diode whose rating is not stated is not judged.

Wrong:

    mains 120 V 60 Hz
    cord P1
    transformer T1
    winding T1 primary black-a black-b 120 V 10 ohm
    winding T1 high red-a red-b 120 V 20 ohm
    diode D1 200 V 1 A
    electrolytic C1 40 mfd 250 V
    resistor R1 22k 5 W
    net line-a: P1.1, T1.black-a
    net line-b: P1.2, T1.black-b
    net high: T1.red-a, D1.anode
    net B+: D1.cathode, C1+, R1.1
    net ground: chassis, T1.red-b, C1-, R1.2

Right:

    start from "wrong.netck"
    change D1 1000 V 1 A

Source: twice the peak, calculated; 400 V as the bare minimum and 600 to 1000 V as usual, common practice.
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.kind import Family, Junction, PartKind
from netcheck.electrical.network.supplies import is_driven
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph
from netcheck.parts.diode_types import SILICON_MARGIN
from netcheck.parts.made import DIODE_VOLTS, next_made

GRACE = 1.05  # of what a stack or a tube is rated for: those figures are from memory
TUBE_GRACE = 1.15  # of a tube's on a high line: a 35W4 is rated 330 V, and every set on 117 V puts 364 V on it


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    if not is_driven(graph):
        return
    from netcheck.electrical.network.elements import part_of
    from netcheck.electrical.stress import inverse_stresses

    told = set[str]()
    for one in inverse_stresses(graph):
        part = graph.circuit.parts[part_of(one.name)]
        silicon = part.kind.junction is Junction.SILICON
        grade = _grade(part.kind, one.rated, one.cold, one.cold_high)
        if grade is None or part.name in told:
            continue
        told.add(part.name)
        least = ", which is tight" if one.rated > one.cold_high else ""
        seen = {
            Grade.STOP: f"and sees {one.cold:.0f} V",
            Grade.LOOK: f"and sees {one.cold_high:.0f} V on a high line{least}",
            Grade.NOTE: f"and sees {one.cold_high:.0f} V on a high line",
        }
        yield Finding(
            f"{part.name} is rated for {one.rated:.0f} V inverse {seen[grade]}",
            (Label(part.place),),
            do=_advice(one.cold_high, silicon=silicon),
            why=f"calculated with no load: {one.cold:.0f} V at normal line voltage, "
            f"{one.cold_high:.0f} V on a line 10 % high",
            touched=Touched((), (part.name,)),
            grade=grade,
        )


def _grade(kind: PartKind, rated: float, cold: float, high: float) -> Grade | None:
    if kind.junction is Junction.SILICON:
        return Grade.STOP if rated < cold else Grade.LOOK if rated < SILICON_MARGIN * high else None
    if cold > GRACE * rated:
        return Grade.LOOK
    return Grade.NOTE if high > rated * (TUBE_GRACE if kind.family is Family.TUBE else 1.0) else None


def _advice(high: float, *, silicon: bool) -> str:
    least = next_made(SILICON_MARGIN * high, DIODE_VOLTS)
    if silicon and least is not None:
        return f"fit a diode for {least} V or more" + ("; 1000 V costs no more" if least < DIODE_VOLTS[-1] else "")
    if silicon:
        return "fit one with a higher rating, or two in series with equal resistors across them"
    if least is None:
        several = "several in series, each with an equal resistor across it"
        return f"nothing to do now; of silicon diodes it would take {several}"
    return f"nothing to do now; a {DIODE_VOLTS[-1]} V silicon diode would have margin"


RULE = Rule("inverse-volts-too-low", Grade.STOP, _check, __doc__, About.RATING)
