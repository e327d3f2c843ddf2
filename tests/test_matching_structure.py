"""Structures without names: same, different or undecided; the wide runs are in ``structure_full``."""

import random
from itertools import combinations

import networkx as nx
import pytest
from msgspec.structs import replace

from netcheck.core.budget import Budget
from netcheck.matching.correspondence import correspondence
from netcheck.matching.structure import (
    MOST_WALKED,
    Anchors,
    Different,
    Match,
    Structure,
    StructurePart,
    Undecided,
    match,
    verified,
)
from tests.structure_full import circuits, netlist, of_graph, random_circuit, rewired, rook, same, shrikhande, twisted

# Pairs of the atlas that colour refinement alone can't tell apart, computed with networkx 3.6.1; C6 and two
# triangles are the smallest.
ALIKE = [(105, 106), (128, 130), (152, 154), (174, 175)]
ENDS = ("end", "end")


def resistor(one: int, other: int, colour: str = "1k") -> StructurePart:
    return StructurePart(colour, (("end", one), ("end", other)), kin="resistor")


def electrolytic(plus: int, minus: int) -> StructurePart:
    return StructurePart("20 mfd", (("plus", plus), ("minus", minus)), kin="electrolytic")


LADDER = Structure((resistor(0, 1), resistor(1, 2), electrolytic(1, 3), electrolytic(2, 3), resistor(2, 3, "22k")), 4)


def test_small_graphs_are_the_same_exactly_when_isomorphic() -> None:
    graphs = [g for g in nx.graph_atlas_g() if len(g) in (4, 5)]
    for i, j in combinations(range(len(graphs)), 2):
        assert isinstance(match(of_graph(graphs[i]), of_graph(graphs[j], seed=i)), Different), (i, j)


def test_every_graph_of_the_atlas_is_the_same_as_itself_in_another_order() -> None:
    for number, graph in enumerate(nx.graph_atlas_g()):
        one, other = of_graph(graph), of_graph(graph, seed=number)
        found = match(one, other)
        assert isinstance(found, Match), number
        assert verified(one, other, Anchors(), found)


@pytest.mark.parametrize(("one", "other"), ALIKE)
def test_netlists_that_refinement_cannot_tell_apart_are_told_apart(one: int, other: int) -> None:
    atlas = nx.graph_atlas_g()
    assert not same(netlist(atlas[one], 1), netlist(atlas[other], 2))
    assert same(netlist(atlas[one], 1), netlist(atlas[one], 3))


def test_strongly_regular_graphs_with_equal_figures_are_told_apart() -> None:
    assert isinstance(match(of_graph(rook()), of_graph(shrikhande())), Different)
    assert isinstance(match(of_graph(shrikhande()), of_graph(shrikhande(), seed=4)), Match)


@pytest.mark.parametrize(("twists", "expected"), [(0, Match), (1, Different), (2, Match), (3, Different)])
def test_only_an_even_number_of_twists_can_be_undone(twists: int, expected: type) -> None:
    base = nx.complete_graph(4)
    assert isinstance(match(of_graph(twisted(base, 0)), of_graph(twisted(base, twists), seed=1)), expected)


def test_a_search_without_budget_is_undecided_and_says_about_what() -> None:
    answer = match(of_graph(rook()), of_graph(shrikhande()), budget=Budget(0))
    assert isinstance(answer, Undecided)
    # A ring of six and two of three, behind a part of its own: the six on either side are what can't be told apart.
    first = resistor(6, 7, "22k")
    ring, two = (of_graph(graph) for graph in (nx.cycle_graph(6), nx.disjoint_union_all([nx.cycle_graph(3)] * 2)))
    one, other = (Structure((first, *graph.parts), 8) for graph in (ring, two))
    answer = match(one, other, budget=Budget(0))
    assert isinstance(answer, Undecided)
    assert (sorted(answer.old), sorted(answer.new)) == ([1, 2, 3, 4, 5, 6], [1, 2, 3, 4, 5, 6])
    graph = nx.cycle_graph(5)
    # The budget counts failed tries only: what comes out at the first try costs nothing.
    assert isinstance(match(of_graph(graph), of_graph(graph, seed=2), budget=Budget(0)), Match)


def test_what_a_search_walked_in_vain_is_the_least_budget_that_it_needs() -> None:
    graphs = of_graph(rook()), of_graph(shrikhande())
    ample = Budget(MOST_WALKED)
    assert isinstance(match(*graphs, budget=ample), Different)
    walked = MOST_WALKED - ample.left
    assert walked > 0
    exact = Budget(walked)
    assert isinstance(match(*graphs, budget=exact), Different)
    assert exact.is_spent
    assert isinstance(match(*graphs, budget=Budget(walked - 1)), Undecided)
    assert isinstance(match(*graphs), Different)


def test_random_circuits_agree_with_igraph() -> None:
    count = circuits(400)
    assert count["mistakes"] == 0
    assert min(count["same"], count["different"]) > 100


