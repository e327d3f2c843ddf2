"""Capacitors on the line, by the class that their place wants; fuses in the line, and what they leave unprotected."""

from collections.abc import Iterator, Mapping, Sequence
from enum import Enum

from msgspec import Struct

from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.electrical.mains.line import MainsInlet, touched_metal
from netcheck.model.graph import CircuitGraph
from netcheck.parts.capacitor import ADJUSTABLE, CLASSES

__all__ = ["LinePosition", "OnLine", "is_fit", "on_line", "unprotected"]


class LinePosition(Enum):
    """Where a capacitor meets the line."""

    ACROSS = "across the line"
    TO_METAL = "from the line to metal that can be touched"


# IEC 60384-14: X across the line, where a short opens the fuse; Y from the line to what is touched, where a short
# would kill. Y may stand in for X, never the other way round.
_FIT = {
    LinePosition.ACROSS: frozenset(CLASSES),
    LinePosition.TO_METAL: frozenset({"Y1", "Y2"}),
}
_NO_LOAD = (Family.SWITCH, Family.FUSE, Family.CORD)


class OnLine(Struct, frozen=True):
    """A capacitor between the two sides of the line, or between one side and metal that can be touched."""

    part: Part
    place: LinePosition
    metal: str = ""


def is_fit(classes: frozenset[str], place: LinePosition) -> bool:
    """Whether a capacitor marked with these classes may stand at a place of the line."""
    return not _FIT[place].isdisjoint(classes)


def on_line(graph: CircuitGraph, line: MainsInlet) -> Iterator[OnLine]:
    """Every capacitor that meets the line with both leads; what lies behind a winding or a rectifier does not."""
    one, other = line.sides
    # Where a voltage selector or a fault joins a net to both sides, neither owns it.
    sides = one.nets - other.nets, other.nets - one.nets
    metal = touched_metal(graph)
    if line.earth is not None:
        metal.setdefault(line.earth, graph.net_names[line.earth])
    fed = _fed(graph)
    unfed = {net: name for net, name in metal.items() if net not in fed}
    for part in graph.circuit.parts.values():
        if not part.kind.family.stores or not set(ADJUSTABLE).isdisjoint(part.features.words):
            continue
        nets = [graph.circuit.nets[at] for at in graph.terminals(part)]
        if len(nets) == 2 and nets[0] != nets[1]:
            yield from _placed(part, nets, sides, metal if part.kind.family is Family.CAPACITOR else unfed)


def _placed(
    part: Part, nets: Sequence[int], sides: tuple[frozenset[int], frozenset[int]], metal: Mapping[int, str]
) -> Iterator[OnLine]:
    """Where a two-lead part meets the line, if it does with both leads."""
    found = [next((n for n, side in enumerate(sides) if net in side), None) for net in nets]
    if None not in found:
        if found[0] != found[1]:
            yield OnLine(part, LinePosition.ACROSS)
    elif found != [None, None] and (touched := nets[found.index(None)]) in metal:
        yield OnLine(part, LinePosition.TO_METAL, metal[touched])


def _fed(graph: CircuitGraph) -> frozenset[int]:
    """The nets that a rectifier ends on: an electrolytic from there to the line is half of a doubler."""
    parts = (part for part in graph.circuit.parts.values() if part.kind.family is Family.RECTIFIER)
    return frozenset(graph.circuit.nets[at] for part in parts for at in graph.terminals(part))


def unprotected(graph: CircuitGraph, line: MainsInlet) -> Iterator[tuple[Part, Part]]:
    """Each part that hangs on the line ahead of its fuse, with that fuse.

    With a fuse in both wires a part is ahead of them only with both its leads.
    """
    one, other = line.sides
    ahead = one.before | other.before
    for side, opposite in ((one, other), (other, one)):
        if not side.fuses:
            continue
        for part in graph.circuit.parts.values():
            if part.kind.place or part.kind.family in _NO_LOAD:
                continue
            nets = {graph.circuit.nets[at] for at in graph.wanted(part)}
            if nets.isdisjoint(side.before) or nets <= side.before:
                continue
            if not opposite.fuses or (nets <= ahead and side is one):
                yield part, side.fuses[0]
