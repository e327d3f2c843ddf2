"""The fuse is in the neutral of a plug whose blades are told apart.

When it opens the set goes dead, but every wire in it is still at line voltage. The order in the line is narrow blade,
switch, fuse, primary; the wide blade goes straight to the other end. With a cord that is neither `polarized` nor has
`3 wires` the fuse may be in either wire.

Wrong:

    state rewired
    cord P1 polarized
    fuse F1 1 A slow
    transformer T1
    winding T1 primary black-a black-b 117 V
    net line-a: P1.hot, T1.black-a
    net line-b: P1.neutral, F1.1
    net line-c: F1.2, T1.black-b

Right:

    state rewired
    cord P1 polarized
    fuse F1 1 A slow
    transformer T1
    winding T1 primary black-a black-b 117 V
    net line-a: P1.hot, F1.1
    net line-b: F1.2, T1.black-a
    net line-c: P1.neutral, T1.black-b

Source: NFPA 70, 240.22 and 404.2 (no fuse and no switch alone in the grounded conductor), from memory.
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    from netcheck.electrical.mains.line import is_work, line_of

    line = line_of(graph)
    if line is None or line.alike:
        return
    hot, neutral = (graph.point(side.lead).name for side in line.sides)
    for fuse in line.sides[1].fuses:
        yield Finding(
            f"{fuse.name} is in the neutral ({neutral}); the fuse belongs in the hot wire",
            (Label(fuse.place),),
            do=f"put {fuse.name} between {hot} and what it feeds",
            why="when it opens the set goes dead, but its wires are still at line voltage",
            touched=Touched(
                tuple(graph.point(at).name for at in graph.terminals(fuse)),
                (fuse.name,),
                tuple(graph.net_names[graph.circuit.nets[at]] for at in graph.terminals(fuse)),
            ),
            grade=Grade.LOOK if is_work(graph.circuit) else Grade.NOTE,
        )


RULE = Rule("fuse-on-neutral", Grade.LOOK, _check, __doc__, About.LINE | About.LINE_FUSE)
