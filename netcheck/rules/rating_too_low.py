"""A capacitor sees more volts than it is rated for.

In use, DC and the peak of the ripple together must not exceed the rating: that is STOP. Before the tubes are warm
nothing draws current and every filter capacitor sees the peak of the line: over the rating at normal line voltage is
LOOK; over it only on a line that is 10 % high is a NOTE, one for all parts of a rating, since many originals were built
that way. Surge volts are not a rating: 460 V is too much for a 450 V part. Where the volts rest on a tube's usual
current, because the file states none, `in use` is LOOK. Behind a rectifier that the line does not drive nothing is
known until a `supply` line states the volts. A capacitor whose rating is not stated is not judged.

Wrong:

    mains 117 V 60 Hz
    cord P1
    transformer T1
    winding T1 primary black-a black-b 117 V 10 ohm
    winding T1 high red-a red-b 117 V 20 ohm
    diode D1 1000 V 1 A
    electrolytic C1 40 mfd 150 V
    resistor R1 2.2k 20 W
    net line-a: P1.1, T1.black-a
    net line-b: P1.2, T1.black-b
    net high: T1.red-a, D1.anode
    net B+: D1.cathode, C1+, R1.1
    net ground: chassis, T1.red-b, C1-, R1.2

Right:

    start from "wrong.netck"
    change C1 40 mfd 250 V

Source: DC and the peak of the ripple together within the rated voltage, surge voltage for seconds only: IEC 60384-4
(known from memory), and a maker's application guide, chemi-con.com/guide/pg4_ms.php.
"""

import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.wording import significant
from netcheck.electrical.network.supplies import is_driven
from netcheck.electrical.proof.judgement import is_reversed
from netcheck.engine.headline import fitting
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph
from netcheck.parts.made import CAPACITOR_VOLTS, next_made

if TYPE_CHECKING:
    from netcheck.electrical.stress import Stress


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    if not is_driven(graph):
        return
    from netcheck.electrical.polarities import polarities
    from netcheck.electrical.stress import stresses

    found = stresses(graph)
    verdicts = polarities(graph).verdicts
    # Of a part that lies backwards that is told; its volts are those of a circuit that is wrong.
    right = [one for one in found.capacitors if not is_reversed(verdicts.get(one.name))]
    grave = [(one, *_graver(one, surges=found.surges)) for one in right if _is_grave(one)]
    for one, grade, headline, why in grave:
        yield _finding(graph, (one,), grade, (headline, why))
    yield from _on_a_high_line(graph, [one for one in right if not _is_grave(one)])


def _is_grave(one: "Stress") -> bool:
    volts = one.cold_high if one.divided else one.cold
    in_use = one.in_use is not None and one.in_use > one.rated
    return in_use or one.rated < volts < math.inf


def _graver(one: "Stress", *, surges: bool) -> tuple[Grade, str, str]:
    if one.in_use is not None and one.mean is not None and one.in_use > one.rated:
        ripple = one.in_use - abs(one.mean)
        on_top = f": {significant(abs(one.mean), 3)} V DC and {significant(ripple, 2)} V of ripple on top"
        with_ripple = on_top if ripple >= 1.0 else ""
        headline = f"{one.name} is rated {one.rated:.0f} V and sees {_volts(one.in_use, one.rated)} in use"
        if one.surely:
            return (
                Grade.STOP,
                headline,
                f"calculated (running){with_ripple}; its surge voltage is not its rating",
            )
        return (
            Grade.LOOK,
            headline,
            f"calculated (running, with the tubes' usual currents, since the file states none){with_ripple}",
        )
    if one.divided:
        volts = _volts(one.cold_high, one.rated)
        return (
            Grade.LOOK if one.cold > one.rated else Grade.NOTE,
            f"{one.name} is rated {one.rated:.0f} V and may see {volts}: only leakage divides it",
            "calculated with the tubes cold, line 10 % high; what leaks least takes most of it",
        )
    swing = ", the moment after switching on" if surges else ""
    return (
        Grade.LOOK,
        f"{one.name} is rated {one.rated:.0f} V and sees {_volts(one.cold, one.rated)} until the tubes draw current",
        f"calculated with the tubes cold{swing}; {_volts(one.cold_high, one.rated)} on a line 10 % high",
    )


def _on_a_high_line(graph: CircuitGraph, mild: Sequence["Stress"]) -> Iterator[Finding]:
    """One NOTE for all parts of one rating: the set was designed so, or was not."""
    over = [one for one in mild if one.rated < one.cold_high < math.inf]
    for rated in dict.fromkeys(one.rated for one in over):
        group = tuple(one for one in over if one.rated == rated)
        most = max(one.cold_high for one in group)
        names = [one.name for one in group]
        every = f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else names[0]
        they = "they see" if len(names) > 1 else "it sees"
        what = f"rated {rated:.0f} V; cold, on a high line, {they} {_volts(most, rated)}"
        headline = fitting(
            f"{every} {'are' if len(names) > 1 else 'is'} {what}",
            f"{names[0]} and {len(names) - 1} more are {what}",
        )
        least = _volts(max(one.cold for one in group), rated)
        why = f"calculated with the tubes cold, line 10 % high; {least} at normal line voltage"
        yield _finding(graph, group, Grade.NOTE, (headline, why))


def _finding(graph: CircuitGraph, group: tuple["Stress", ...], grade: Grade, words: tuple[str, str]) -> Finding:
    headline, why = words
    highest = max(volts for one in group for volts in (one.cold_high, one.in_use) if volts is not None)
    least = next_made(highest, CAPACITOR_VOLTS)
    part = f"one rated {least} V or more" if least else "two in series with a resistor across each"
    if any(one.divided for one in group):
        part = f"a resistor of one value across each of those in series (100k to 220k), or {part}"
    places = [graph.circuit.parts[one.name].place for one in group]
    return Finding(
        headline,
        tuple(Label(place) for place in dict.fromkeys(places)),
        do=f"fit {part}" if grade is not Grade.NOTE else f"when it is due, fit {part}",
        why=why,
        touched=Touched((), tuple(one.name for one in group)),
        grade=grade,
    )


def _volts(volts: float, rated: float) -> str:
    """The volts, with a decimal where they would read like the rating."""
    return f"{volts:.1f} V" if round(volts) <= round(rated) or volts < 10 else f"{volts:.0f} V"


RULE = Rule("rating-too-low", Grade.STOP, _check, __doc__, About.RATING, also_compared=True)
