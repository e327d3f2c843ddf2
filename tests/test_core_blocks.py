"""The blocks of a graph, against networkx: what lies on a path between two nodes, and who shares a block with one."""

from random import Random

import networkx as nx
import pytest

from netcheck.core.blocks import Blocks


def bits(nodes: object) -> int:
    assert isinstance(nodes, set)
    return sum(1 << node for node in nodes)


@pytest.mark.parametrize("seed", range(40))
def test_what_lies_between_two_nodes_is_what_any_simple_path_passes(seed: int) -> None:
    rng = Random(seed)  # noqa: S311 - repeated from a seed
    count = rng.randint(1, 7)
    graph = nx.gnp_random_graph(count, rng.choice((0.2, 0.4, 0.6)), seed=seed)
    blocks = Blocks(count, graph.edges)
    for a in range(count):
        own = [part for part in nx.biconnected_components(graph) if a in part]
        assert blocks.around(a) == bits(set().union(*own))
        for b in (node for node in range(count) if node != a):
            passed = {node for path in nx.all_simple_paths(graph, a, b) for node in path}
            assert blocks.around(a) >> b & 1 == any(b in part for part in own)
            between = blocks.between(a, b)
            assert between == blocks.between(b, a)
            assert between & bits(passed) == bits(passed)
            assert bool(between) == nx.has_path(graph, a, b)
            ways = nx.Graph(graph)
            ways.add_edge(a, b)
            ring = next(part for part in nx.biconnected_components(ways) if {a, b} <= part)
            assert between == (bits(ring) if passed else 0)


def test_two_edges_between_the_same_nodes_are_one() -> None:
    assert Blocks(3, [(0, 1), (1, 0), (1, 2)]).between(0, 2) == 0b111
