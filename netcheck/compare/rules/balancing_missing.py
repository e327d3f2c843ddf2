"""Two electrolytics in series take the place of one, with no resistors to share the voltage out.

The leakage of two electrolytics is never the same, so one of them takes more than its half and fails. A resistor across
each, 220k for instance, makes the halves equal; it also empties them after the set is switched off. Small resistors are
rated 350 V or less across their ends whatever their value: take 1 W, or two in series.

Original:

    electrolytic C1 25 mfd 600 V
    resistor R1 22k
    net B+: C1+, R1.1
    net ground: chassis, C1-, R1.2

Wrong:

    start from "original.netck"
    remove C1
    electrolytic C51 50 mfd 350 V replaces C1
    electrolytic C52 50 mfd 350 V replaces C1
    net B+: C51+
    net middle: C51-, C52+
    net ground: C52-

Right:

    start from "original.netck"
    remove C1
    electrolytic C51 50 mfd 350 V replaces C1
    electrolytic C52 50 mfd 350 V replaces C1
    resistor R51 220k added "balances C51"
    resistor R52 220k added "balances C52"
    net B+: C51+, R51.1
    net middle: C51-, C52+, R51.2, R52.1
    net ground: C52-, R52.2

Source: a maker's application guide, chemi-con.com/guide/pg4_ms.php (series connection needs balancing resistors).
"""

from collections.abc import Iterator, Sequence

from netcheck.compare.pair import Pair
from netcheck.compare.roles.groups import in_series
from netcheck.compare.words.describe import fitting, listed
from netcheck.compare.words.pictures import value_only
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.kind import Family
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(pair: Pair) -> Iterator[Finding]:
    for roles in pair.pairing.pairs:
        if len(roles.old) > 1 or roles.old[0].kind.family is not Family.ELECTROLYTIC:
            continue
        members = in_series(roles.new, pair.real)
        leaky = [part for part in members if part.kind.family is Family.ELECTROLYTIC]
        without = [part for part in leaky if not _is_bridged(part, pair.real)]
        if without:
            yield _finding(roles.old[0], members, without)


def _is_bridged(part: Part, graph: CircuitGraph) -> bool:
    return any(
        other.kind.family is Family.RESISTOR and _ends(other, graph) == _ends(part, graph)
        for other in graph.circuit.parts.values()
    )


def _ends(part: Part, graph: CircuitGraph) -> set[int]:
    return {graph.circuit.nets[at] for at in graph.terminals(part)}


def _finding(old: Part, members: Sequence[Part], without: Sequence[Part]) -> Finding:
    names, bare = listed([part.name for part in members]), listed([part.name for part in without])
    lacking = "no balancing resistors" if len(without) == len(members) else f"no resistor across {bare}"
    first = without[0]
    return Finding(
        fitting(
            f"{names} are in series in place of {old.name} with {lacking}",
            f"{names} are in series with {lacking}",
            f"{bare} in series: {lacking}",
        ),
        (*(Label(part.place) for part in without), Label(old.place, "in the original")),
        do=f"put a resistor across each, 220k 1 W or two in series: "
        f'`resistor R 220k 1 W from {first.name}+ to {first.name}- added "why"`',
        why="their leakage differs: one takes more than its share of the voltage and fails",
        touched=Touched((), (*(part.name for part in without), old.name)),
        panel=value_only(old, first, "one capacitor", "in series"),
    )


RULE = Rule("balancing-missing", Grade.LOOK, _check, __doc__, About.SAME_VOLTS)
