"""Heaters in series: which of them have no current once a tube is pulled and nothing stands for its heater."""

from collections.abc import Iterator
from itertools import pairwise

from netcheck.core.blocks import Blocks
from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.model.graph import CircuitGraph
from netcheck.model.points import lead_name

__all__ = ["heated"]

# What passes current without being a source, as a switch without named positions does when it is on; what blocks
# current or turns it one way is left out.
_CONDUCTS = (Family.RESISTOR, Family.CONTROL, Family.INDUCTOR, Family.FUSE, Family.LAMP, Family.SPEAKER)


def heated(graph: CircuitGraph) -> frozenset[str]:
    """The tubes whose heater lies on a way from one side of the line, or of a winding, to the other."""
    heaters = {part.name: ends for part in graph.circuit.parts.values() if (ends := _heater(part, graph))}
    edges = [*heaters.values(), *_passive(graph)]
    sources = list(_sources(graph))
    nodes = {net: n for n, net in enumerate(dict.fromkeys(net for edge in (*edges, *sources) for net in edge))}
    blocks = Blocks(len(nodes), [(nodes[a], nodes[b]) for a, b in edges if a != b])
    masks = [blocks.between(nodes[a], nodes[b]) for a, b in sources if a != b]
    return frozenset(
        name for name, ends in heaters.items() if any(all(mask >> nodes[end] & 1 for end in ends) for mask in masks)
    )


def _heater(part: Part, graph: CircuitGraph) -> tuple[int, int] | None:
    keys = {t.key: t.name for t in reversed(part.leads)}
    if not {"heater-1", "heater-2"} <= keys.keys():
        return None
    one, other = (graph.circuit.net_of(lead_name(part, keys[f"heater-{n}"])) for n in (1, 2))
    return one, other


def _passive(graph: CircuitGraph) -> Iterator[tuple[int, int]]:
    for part in graph.circuit.parts.values():
        if part.kind.family in _CONDUCTS or (part.kind.family is Family.SWITCH and not part.features.positions):
            points = [graph.circuit.nets[at] for at in graph.terminals(part)]
            yield from pairwise(points)
        for _, groups in part.features.positions:
            for group in groups:
                closed = [graph.circuit.net_of(lead_name(part, lug)) for lug in group]
                yield from pairwise(closed)


def _sources(graph: CircuitGraph) -> Iterator[tuple[int, int]]:
    for part in graph.circuit.parts.values():
        if part.kind.family in (Family.CORD, Family.PLUG, Family.BATTERY) and len(part.leads) >= 2:
            one, other = (graph.circuit.nets[at] for at in graph.terminals(part)[:2])
            yield one, other
        for _, leads in part.features.windings:
            ends = [graph.circuit.net_of(lead_name(part, lead)) for lead in leads]
            yield from pairwise(ends)
