"""What carries current to a piece of metal, and that metal which is left out for its cost is told."""

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from netcheck.core.blocks import Blocks
from netcheck.core.diagnostic import Grade
from netcheck.electrical.mains import leakage
from netcheck.electrical.mains.impedance import Does, Passage
from netcheck.electrical.mains.near_metal import NearMetal
from netcheck.electrical.mains.settings import Setting
from tests.bounds import CASES
from tests.paper import checked

NODES = 9
_PAIRS = st.lists(st.tuples(st.integers(0, NODES - 1), st.integers(0, NODES - 1)), max_size=12)


@settings(max_examples=300, deadline=None)
@given(_PAIRS, _PAIRS)
def test_what_is_around_is_what_can_be_reached_without_passing_the_line(
    carried: list[tuple[int, int]], joined: list[tuple[int, int]]
) -> None:
    """Nets 0 and 1 are the two sides of the line; networkx walks the rest. What hangs on neither carries nothing."""
    carriers = [Passage(f"R{n}", a, b, Does("1", "2", 1 + 0j)) for n, (a, b) in enumerate(carried)]
    ways = [Setting(0, 1, {a: b}, "") for a, b in joined]
    near = NearMetal(carriers, ways, {0, 1})
    line = {0, 1}.union(*({a, b} for a, b in joined if {a, b} & {0, 1}))
    graph = nx.Graph([(a, b) for a, b in (*carried, *joined) if not {a, b} & {0, 1}])
    for metal in range(2, NODES):
        piece = nx.node_connected_component(graph, metal) if metal in graph else {metal}
        around = tuple(each for each in carriers if {each.a, each.b} & piece)
        fed = any({each.a, each.b} & line for each in around)
        assert near.around(metal) == (around if fed else ())


@settings(max_examples=200, deadline=None)
@given(_PAIRS, st.integers(0, NODES - 1))
def test_what_shares_a_block_with_a_node(pairs: list[tuple[int, int]], node: int) -> None:
    edges = [(a, b) for a, b in pairs if a != b]
    expected = {n for block in nx.biconnected_components(nx.Graph(edges)) if node in block for n in block}
    around = Blocks(NODES, edges).around(node)
    assert {n for n in range(NODES) if around >> n & 1} == expected


def _joined(size: int) -> str:
    case = next(case for case in CASES if case.name == "exposed metal in one network, check")
    return case.files(size)["list.netck"]


def test_metal_that_is_left_out_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    text = _joined(6)
    whole = [d for d in checked(text).diagnostics if d.rule == "hot-chassis"]
    assert not [d for d in whole if "not worked out" in d.headline]
    monkeypatch.setattr(leakage, "MOST_SOLVED", 6 * 8)  # six resistors and the plug both ways round, each time
    headlines = [d.headline for d in checked(text).diagnostics if d.rule == "hot-chassis"]
    assert headlines == [d.headline for d in whole]
    monkeypatch.setattr(leakage, "MOST_SOLVED", 3 * 8)
    (left,) = (d for d in checked(text).diagnostics if "not worked out" in d.headline)
    assert left.headline == "the line current into 3 pieces of metal was not worked out"
    assert left.touched.nets == ("G4", "G5", "G6")
    assert left.grade is Grade.LOOK
