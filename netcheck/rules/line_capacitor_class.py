"""A capacitor on the line is not of the class that its place needs.

Across the line it must be class X or Y: if it shorts, the fuse opens. From one side of the line to the chassis, to a B-
on the line or to other metal that can be touched it must be class Y, which is made to fail open; if a class X part
shorts there, the metal is at line voltage. So Y may be used for X, never the other way round. An ordinary film
capacitor, whatever voltage is printed on it, is right for neither. A capacitor behind a transformer or a rectifier is
not on the line.

In a planned or rewired state it is STOP, in a drawing or a state as found a NOTE: old sets have paper there.

Wrong:

    state rewired
    cord P1
    fuse F1 1 A
    transformer T1
    winding T1 primary black-a black-b 117 V
    capacitor C30 .047 mfd 630 V film
    net line-a: P1.1, F1.1
    net line-b: F1.2, T1.black-a, C30.1
    net line-c: P1.2, T1.black-b, C30.2

Right:

    state rewired
    cord P1
    fuse F1 1 A
    transformer T1
    winding T1 primary black-a black-b 117 V
    capacitor C30 .047 mfd 275 V X2
    net line-a: P1.1, F1.1
    net line-b: F1.2, T1.black-a, C30.1
    net line-c: P1.2, T1.black-b, C30.2

Source: IEC 60384-14 (X across the line, Y from the line to what can be touched).
"""

from collections.abc import Iterator

from netcheck.core.circuit import Part
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph
from netcheck.parts.capacitor import CLASSES, DIELECTRICS


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    from netcheck.electrical.mains.line import is_work, line_of
    from netcheck.electrical.mains.line_parts import LinePosition, is_fit, on_line

    line = line_of(graph)
    for found in on_line(graph, line) if line is not None else ():
        part = found.part
        if is_fit(frozenset(part.features.words), found.place):
            continue
        across = found.place is LinePosition.ACROSS
        wanted = "class X or Y" if across else "class Y"
        where = "across the line" if across else f"from the line to {found.metal}"
        yield Finding(
            f"{part.name} ({_said(part)}) is {where}; {wanted} belongs there",
            (Label(part.place),),
            do=_order(graph, part, "" if across else found.metal),
            why="if it shorts, it can start a fire"
            if across
            else "if it shorts, metal you can touch is at line voltage",
            touched=Touched(
                tuple(graph.point(at).name for at in graph.terminals(part)),
                (part.name,),
                tuple(graph.net_names[graph.circuit.nets[at]] for at in graph.terminals(part)),
            ),
            grade=Grade.STOP if is_work(graph.circuit) else Grade.NOTE,
        )


def _order(graph: CircuitGraph, part: Part, metal: str) -> str:
    """What to fit: across the line the same value; to metal no more than keeps its limit."""
    if not metal:
        return "fit an X2 (or a Y2) of the same value, rated for the line voltage"
    from netcheck.electrical.mains.allowance import SMALL, is_kept_without, largest_kept
    from netcheck.electrical.mains.leakage import leaks

    stated = part.features.first(Dimension.CAPACITANCE)
    if stated is not None and not any(leak.is_over for leak in leaks(graph) if leak.metal == metal):
        return "fit a Y2 (or a Y1) of the same value, rated for the line voltage"
    size = largest_kept(graph, part, metal)
    if not size and is_kept_without(graph, part, metal):
        return f"leave {part.name} out: no usual Y capacitor keeps the current to {metal} within its limit"
    return f"fit a Y2 (or a Y1) of {size or SMALL} or less, or leave {part.name} out"


def _said(part: Part) -> str:
    """What the capacitor is, as its line says."""
    known = (word for word in (*CLASSES, *DIELECTRICS) if word in part.features.words)
    return next(known, "no class" if part.kind.family is Family.CAPACITOR else "electrolytic")


RULE = Rule("line-capacitor-class", Grade.STOP, _check, __doc__, About.LINE | About.CHOICE)