def test_ends_of_one_role_change_places_and_others_do_not() -> None:
    turned = Structure((resistor(1, 0), *LADDER.parts[1:]), 4)
    backwards = Structure((*LADDER.parts[:2], electrolytic(3, 1), *LADDER.parts[3:]), 4)
    assert isinstance(match(LADDER, turned), Match)
    assert isinstance(match(LADDER, backwards), Different)


def test_anchors_are_kept_even_where_the_structures_are_the_same_without_them() -> None:
    chain = Structure((resistor(0, 1), resistor(1, 2)), 3)
    assert match(chain, chain) == Match((0, 1), (0, 1, 2))
    assert match(chain, chain, Anchors(nets=((0, 2),))) == Match((1, 0), (2, 1, 0))
    assert match(chain, chain, Anchors(parts=((0, 1),))) == Match((1, 0), (2, 1, 0))
    assert isinstance(match(chain, chain, Anchors(nets=((0, 1),))), Different)
    assert isinstance(match(chain, chain, Anchors(parts=((0, 0),), nets=((0, 2),))), Different)


def test_an_anchored_pair_may_differ_in_colour() -> None:
    other = Structure((resistor(0, 1, "1.2k"), *LADDER.parts[1:]), 4)
    assert isinstance(match(LADDER, other), Different)
    assert isinstance(match(LADDER, other, Anchors(parts=((0, 0),))), Match)


def test_a_difference_names_the_parts_that_are_not_equally_many() -> None:
    parts = (resistor(0, 1, "22k"), *LADDER.parts[1:])
    assert match(LADDER, Structure(parts, 4)) == Different((0, 1), (1,))
    assert match(LADDER, Structure(parts[1:], 4)) == Different()


@pytest.mark.parametrize(
    "wrong",
    [
        Match((1, 0, 2, 3, 4), (0, 1, 2, 3)),
        Match((0, 1, 2, 3, 4), (0, 2, 1, 3)),
        Match((0, 1, 3, 2, 4), (0, 1, 2, 3)),
        Match((0, 0, 2, 3, 4), (0, 1, 2, 3)),
        Match((0, 1, 2, 3, 4), (0, 1, 1, 3)),
        Match((0, 4, 2, 3, 1), (0, 1, 2, 3)),
    ],
)
def test_what_does_not_hold_is_not_verified(wrong: Match) -> None:
    right = Match((0, 1, 2, 3, 4), (0, 1, 2, 3))
    assert verified(LADDER, LADDER, Anchors(), right)
    assert not verified(LADDER, LADDER, Anchors(), wrong)
    assert not verified(LADDER, LADDER, Anchors(nets=((0, 3),)), right)
    assert not verified(LADDER, LADDER, Anchors(parts=((0, 1),)), right)


def test_many_equal_islands_cost_no_search() -> None:
    islands = nx.disjoint_union_all([nx.cycle_graph(3)] * 60)
    assert isinstance(match(of_graph(islands), of_graph(islands, seed=1), budget=Budget(0)), Match)


def test_a_correspondence_is_one_to_one_and_within_a_colour_whatever_is_wrong() -> None:
    dice = random.Random(7)  # noqa: S311 (repeatable, and no secret)
    for _ in range(300):
        one = random_circuit(dice)
        other = rewired(one, dice, dice.randint(0, 3))
        found = correspondence(one, other)
        assert found == correspondence(one, other)
        assert len({e.old for e in found.parts}) == len({e.new for e in found.parts}) == len(found.parts)
        assert all(one.parts[e.old].colour == other.parts[e.new].colour for e in found.parts)
        assert all(e.agreed <= len(e.shared) <= e.ends for e in found.parts)


def test_a_part_with_one_lead_wrong_keeps_its_counterpart() -> None:
    bleeder = resistor(0, 3, "470k")
    whole = Structure((*LADDER.parts, bleeder), 4)
    moved = Structure((*LADDER.parts[:3], electrolytic(0, 3), LADDER.parts[4], bleeder), 4)
    found = {e.old: e for e in correspondence(whole, moved, Anchors(nets=((3, 3),))).parts}
    assert {old: e.new for old, e in found.items()} == {n: n for n in range(6)}
    assert (found[3].ends, found[3].agreed, found[2].agreed) == (2, 1, 2)


def test_another_colour_of_the_same_kin_is_paired_only_where_every_end_agrees() -> None:
    known = Anchors(nets=((3, 3), (0, 0)))
    changed = Structure((*LADDER.parts[:4], resistor(2, 3, "220k")), 4)
    elsewhere = Structure((*LADDER.parts[:4], resistor(0, 3, "220k")), 4)
    other_kin = Structure((*LADDER.parts[:4], replace(LADDER.parts[4], colour="5 H", kin="choke")), 4)
    assert 4 in {e.old for e in correspondence(LADDER, changed, known).parts}
    assert 4 not in {e.old for e in correspondence(LADDER, elsewhere, known).parts}
    assert 4 not in {e.old for e in correspondence(LADDER, other_kin, known).parts}
