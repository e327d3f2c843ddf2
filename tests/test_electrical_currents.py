"""Which way mean current may run through each kind of element, what may lift it, and what must flow."""

import pytest
from msgspec.structs import replace

from netcheck.electrical.network.elements import Rectifier
from netcheck.electrical.proof.currents import Currents, currents, joined_nodes, mirrored
from tests.circuits import circuit

BOTH = {"a>b", "b>a"}
# An element between two nodes: the ways of mean current, what may pump it, and what must flow (with its threshold).
PASSED = [
    ("R R1 a b 1000", BOTH, set(), {"a>b 0", "b>a 0"}),
    ("L L1 a b 10", BOTH, set(), {"a>b 0", "b>a 0"}),
    ("S W1 a b 100", BOTH, set(), {"a>b 0", "b>a 0"}),
    ("S W1 a b -100", BOTH, set(), {"a>b 0", "b>a 0"}),
    ("B B1 a b 9", BOTH, {"b>a"}, {"b>a 0"}),
    ("B B1 a b -9", BOTH, {"a>b"}, {"a>b 0"}),
    ("B B1 a b 0.5", BOTH, {"b>a"}, {"b>a 0"}),
    ("D D1 a b", {"a>b"}, {"a>b"}, {"a>b 0.7"}),
    ("X D1 a b", {"a>b"}, {"a>b"}, {"a>b 5"}),
    ("J V1 a b 0.01", {"a>b"}, set(), set()),
    ("T V1 a b", {"a>b"}, set(), set()),
    ("T V1 a b g", {"a>b", "g>b"}, {"g>b"}, set()),
    ("G VR1 a b 150", {"a>b"}, set(), set()),
    ("C C1 a b 1", set(), set(), set()),
    ("E C1 a b 1", set(), set(), set()),
    # What a winding swings rectifies, whatever it is.
    ("S W1 a 0 100\nJ V1 a b 0.01", {"a>b", "a>0", "0>a"}, {"a>b"}, {"a>0 0", "0>a 0"}),
    ("S W1 a 0 100\nT V1 a b", {"a>b", "a>0", "0>a"}, {"a>b"}, {"a>0 0", "0>a 0"}),
    ("S W1 a 0 100\nG VR1 a b 150", {"a>b", "a>0", "0>a"}, {"a>b"}, {"a>0 0", "0>a 0"}),
    ("S W1 a 0 100\nR R1 a b 9", {*BOTH, "a>0", "0>a"}, set(), {"a>0 0", "0>a 0", "a>b 0", "b>a 0"}),
    # Nodes with nothing between them are one.
    ("R R1 a b 0", set(), set(), set()),
    ("L L1 a b 10 0", set(), set(), set()),
    ("R R1 a b 0\nD D1 a b", set(), set(), set()),
    ("R R1 a b 0\nT V1 c d b", {"c>d", "a>d"}, {"a>d"}, set()),
]


def _told(network: str, found: Currents) -> tuple[set[str], set[str], set[str]]:
    names = circuit(network).names
    ways = {f"{names[flow.source]}>{names[flow.target]}" for flows in found.ways for flow in flows}
    pumps = {f"{names[flow.source]}>{names[flow.target]}" for flow in found.pumps}
    feeds = {
        f"{names[feed.flow.source]}>{names[feed.flow.target]} {feed.threshold:g}" for fed in found.feeds for feed in fed
    }
    return ways, pumps, feeds


@pytest.mark.parametrize(("text", "ways", "pumps", "feeds"), PASSED, ids=[text for text, *_ in PASSED])
def test_what_may_run_through_each_kind(text: str, ways: set[str], pumps: set[str], feeds: set[str]) -> None:
    assert _told(text, currents(circuit(text))) == (ways, pumps, feeds)


@pytest.mark.parametrize(("text", "ways", "pumps", "feeds"), PASSED, ids=[text for text, *_ in PASSED])
def test_in_the_mirror_every_current_runs_the_other_way(
    text: str, ways: set[str], pumps: set[str], feeds: set[str]
) -> None:
    found = mirrored(currents(circuit(text)))
    turned = [{">".join(reversed(flow.split(" ")[0].split(">"))) for flow in each} for each in (ways, pumps, feeds)]
    seen = _told(text, found)
    assert [*seen[:2], {flow.split(" ")[0] for flow in seen[2]}] == turned
    assert mirrored(found) == currents(circuit(text))


def test_the_ways_as_bits_and_by_their_ends_are_the_same() -> None:
    network = circuit("R R1 a b 1\nR R2 b 0 1\nD D1 a 0\nR R3 b a 9")
    found = currents(network)
    assert found.onward == tuple(sum(1 << node for node in {flow.target for flow in flows}) for flows in found.ways)
    for node, (flows, fed) in enumerate(zip(found.ways, found.feeds, strict=True)):
        assert {flow.source for flow in flows} <= {node}
        assert {feed.flow.target for feed in fed} <= {node}
    assert hash(found.onward)
    assert hash(found.pumps)


def test_a_grid_that_draws_nothing_is_no_way() -> None:
    text = "T V1 a b g"
    assert _told(text, currents(circuit(text), grids=False)) == ({"a>b"}, set(), set())


def test_a_rectifier_that_is_a_load_is_blocked_and_nothing_else_of_its_name() -> None:
    text = "U D1 a b\nR R1 a b 9"
    assert _told(text, currents(circuit(text), loads=frozenset({"D1", "R1"}))) == (BOTH, set(), {"a>b 0", "b>a 0"})


def test_a_rectifier_without_a_law_feeds_from_nothing_up() -> None:
    network = circuit("D D1 a b")
    (diode,) = network.elements
    assert isinstance(diode, Rectifier)
    bare = replace(network, elements=(replace(diode, law=replace(diode.law, corners=())),))
    assert _told("D D1 a b", currents(bare))[2] == {"a>b 0"}


@pytest.mark.parametrize(
    ("text", "plain", "windings"),
    [
        ("R R1 a b 0", True, True),
        ("R R1 a b 1", False, False),
        ("L L1 a b 10 0", True, True),
        ("L L1 a b 10 1", False, True),
        ("S W1 a b 9 0", True, True),
        ("S W1 a b 9 1", False, True),
        ("B B1 a b 9", False, False),
        ("D D1 a b", False, False),
    ],
)
def test_what_joins_two_nodes(text: str, *, plain: bool, windings: bool) -> None:
    network = circuit(text)
    assert (joined_nodes(network) == (0, 1, 1)) is plain
    assert (joined_nodes(network, windings=True) == (0, 1, 1)) is windings
