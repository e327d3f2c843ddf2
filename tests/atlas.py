"""Graphs as resistor netlists: a node is a net, an edge a resistor; what equal means is judged by networkx.

The ends of a resistor are free, so two such netlists are equal exactly when there is a pairing of the nodes under
which every edge joins what the edge of the same name joins.
"""

import random
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache

import networkx as nx

from netcheck.compare.rules import RULES
from tests.paper import compared

Ends = Mapping[str, tuple[int, int]]
_RULES = frozenset(rule.name for rule in RULES)


@dataclass(frozen=True, slots=True)
class Drawing:
    """Resistors by name, each with the nodes at its two ends."""

    ends: Ends

    def text(self, rng: random.Random) -> str:
        """A netlist with its statements, net names and ends in any order."""
        on: dict[int, list[str]] = {}
        for name, ends in self.ends.items():
            for lead, node in zip(rng.sample(("1", "2"), 2), ends, strict=True):
                on.setdefault(node, []).append(f"{name}.{lead}")
        names = rng.sample(range(100), len(on))
        lines = [f"resistor {name} 470k" for name in self.ends]
        lines += [
            f"net n{name}: {', '.join(rng.sample(leads, len(leads)))}"
            for name, leads in zip(names, on.values(), strict=True)
        ]
        rng.shuffle(lines)
        return "\n".join((*lines, ""))

    def graph(self) -> nx.Graph:
        """The same for networkx, the resistor's name on the edge."""
        graph: nx.Graph = nx.Graph()
        for name, (a, b) in self.ends.items():
            graph.add_edge(a, b, name=name)
        return graph

    def relabelled(self, rng: random.Random) -> "Drawing":
        """The same resistors between other nodes' numbers: an equal drawing."""
        nodes = sorted({node for ends in self.ends.values() for node in ends})
        other = dict(zip(nodes, rng.sample(nodes, len(nodes)), strict=True))
        return Drawing({name: (other[a], other[b]) for name, (a, b) in self.ends.items()})

    def renamed(self, rng: random.Random) -> "Drawing":
        """The same graph with the resistors in other places: equal only by chance or symmetry."""
        names = list(self.ends)
        return Drawing(dict(zip(rng.sample(names, len(names)), self.ends.values(), strict=True)))


@cache
def drawings(nodes: int) -> tuple[Drawing, ...]:
    """Every graph of the atlas with an edge and at most so many nodes (at most 7)."""
    graphs = (graph for graph in nx.graph_atlas_g() if graph.number_of_edges() and graph.number_of_nodes() <= nodes)
    return tuple(Drawing({f"R{n}": edge for n, edge in enumerate(graph.edges, 1)}) for graph in graphs)


def pairs_of_one_size(nodes: int) -> Iterator[tuple[Drawing, Drawing]]:
    """Every two graphs of the atlas with equally many edges."""
    found = drawings(nodes)
    for number, one in enumerate(found):
        yield from ((one, other) for other in found[number + 1 :] if len(other.ends) == len(one.ends))


def dice(seed: int) -> random.Random:
    """Chance that can be repeated."""
    return random.Random(seed)  # noqa: S311 - trials are repeated from a seed


def are_equal(one: Drawing, other: Drawing) -> bool:
    """By networkx: an isomorphism that keeps the names on the edges."""
    same_name = nx.isomorphism.categorical_edge_match("name", None)
    return bool(nx.is_isomorphic(one.graph(), other.graph(), edge_match=same_name))


def are_told_equal(one: Drawing, other: Drawing, rng: random.Random) -> bool:
    """By netcheck: no rule about two states says anything."""
    report = compared(one.text(rng), other.text(rng))
    assert report.built
    return not [d for d in report.diagnostics if d.rule in _RULES]
