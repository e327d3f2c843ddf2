"""How far two parts look alike: against the hashes of Weisfeiler and Lehman in networkx, and counted by hand."""

import random
from collections import defaultdict
from collections.abc import Hashable, Iterable, Sequence

import networkx as nx
import pytest

from netcheck.matching.structure import Anchors, Structure, StructurePart
from netcheck.matching.surroundings import surroundings
from tests.structure_full import random_circuit, rewired

STEPS = 4  # so far around a fault things look different
RAIL = 12  # ends: a net with more is a rail, and looks like any other from afar
Place = tuple[str, int, int]  # a part or net, in the first or second structure, by its number


def resistor(one: int, other: int, colour: str = "1k") -> StructurePart:
    return StructurePart(colour, (("end", one), ("end", other)))


def chain(length: int) -> Structure:
    """So many equal resistors in a row."""
    return Structure(tuple(resistor(n, n + 1) for n in range(length)), length + 1)


def star(*colours: str) -> Structure:
    """Resistors from net 0 to a net of their own."""
    return Structure(tuple(resistor(0, n, colour) for n, colour in enumerate(colours, 1)), len(colours) + 1)


def looks(one: Structure, other: Structure, anchors: Anchors = Anchors()) -> list[dict[Place, int]]:  # noqa: B008
    """What every part and net of both looks like, depth by depth."""
    seen = surroundings(one, other, anchors)
    assert {len(side.parts) for side in seen} == {len(side.nets) for side in seen} == {STEPS + 1}
    found = []
    for depth in range(STEPS + 1):
        at: dict[Place, int] = {}
        for side, each in enumerate(seen):
            at |= {("part", side, n): look for n, look in enumerate(each.parts[depth])}
            at |= {("net", side, n): look for n, look in enumerate(each.nets[depth])}
        found.append(at)
    return found


def classes(looks_: Iterable[tuple[Hashable, Hashable]]) -> set[frozenset[Hashable]]:
    found: dict[Hashable, set[Hashable]] = defaultdict(set)
    for place, look in looks_:
        found[look].add(place)
    return {frozenset(each) for each in found.values()}


def of_hashes(structures: Sequence[Structure]) -> list[set[frozenset[Hashable]]]:
    """The same by networkx: part, end and net are vertices, so that a step from part to net is two of its own."""
    graph: nx.Graph[Place] = nx.Graph()
    for side, structure in enumerate(structures):
        graph.add_nodes_from((("net", side, n) for n in range(structure.nets)), look="net")
        ends = 0
        for number, part in enumerate(structure.parts):
            graph.add_node(("part", side, number), look=f"part {part.colour}")
            for role, net in part.ends:
                end = ("end", side, ends)
                graph.add_node(end, look=f"end {role}")
                graph.add_edges_from((((("part", side, number)), end), (end, ("net", side, net))))
                ends += 1
    hashes = nx.weisfeiler_lehman_subgraph_hashes(
        graph, node_attr="look", iterations=4 * STEPS, include_initial_labels=True
    )
    found = []
    for depth in range(STEPS + 1):
        # A net knows of the parts on it at its first step; a part then of the nets that know that.
        steps = {"part": 4 * depth, "net": max(4 * depth - 2, 0)}
        found.append(classes((at, each[steps[at[0]]]) for at, each in hashes.items() if at[0] != "end"))
    return found


def test_parts_and_nets_look_alike_as_far_as_their_hashes_agree() -> None:
    dice = random.Random(3)  # noqa: S311 (repeatable, and no secret)
    tried = 0
    while tried < 60:
        one = random_circuit(dice)
        on = [net for part in one.parts for _, net in part.ends]
        if max(map(on.count, on)) <= RAIL:
            tried += 1
            other = rewired(one, dice, tried % 3)
            assert [classes(each.items()) for each in looks(one, other)] == of_hashes((one, other))


def test_along_a_chain_one_more_part_is_told_apart_with_every_step() -> None:
    """By its distance to the nearer end; what is farther away than the steps looks alike."""
    seen, _ = surroundings(chain(20), chain(20), Anchors())
    assert [len(set(each)) for each in seen.parts] == [1, 2, 3, 4, 5]
    assert [len(set(each)) for each in seen.nets] == [1, 2, 3, 4, 5]
    assert len(set(seen.parts[-1][4:-4])) == 1


@pytest.mark.parametrize(("ends", "blind"), [(RAIL, False), (RAIL + 1, True)])
def test_what_hangs_on_a_rail_is_not_seen_from_the_rest_of_it(ends: int, *, blind: bool) -> None:
    same, one_off = star(*["1k"] * ends), star(*["1k"] * (ends - 1), "22k")
    for depth, at in enumerate(looks(same, one_off)):
        assert (at["part", 0, 0] == at["part", 1, 0]) is (blind or depth == 0)
        assert (at["net", 0, 0] == at["net", 1, 0]) is (blind or depth == 0)


def test_a_part_with_both_ends_on_a_net_counts_twice_for_a_rail() -> None:
    bridged = [resistor(0, 0), *star(*["1k"] * (RAIL - 1)).parts]
    one, other = Structure(tuple(bridged), RAIL), Structure((*bridged[:-1], resistor(0, RAIL - 1, "22k")), RAIL)
    assert all(at["part", 0, 1] == at["part", 1, 1] for at in looks(one, other))


def test_what_is_known_looks_like_its_counterpart_at_any_depth_and_like_nothing_else() -> None:
    """The fourth resistor of one chain is the ninth of the other; the fifth net of one is the twelfth of the other."""
    for at in looks(chain(20), chain(20), Anchors(parts=((3, 8),), nets=((4, 11),))):
        for word, old, new in (("part", 3, 8), ("net", 4, 11)):
            assert [place for place, look in at.items() if look == at[word, 0, old]] == [(word, 0, old), (word, 1, new)]


def test_two_anchors_are_two_looks_and_a_rail_that_is_known_is_no_rail() -> None:
    wide = star(*["1k"] * (RAIL + 5))
    for at in looks(wide, wide, Anchors(parts=((0, 0), (1, 1)), nets=((0, 0), (5, 5)))):
        assert len({at["part", 0, 0], at["part", 0, 1], at["net", 0, 0], at["net", 0, 5], at["net", 0, 7]}) == 5
    two_rails = Structure((*wide.parts, *(resistor(18, 19 + n) for n in range(RAIL + 5))), 19 + RAIL + 5)
    known = looks(two_rails, two_rails, Anchors(nets=((0, 0),)))
    assert all(at["net", 0, 0] != at["net", 0, 18] for at in known)
    assert all(at["net", 0, 0] == at["net", 0, 18] for at in looks(two_rails, two_rails))
