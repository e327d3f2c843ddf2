"""A rectifier stands fewer inverse volts than this supply puts across it.

Half a wave into a capacitor puts twice the peak of the mains across the rectifier, backwards, once a period: on a
120 V line 339 V, and 373 V on a line that is 10 % high. It counts with nothing drawn, before the tubes are warm. Less
than that at nominal line is STOP. A silicon diode fails at the first spike above its rating, so one that stands
less than 1.2 times the volts of a high line is LOOK: 400 V are the bare minimum on 120 V, 600 to 1000 V are
usual. A selenium stack or a tube is never STOP, for sets were built so and its figure is from memory: from 5 %
above it at nominal line it is LOOK, else NOTE where a high line exceeds it (of a tube from 15 % on). A diode
that does not state its volts is not judged.

Wrong:

    mains 120 V 60 Hz
    cord P1
    diode D1 200 V 1 A
    electrolytic C1 40 mfd 250 V
    resistor R1 22k 5 W
    net line: P1.1, D1.anode
    net B+: D1.cathode, C1+, R1.1
    net ground: chassis, P1.2, C1-, R1.2

Right:

    mains 120 V 60 Hz
    cord P1
    diode D1 1000 V 1 A
    electrolytic C1 40 mfd 250 V
    resistor R1 22k 5 W
    net line: P1.1, D1.anode
    net B+: D1.cathode, C1+, R1.1
    net ground: chassis, P1.2, C1-, R1.2

Source: twice the peak, calculated; 400 V as the bare minimum and 600 to 1000 V as usual, common practice.
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import Grade, Label, Touched
from netcheck.electrical.network.supplies import is_driven
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph

SILICON_MARGIN = 1.2
GRACE = 1.05  # of what a stack or a tube is rated for: those figures are from memory
TUBE_GRACE = 1.15  # of a tube's on a high line: a 35W4 is rated 330 V, and every set on 117 V puts 364 V on it
RATINGS = (200, 400, 600, 800, 1000)  # of the usual silicon diodes


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    if not is_driven(graph):
        return
    from netcheck.electrical.stress import inverse_stresses

    told = set[str]()
    for one in inverse_stresses(graph):
        part = graph.circuit.parts[one.name.split(" ")[0]]
        silicon = part.kind.word == "diode"
        grade = _grade(part.kind.word, one.rated, one.cold, one.cold_high)
        if grade is None or part.name in told:
            continue
        told.add(part.name)
        least = ": the bare minimum" if one.rated > one.cold_high else " on a high line"
        seen = {
            Grade.STOP: f"and sees {one.cold:.0f} V",
            Grade.LOOK: f"and may see {one.cold_high:.0f} V{least}",
            Grade.NOTE: f"and may see {one.cold_high:.0f} V on a high line",
        }
        yield Finding(
            f"{part.name} stands {one.rated:.0f} V backwards {seen[grade]}",
            (Label(part.place),),
            do=_advice(one.cold_high, silicon=silicon),
            why=f"computed (nothing drawn): {one.cold:.0f} V at nominal line, {one.cold_high:.0f} V at 10 % more",
            touched=Touched((), (part.name,)),
            grade=grade,
        )


def _grade(kind: str, rated: float, cold: float, high: float) -> Grade | None:
    if kind == "diode":
        return Grade.STOP if rated < cold else Grade.LOOK if rated < SILICON_MARGIN * high else None
    if cold > GRACE * rated:
        return Grade.LOOK
    return Grade.NOTE if high > rated * (TUBE_GRACE if kind == "tube" else 1.0) else None


def _advice(high: float, *, silicon: bool) -> str:
    least = next((volts for volts in RATINGS if volts >= SILICON_MARGIN * high), None)
    if silicon and least is not None:
        return f"fit a diode for {least} V or more" + ("; 1000 V costs no more" if least < RATINGS[-1] else "")
    return (
        "fit one that stands more, or two in series with equal resistors across them"
        if silicon
        else ("nothing has to be done now; silicon for 1000 V stands it")
    )


RULE = Rule("inverse-volts-too-low", Grade.STOP, _check, __doc__)
