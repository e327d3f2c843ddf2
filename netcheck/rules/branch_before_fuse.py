"""Something is connected to the line ahead of the fuse, where no fuse protects it.

If a capacitor shorts there, or a second supply that branches off there, the full current of the outlet flows. Between
the plug and the fuse only the switch belongs. With a fuse in each wire, what counts is a part across the line ahead of
both.

Wrong:

    state rewired
    cord P1
    fuse F1 1 A slow
    transformer T1
    winding T1 primary black-a black-b 117 V
    capacitor C30 .047 mfd 275 V X2
    net line-a: P1.1, F1.1, C30.1
    net line-b: F1.2, T1.black-a
    net line-c: P1.2, T1.black-b, C30.2

Right:

    state rewired
    cord P1
    fuse F1 1 A slow
    transformer T1
    winding T1 primary black-a black-b 117 V
    capacitor C30 .047 mfd 275 V X2
    net line-a: P1.1, F1.1
    net line-b: F1.2, T1.black-a, C30.1
    net line-c: P1.2, T1.black-b, C30.2

Source: NFPA 70, 240.21 (overcurrent protection belongs where a conductor gets its supply), from memory.
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    from netcheck.electrical.mains.line import is_work, line_of
    from netcheck.electrical.mains.line_parts import unprotected

    line = line_of(graph)
    for part, fuse in unprotected(graph, line) if line is not None else ():
        leads = graph.terminals(part)
        yield Finding(
            f"{part.name} is on the line ahead of {fuse.name}: no fuse protects it",
            (Label(part.place), Label(fuse.place, "the fuse")),
            do=f"move the line lead of {part.name} to the other side of {fuse.name}",
            why="if it shorts, the full current of the outlet flows, and no fuse of the set opens",
            touched=Touched(
                tuple(graph.point(at).name for at in leads),
                (part.name,),
                tuple(graph.net_names[graph.circuit.nets[at]] for at in leads),
            ),
            grade=Grade.LOOK if is_work(graph.circuit) else Grade.NOTE,
        )


RULE = Rule("branch-before-fuse", Grade.LOOK, _check, __doc__, About.LINE | About.LINE_FUSE)
