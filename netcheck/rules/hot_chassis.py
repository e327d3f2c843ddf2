"""Too much line current reaches the chassis or other metal that a hand can touch.

The current is calculated at the line frequency, through resistors, capacitors, chokes, windings, heaters and
rectifiers, and as the DC that rectifiers make of the line (a bleeder from B+ to the chassis passes that). All switches
are tried in all their positions together, and the plug both ways round (a cord that is `polarized` or has `3 wires`
goes in one way only). The windings of a transformer isolate. A part without its value is taken at its worst; if that
alone puts the line on the metal, the value is asked for. What counts as touched is the chassis and whatever is marked
`exposed`: a lug, the shaft of a control, the shell of a jack. The limit is 0.5 mA, or 3.5 mA for a chassis on the
third wire of its cord; a line such as `leakage 0.75 mA` sets another. Without a `mains` line 120 V and 60 Hz are
assumed; without a `cord` nothing is known about the line.

In a drawing, or a state as found, it is LOOK, since the set was made that way. In a planned or rewired state it is
STOP; `accept` with a reason silences it.

Wrong:

    state rewired
    mains 117 V 60 Hz
    cord P1
    switch S1
    transformer T1
    winding T1 primary black-a black-b 117 V
    capacitor C12 .05 mfd 275 V Y2
    net line-a: P1.1, S1.1
    net line-b: S1.2, T1.black-a
    net line-c: P1.2, T1.black-b, C12.1
    net ground: chassis, C12.2

Right:

    state rewired
    mains 117 V 60 Hz
    cord P1
    switch S1
    transformer T1
    winding T1 primary black-a black-b 117 V
    capacitor C12 .005 mfd 275 V Y2
    net line-a: P1.1, S1.1
    net line-b: S1.2, T1.black-a
    net line-c: P1.2, T1.black-b, C12.1
    net ground: chassis, C12.2

Source: leakage checks in television service manuals (0.75 V across 1.5 kilohm, which is 0.5 mA, both ways of the
plug); 3.5 mA for an earthed set: IEC 60950-1, from memory.
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.wording import number_of
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    from netcheck.electrical.mains.leak_orders import leak_order
    from netcheck.electrical.mains.leak_words import leak_told
    from netcheck.electrical.mains.leakage import leaks, not_solved
    from netcheck.electrical.mains.line import is_work

    over: set[int] = set()
    for leak in leaks(graph):
        # What comes to a shaft or a shell by way of a hot chassis is told of the chassis.
        if not over.isdisjoint(leak.nets):
            continue
        if leak.is_over:
            over.add(leak.net)
        elif not leak.on_neutral:
            continue
        words = leak_told(graph, leak)
        grave = Grade.STOP if leak.is_over and not leak.unsaid and is_work(graph.circuit) else Grade.LOOK
        yield Finding(
            words.headline,
            tuple(Label(place, text) for place, text in words.places),
            do=leak_order(graph, leak),
            why=words.why,
            touched=Touched(parts=words.subjects, nets=(leak.metal,)),
            grade=grave,
        )
    if left := not_solved(graph):
        yield _not_solved(graph, left)


def _not_solved(graph: CircuitGraph, left: tuple[str, ...]) -> Finding:
    """Metal of which nothing is known, as the network of all of it is too large."""
    first = graph.circuit.parts[graph.point(graph.circuit.index[left[0]]).part]
    return Finding(
        f"the line current into {number_of(len(left), 'piece')} of metal was not worked out",
        (Label(first.place, "the first of them"),),
        do="measure it, or look at a file with fewer `exposed` parts",
        why="the network that joins them is larger than is solved for each in turn",
        touched=Touched(parts=(first.name,), nets=left),
        grade=Grade.LOOK,
    )


RULE = Rule("hot-chassis", Grade.STOP, _check, __doc__, About.LINE | About.HOT_METAL, burns=True)
