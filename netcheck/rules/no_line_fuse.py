"""A rewired set has no fuse in the line.

Many sets were made without one, and nothing is said of a drawing or a state as found. While you are at the cord anyway,
a fuse costs no more than its holder: 1.5 to 2 times the running current, and slow, since the transformer or the filter
capacitors draw a rush of current at switching on.

Wrong:

    state rewired
    cord P1
    transformer T1
    winding T1 primary black-a black-b 117 V
    net line-a: P1.1, T1.black-a
    net line-b: P1.2, T1.black-b

Right:

    state rewired
    cord P1
    fuse F1 1 A slow
    transformer T1
    winding T1 primary black-a black-b 117 V
    net line-a: P1.1, F1.1
    net line-b: F1.2, T1.black-a
    net line-c: P1.2, T1.black-b

Source: common practice of the trade.
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    from netcheck.electrical.mains.line import is_work, line_of

    line = line_of(graph)
    if line is None or not is_work(graph.circuit) or any(side.fuses for side in line.sides):
        return
    leads = tuple(graph.point(side.lead).name for side in line.sides)
    yield Finding(
        f"the line cord {line.cord.name} has no fuse",
        (Label(line.cord.place),),
        do='put one in, rated 1.5 to 2 times the running current: `fuse F1 ... A slow inserted "no fuse before"`',
        why="if a rectifier or a capacitor shorts, the full current of the outlet flows",
        touched=Touched(leads, (line.cord.name,)),
    )


RULE = Rule("no-line-fuse", Grade.NOTE, _check, __doc__, About.ABSENCE)
