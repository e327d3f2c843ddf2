"""The named comparison agrees with networkx on the graph atlas; all of it is run by ``python -m tests.atlas_full``."""

import pytest

from tests.atlas import Drawing, are_equal, are_told_equal, dice, drawings, pairs_of_one_size

SEED = 20
EVERY = 23  # of the pairs of two graphs


@pytest.mark.parametrize("edges", range(1, 16))
def test_a_relabelled_graph_is_equal(edges: int) -> None:
    rng = dice(SEED + edges)
    for drawing in (d for d in drawings(6) if len(d.ends) == edges):
        other = drawing.relabelled(rng)
        assert are_equal(drawing, other)
        assert are_told_equal(drawing, other, rng), drawing


@pytest.mark.parametrize("edges", range(1, 16))
def test_a_graph_with_its_edges_renamed_is_equal_exactly_when_networkx_says_so(edges: int) -> None:
    rng = dice(SEED + edges)
    for drawing in (d for d in drawings(6) if len(d.ends) == edges):
        other = drawing.renamed(rng)
        assert are_told_equal(drawing, other, rng) is are_equal(drawing, other), (drawing, other)


def test_two_graphs_with_equally_many_edges_are_equal_exactly_when_networkx_says_so() -> None:
    rng = dice(SEED)
    pairs = list(pairs_of_one_size(6))[::EVERY]
    assert len(pairs) > 50
    for one, other in pairs:
        assert are_told_equal(one, other, rng) is are_equal(one, other), (one, other)


def test_both_answers_occur() -> None:
    """Else the tests above would hold for a comparison that always says the same."""
    triangle = Drawing({"R1": (0, 1), "R2": (1, 2), "R3": (2, 0)})
    star = Drawing({"R1": (0, 1), "R2": (0, 2), "R3": (0, 3)})
    path = Drawing({"R1": (0, 1), "R2": (1, 2), "R3": (2, 3)})
    turned = Drawing({"R2": (0, 1), "R1": (1, 2), "R3": (2, 3)})
    assert are_equal(path, path.relabelled(dice(SEED)))
    assert not any(are_equal(path, other) for other in (triangle, star, turned))
