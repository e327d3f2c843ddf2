"""Two points that `apart` keeps apart are joined directly.

In a set without a power transformer B- and the chassis are two things, often with a resistor and a capacitor between
them. A direct joint puts one side of the line on the chassis. With more than eight such points on one net, each is told
only with the one before it, not every pair.

Wrong:

    resistor R1 220k
    net B-: R1.1
    net ground: R1.2, chassis
    wire R1.1 to chassis black
    apart B-, chassis "line set"

Right:

    resistor R1 220k
    capacitor C1 .1 mfd 400 V
    net B-: R1.1, C1.1
    net ground: R1.2, C1.2, chassis
    apart B-, chassis "line set"

Source: common practice; local electrical codes have the last word.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise

from netcheck.core.circuit import Circuit
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph

ALL_PAIRS = 8
"""With more points on one net than these, every two of them would be told hundreds of times."""


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    circuit = graph.circuit
    for statement in circuit.apart:
        for one, other in _joined(circuit, statement.points):
            cut = graph.cheapest_cut((circuit.index[one],), (circuit.index[other],))
            yield Finding(
                f"{one} and {other} are joined directly",
                (*(Label(join.place, "joined here") for join in cut[:3]), Label(statement.place, "to be kept apart")),
                do="undo that joint",
                why="this file says to keep them apart",
                touched=Touched(nets=(one, other)),
            )


def _joined(circuit: Circuit, points: Sequence[str]) -> Iterator[tuple[str, str]]:
    """The pairs on one net; of a net with more of the points than ``ALL_PAIRS``, only each with the one before it."""
    by_net: dict[int, list[str]] = {}
    for point in points:
        by_net.setdefault(circuit.net_of(point), []).append(point)
    for group in by_net.values():
        yield from combinations(group, 2) if len(group) <= ALL_PAIRS else pairwise(group)


RULE = Rule("not-apart", Grade.STOP, _check, __doc__, About.NET)
