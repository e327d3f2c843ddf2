"""What is measured within one process: parsing, comparing and recognising, and plain tools on the same."""

import re
import tempfile
import time
from collections.abc import Callable, Iterable, Mapping
from functools import cache
from pathlib import Path

import igraph
import networkx as nx

from netcheck.compare.pair import compared
from netcheck.core.circuit import Circuit
from netcheck.core.source import Source
from netcheck.language.parser import parse
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from netcheck.system.files import read, reader
from tests.benchmarks.netlists import PARTS_A_STAGE, write_pair
from tests.benchmarks.structure_growth import chain, timed

__all__ = ["TAKEN"]

STAGES = 150  # 2,850 terminals
_TOKEN = re.compile(r'"[^"\n]*"|#[^\n]*|[^\s,:"]+|[,:]')


@cache
def _states() -> tuple[Source, Circuit, Circuit]:
    with tempfile.TemporaryDirectory() as folder:
        sources = [read(path) for path in write_pair(Path(folder), STAGES)]
        find = reader(*sources)
        old, new = (build(source, find)[0] for source in sources)
    assert old is not None
    assert new is not None
    return sources[0], old, new


def _seconds(job: Callable[[], object]) -> float:
    start = time.process_time()
    job()
    return time.process_time() - start


def _edges(circuit: Circuit) -> Iterable[tuple[int, int]]:
    return ((join.a, join.b) for join in circuit.joins)


def _parse() -> float:
    text = _states()[0].text
    return _seconds(lambda: parse(Source("a.netck", text)))


def _tokens() -> float:
    text = _states()[0].text
    return _seconds(lambda: [_TOKEN.findall(line) for line in text.split("\n")])


def _named() -> float:
    _, old, new = _states()
    return _seconds(lambda: compared(old, new))


def _by_networkx() -> float:
    def components(circuit: Circuit) -> list[set[int]]:
        graph: nx.Graph = nx.Graph()
        graph.add_nodes_from(range(len(circuit.points)))
        graph.add_edges_from(_edges(circuit))
        return list(nx.connected_components(graph))

    _, old, new = _states()
    return _seconds(lambda: (components(old), components(new)))


def _by_igraph() -> float:
    def components(circuit: Circuit) -> object:
        return igraph.Graph(n=len(circuit.points), edges=list(_edges(circuit))).connected_components()

    _, old, new = _states()
    return _seconds(lambda: (components(old), components(new)))


@cache
def _chains() -> tuple[CircuitGraph, CircuitGraph]:
    with tempfile.TemporaryDirectory() as folder:
        return chain(Path(folder), STAGES, fault=False)


def _structure() -> float:
    took, found = timed(*_chains())
    assert len(found.pairs) == STAGES * PARTS_A_STAGE
    return took


def _coloured(graph: CircuitGraph) -> tuple[igraph.Graph, list[int]]:
    """Parts, ends and nets as vertices: a part of a kind, its ends in order, each end on its net."""
    nets: dict[int, int] = {}
    colours: list[int] = []
    edges: list[tuple[int, int]] = []

    def vertex(colour: int) -> int:
        colours.append(colour)
        return len(colours) - 1

    for part in graph.circuit.parts.values():
        body = vertex(sum(map(ord, part.kind.word)) + 100)
        for number, at in enumerate(graph.terminals(part)):
            net = graph.circuit.nets[at]
            if net not in nets:
                nets[net] = vertex(0)
            end = vertex(number + 1)
            edges += [(body, end), (end, nets[net])]
    return igraph.Graph(n=len(colours), edges=edges), colours


def _isomorphic() -> float:
    (one, first), (other, second) = map(_coloured, _chains())
    found: list[bool] = []
    took = _seconds(lambda: found.append(one.isomorphic_bliss(other, color1=first, color2=second)))
    assert len(found) == 1
    return took


TAKEN: Mapping[str, Callable[[], float]] = {
    "parse": _parse,
    "tokens": _tokens,
    "named": _named,
    "networkx": _by_networkx,
    "igraph": _by_igraph,
    "structure": _structure,
    "isomorphic": _isomorphic,
}
"""Processor seconds of one turn of each, by its name."""
