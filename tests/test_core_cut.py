"""The cheapest cut against networkx's, on random graphs with parallel edges and sides of several points."""

import random

import networkx as nx
import pytest

from netcheck.core.cut import nearer_side


@pytest.mark.parametrize("seed", range(300))
def test_the_nearer_side_is_that_of_networkx(seed: int) -> None:
    dice = random.Random(seed)  # noqa: S311 - repeatable
    count = dice.randint(2, 14)
    pairs = [dice.sample(range(count), 2) for _ in range(dice.randint(1, 30))]
    edges = [(a, b, dice.choice((10, 11, 12, 30, 1_000))) for a, b in pairs]
    one, other = ({*dice.sample(range(count), dice.randint(1, min(3, count)))} for _ in "12")
    graph = nx.Graph()
    for a, b, cost in edges:
        before = graph.edges[a, b]["capacity"] if graph.has_edge(a, b) else 0
        graph.add_edge(a, b, capacity=before + cost)
    graph.add_edges_from((("one", at) for at in one), capacity=10**9)
    graph.add_edges_from((("other", at) for at in other), capacity=10**9)
    near = nearer_side(edges, one, other)
    if not nx.has_path(graph, "one", "other"):
        assert near is None
        return
    expected = nx.minimum_cut(graph, "one", "other")[1][0]
    assert near is not None
    assert {at for at in near if at >= 0} == expected - {"one", "other"}


def test_what_flowed_one_way_may_be_sent_back() -> None:
    """A network in which the shortest ways fill an edge that the largest flow takes the other way round."""
    edges = [
        (4, 10, 2), (1, 2, 3), (0, 10, 3), (1, 5, 3), (4, 9, 1), (2, 10, 1), (6, 8, 1), (2, 3, 2), (2, 9, 1),
        (6, 10, 1), (0, 5, 1), (5, 6, 1), (5, 9, 3), (0, 8, 2), (1, 3, 1), (3, 5, 2),
    ]  # fmt: skip
    graph = nx.Graph()
    graph.add_weighted_edges_from(edges, weight="capacity")
    near = nearer_side(edges, (0,), (10,))
    assert near is not None
    assert sum(cost for a, b, cost in edges if (a in near) is not (b in near)) == nx.minimum_cut_value(graph, 0, 10)


def test_a_chain_as_long_as_a_file_is_cut_at_its_cheapest_edge() -> None:
    """No call goes as deep as the chain is long."""
    edges = [(at, at + 1, 10 if at == 4_000 else 11) for at in range(8_000)]
    near = nearer_side(edges, (0,), (8_000,))
    assert near is not None
    assert (4_000 in near, 4_001 in near) == (True, False)
