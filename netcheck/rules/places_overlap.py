"""Two things are placed where there is room for only one.

A `place` line says where the middle of a thing is: from the left edge, then from the back edge, the chassis seen from
below with its back away from you. Two that overlap are usually a slip in typing: the two numbers the wrong way round,
inches without `in`, or a strip that runs from back to front without the word `turned`.

Wrong:

    strip SP1 5 lugs insulated
    strip SP2 5 lugs insulated
    place SP1 120 85
    place SP2 125 85

Right:

    strip SP1 5 lugs insulated
    strip SP2 5 lugs insulated
    place SP1 120 85
    place SP2 125 58

Source: sizes of common strips, sockets and cans, from memory; the least that such a part needs.
"""

from collections.abc import Iterator

from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph
from netcheck.model.outline import crowded


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    for one, other in crowded(graph.circuit):
        yield Finding(
            f"{one.part} and {other.part} overlap",
            (Label(other.place), Label(one.place, "here already")),
            do="measure both again: from the left edge, then from the back edge, to the middle of the thing",
            touched=Touched(parts=(one.part, other.part)),
        )


RULE = Rule("places-overlap", Grade.NOTE, _check, __doc__, About.ITSELF)
