"""The pairing that is plain at a glance, against networkx."""

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from netcheck.core.pairing import only_pairing

PAIRS = st.tuples(st.integers(0, 5), st.integers(0, 5))
WEIGHTS = st.dictionaries(PAIRS, st.integers(0, 9), max_size=12)


def total(weights: dict[tuple[int, int], int], pairing: dict[int, int]) -> int:
    return sum(weights[pair] for pair in pairing.items())


def heaviest(weights: dict[tuple[int, int], int]) -> dict[int, int]:
    graph: nx.Graph = nx.Graph()
    for (old, new), weight in weights.items():
        graph.add_edge((0, old), (1, new), weight=weight)
    return {a[1]: b[1] for a, b in map(sorted, nx.max_weight_matching(graph))}


@given(WEIGHTS)
def test_what_is_plain_is_what_networkx_finds(weights: dict[tuple[int, int], int]) -> None:
    plain = only_pairing(weights)
    assert plain is None or plain == heaviest(weights)


@given(WEIGHTS)
def test_with_weights_far_apart_everything_is_plain(weights: dict[tuple[int, int], int]) -> None:
    """Powers of three: each outweighs any two lighter ones together, so the heaviest left is always certain."""
    apart = {pair: 3**place for place, pair in enumerate(weights)}
    assert len(apart) > 8 or only_pairing(apart) == heaviest(apart)


def test_a_tie_is_not_plain() -> None:
    assert only_pairing({(0, 0): 1, (0, 1): 1}) is None
    assert only_pairing({(0, 0): 2, (0, 1): 1, (1, 0): 1}) is None  # the two lighter ones weigh as much
    assert only_pairing({(0, 0): 3, (0, 1): 1, (1, 0): 1}) == {0: 0}


def test_a_lead_that_moved_is_plain() -> None:
    """Two nets of some leads, of which one lead went over to the other."""
    assert only_pairing({(0, 0): 3_000, (0, 1): 1_000, (1, 1): 3_000}) == {0: 0, 1: 1}


def test_it_is_plain_in_whatever_order_the_pairs_are_told() -> None:
    across = {(0, 0): 1, (0, 1): 5, (1, 0): 5, (1, 1): 1}
    assert only_pairing(across) == only_pairing(dict(reversed(across.items()))) == {0: 1, 1: 0}
    assert only_pairing({(0, 0): 1, (0, 1): 9, (0, 2): 7, (1, 2): 3}) == {0: 1, 1: 2}
