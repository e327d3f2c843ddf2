"""Pairs without a choice: every best pairing has them, as networkx's are."""

import networkx as nx
from hypothesis import given, settings
from hypothesis import strategies as st

from netcheck.model.graph import best_matching
from netcheck.model.settled_pairs import without_choice

_WEIGHTS = st.dictionaries(
    st.tuples(st.integers(0, 5), st.integers(0, 5)), st.integers(1, 4), max_size=10
)  # old and new keys are kept apart


def _worth(weights: dict[tuple[int, int], int], pairs: dict[int, int]) -> int:
    assert len(set(pairs.values())) == len(pairs)
    return sum(weights[pair] for pair in pairs.items())


@settings(max_examples=500, deadline=None)
@given(_WEIGHTS)
def test_a_best_pairing_is_as_good_as_networkx_s(weights: dict[tuple[int, int], int]) -> None:
    graph = nx.Graph()
    for (old, new), weight in weights.items():
        graph.add_edge(("old", old), ("new", new), weight=weight)
    best = sum(graph[one][other]["weight"] for one, other in nx.max_weight_matching(graph))
    assert _worth(weights, best_matching(weights)) == best


@settings(max_examples=500, deadline=None)
@given(_WEIGHTS)
def test_what_has_no_choice_is_in_every_best_pairing(weights: dict[tuple[int, int], int]) -> None:
    """Without such a pair the best that is left is worth less."""
    found, _ = without_choice(weights)
    best = _worth(weights, best_matching(weights))
    for pair in found.items():
        less = {other: weight for other, weight in weights.items() if other != pair}
        assert _worth(less, best_matching(less)) < best


def test_a_key_with_its_partners_to_itself_is_settled() -> None:
    around_old = {(1, 11): 3, (1, 12): 2}
    around_new = {(2, 21): 1, (3, 21): 5}
    tied = {(4, 41): 2, (4, 42): 2}
    shared = {(5, 51): 9, (5, 52): 1, (6, 52): 3}
    assert without_choice({**around_old, **around_new, **tied, **shared}) == ({1: 11, 3: 21}, {**tied, **shared})
