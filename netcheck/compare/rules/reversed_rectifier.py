"""A rectifier, diode or battery is the other way round than in the original.

Every electrolytic after it is then reversed; `why` names those for which the circuit proves it. A selenium stack's plus
is its cathode end; a silicon diode's band is its cathode. Where no line says where a new rectifier belongs, it is told
if the electrolytics after it are backwards, and would be right with it turned round.

Original:

    transformer T1
    winding T1 high red-a red-b 120 V
    selenium CR1 130 V 100 mA
    electrolytic C1 40 mfd 150 V
    resistor R1 22k
    net high: T1.red-a, CR1-
    net B+: CR1+, C1+, R1.1
    net ground: chassis, T1.red-b, C1-, R1.2

Wrong:

    start from "original.netck"
    remove CR1
    diode D1 1000 V anode C1+ cathode T1.red-a replaces CR1

Right:

    start from "original.netck"
    remove CR1
    diode D1 1000 V anode T1.red-a cathode C1+ replaces CR1

Source: the original; the plus of a selenium stack is its cathode end (from memory), the band of a
silicon diode likewise (common practice).
"""

from collections.abc import Iterator

from netcheck.compare.by_itself.backwards import Backwards, against_their_filters
from netcheck.compare.by_itself.proofs import with_those_behind
from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import fitting, listed
from netcheck.compare.words.orders import order
from netcheck.compare.words.turnabout import turnabout, turned_part
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.difference import Rearranged
from netcheck.core.kind import Family, Junction
from netcheck.electrical.proof.judgement import graded
from netcheck.engine.rule import Finding, Rule

_ENDS = {Junction.SILICON: ("its band", "its anode")}


def _check(pair: Pair) -> Iterator[Finding]:
    for fault in pair.faults:
        part = turned_part(pair, fault)
        if part is None or not isinstance(fault, Rearranged) or part.kind.family is Family.ELECTROLYTIC:
            continue
        ends = None if part.kind.junction is None else _ENDS.get(part.kind.junction)
        told = turnabout(pair, part, fault, ends, "every electrolytic after it is reversed too")
        yield with_those_behind(pair, told)
    found = against_their_filters(pair)
    if found is not None:
        yield _unsaid(pair, found)


def _unsaid(pair: Pair, found: Backwards) -> Finding:
    names = [part.name for part in found.parts]
    is_, them = ("are", "them") if len(names) > 1 else ("is", "it")
    behind = listed([verdict.capacitor for verdict in found.behind])
    gets = "get" if len(found.behind) > 1 else "gets"
    leads = tuple(pair.real.point(at).name for part in found.parts for at in pair.real.terminals(part))
    return Finding(
        fitting(
            f"{listed(names)} {is_} in backwards: {behind} behind {them} {gets} the volts the wrong way round",
            f"{listed(names)} {is_} in backwards",
        ),
        tuple(Label(part.place) for part in found.parts[:2]),
        why=graded(found.behind[0]),
        do=f"turn {them} round: {order(pair, found.mend)}",
        mends=(found.mend,),
        touched=Touched(leads, tuple(names)),
    )


RULE = Rule("reversed-rectifier", Grade.STOP, _check, __doc__, About.POLARITY | About.SUPPLY_REVERSED, burns=True)
