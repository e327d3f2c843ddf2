"""Two points that `apart` keeps apart are joined directly.

In a set without a power transformer B- and the chassis are two things, often with a resistor and a capacitor between
them. A direct joint puts one side of the line on the chassis.

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

from collections.abc import Iterator
from itertools import combinations

from netcheck.core.diagnostic import Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    circuit = graph.circuit
    for statement in circuit.apart:
        for one, other in combinations(statement.points, 2):
            if circuit.net_of(one) != circuit.net_of(other):
                continue
            cut = graph.cheapest_cut((circuit.index[one],), (circuit.index[other],))
            yield Finding(
                f"{one} and {other} are joined directly",
                (*(Label(join.place, "joined here") for join in cut[:3]), Label(statement.place, "to be kept apart")),
                do="undo that joint",
                why="this file says to keep them apart",
                touched=Touched(nets=(one, other)),
            )


RULE = Rule("not-apart", Grade.STOP, _check, __doc__)
