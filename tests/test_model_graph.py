"""What a circuit answers: the cheapest cut against networkx, neighbours on a part, where the file says a joint."""

from itertools import pairwise

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from netcheck.core.circuit import How, Join
from netcheck.model.graph import CircuitGraph
from netcheck.model.joins_at import JoinsAt
from tests.paper import circuit
from tests.strategies import Chassis, chassis

BASE = """
tube V5 6V6GT
tube V6 5Y3GT
strip SP1 5 lugs foot 3
can C30 insulated
section C30A 20 mfd 450 V
resistor R1 470k
resistor R2 1k
resistor R3 1k
net B+: R1.1, R2.1
at SP1.1: R1.2, SP1.2, V5.8
wire SP1.2 to V5.4 red
at SP1.5: C30.A
"""
LOG = 'start from "base.netck"\nat SP1.4: R3.2\nlift R2.1\nat SP1.4: R2.2\n'


def graph(text: str = BASE, **others: str) -> CircuitGraph:
    return CircuitGraph(circuit(text, **others))


def named(state: CircuitGraph, points: tuple[int, ...]) -> list[str]:
    return [state.point(at).name for at in points]


@given(chassis(), st.data())
def test_a_cut_parts_two_points_at_the_least_cost(of: Chassis, data: st.DataObject) -> None:
    state = graph(of.text())
    one, other = (data.draw(st.integers(0, len(state.circuit.points) - 1)) for _ in "12")
    joined = nx.Graph()
    joined.add_nodes_from((one, other))
    for join in state.circuit.joins:
        if join.a != join.b:
            before = joined.get_edge_data(join.a, join.b, {"capacity": 0})["capacity"]
            joined.add_edge(join.a, join.b, capacity=before + state.cost((join,)))
    if one == other:
        return
    cut = state.cheapest_cut((one,), (other,))
    assert state.cost(cut) == nx.minimum_cut_value(joined, one, other)
    assert bool(cut) == nx.has_path(joined, one, other)
    assert state.parts(cut, (one,), (other,))
    assert state.parts((), (one,), (other,)) != bool(cut)
    reached = state.first_reached(cut, (one,), (other,))
    assert reached == (other if cut else None)


def test_of_joints_in_a_row_the_wire_is_cut_before_the_solder() -> None:
    state = graph()
    (cut,) = state.cheapest_cut((state.circuit.index["R1.2"],), (state.circuit.index["V5.4"],))
    assert cut.how is How.WIRE


def test_what_this_file_says_is_likelier_wrong_than_what_it_starts_from() -> None:
    base = "strip SP1 5 lugs\nresistor R1 1k\nat SP1.1: R1.1\nwire SP1.1 to SP1.2 red\n"
    state = graph('start from "base.netck"\nwire SP1.2 to SP1.4 black\n', base=base)
    ends = state.circuit.index["SP1.1"], state.circuit.index["SP1.4"]
    for one, other in (ends, ends[::-1]):
        assert [join.words for join in state.cheapest_cut((one,), (other,))] == ["black"]


@pytest.mark.parametrize(("wires", "net", "parted"), [(2, "own", "wires"), (4, "own", "net"), (4, "inherited", "net")])
def test_two_wires_of_this_file_are_cut_before_a_net_of_the_paper_and_four_are_not(
    wires: int, net: str, parted: str
) -> None:
    """A joint that nobody at the bench has made is undone last, and costs no more where an earlier file names it."""
    base, line = "strip SP1 5 lugs\n", "net a: SP1.1\n"
    run = "wire SP1.1 to SP1.4 red\n" * wires
    text = f"{line}{run}" if net == "own" else run
    state = graph(f'start from "base.netck"\n{text}', base=base + line * (net == "inherited"))
    cut = state.cheapest_cut((state.circuit.index["a"],), (state.circuit.index["SP1.4"],))
    assert [join.how for join in cut] == ([How.WIRE] * wires if parted == "wires" else [How.NET])


@pytest.mark.parametrize("moulded", ["at PC1.1: R9.1\nat PC1.2: R9.2\n", "at R9.1: PC1.1\nat R9.2: PC1.2\n"])
def test_what_is_moulded_is_parted_from_its_pin_by_nothing_else(moulded: str) -> None:
    """Whichever of the two the line puts first; a lug beside that is soldered to the pin is what can be undone."""
    state = graph(f"network PC1 3 pins\nresistor R9 1k\nstrip SP1 3 lugs\n{moulded}wire SP1.1 to PC1.1 to SP1.2 red\n")
    index = state.circuit.index
    (cut,) = state.cheapest_cut((index["R9.1"],), (index["SP1.1"],))
    assert cut.how is How.WIRE
    inside = state.cheapest_cut((index["R9.1"],), (index["PC1.1"],))
    assert state.cost(inside) > 10_000


def test_what_an_undone_joint_led_to_is_on_its_far_side() -> None:
    """The strip's wire to the tube is undone: beyond it lies the tube's pin, and not what hangs on the near lug."""
    state = graph()
    index = state.circuit.index
    undone = state.cheapest_cut((index["R1.2"],), (index["V5.4"],))
    ends = (index["R1.2"], index["SP1.2"], index["V5.4"])
    for way in (ends, ends[::-1]):
        assert state.first_reached(undone, (index["R1.2"],), way) == index["V5.4"]


# From below, pins of an octal socket count clockwise from the key and 8 is beside 1; lugs of a strip have ends.
BESIDE = {
    "V5.1": ["V5.8", "V5.2"], "V5.5": ["V5.4", "V5.6"], "V5.8": ["V5.7", "V5.1"], "SP1.1": ["SP1.2"],
    "SP1.3": ["SP1.2", "SP1.4"], "SP1.5": ["SP1.4"], "R1.1": [], "chassis": [], "B+": [], "C30.can": [], "C30.A": [],
}  # fmt: skip


@pytest.mark.parametrize("point", BESIDE)
def test_what_is_beside_a_lug_or_a_pin(point: str) -> None:
    state = graph()
    assert named(state, state.beside(state.circuit.index[point])) == BESIDE[point]


SPOKEN = {
    "V5.8": "V5.8 (cathode)", "V6.2": "V6.2 (filament-1)", "V6.3": "V6.3", "SP1.3": "SP1.3", "C30A+": "C30A+",
    "R1.1": "R1.1", "B+": "B+", "chassis": "chassis",
}  # fmt: skip


@pytest.mark.parametrize("point", SPOKEN)
def test_a_point_is_read_aloud_with_its_electrode(point: str) -> None:
    state = graph()
    assert state.spoken(state.circuit.index[point]) == SPOKEN[point]


# Where a lead hangs: a lug or pin that it is soldered to goes before one that a wire leads to, and both before a net.
SITES = {"R1.2": "SP1.1", "V5.4": "SP1.2", "R2.1": "B+", "R3.1": "R3.1", "C30A+": "C30.A"}


@pytest.mark.parametrize("point", SITES)
def test_where_a_lead_is(point: str) -> None:
    state = graph()
    assert state.point(state.site(state.circuit.index[point])).name == SITES[point]


# The word of the last layer that speaks of a point; for the hub of a line the line itself; else the part's own name.
SAID = {
    "R1.2": "R1.2", "R3.2": "R3.2", "R2.2": "R2.2", "R2.1": "R2.1", "R3.1": "R3", "C30A+": "C30.A",
    "SP1.1": "at SP1.1: R1.2, SP1.2, V5.8", "V5.4": "V5.4",
}  # fmt: skip


@pytest.mark.parametrize("point", SAID)
def test_where_the_file_says_a_joint(point: str) -> None:
    state = graph(LOG, base=BASE)
    assert state.said_at(state.circuit.index[point]).text == SAID[point]


# A net is called by its own name before any of its points, by the first pin on it before any other lead or lug.
NAMED = {
    "R1.1": "B+", "R1.2": "V5.4 (screen)", "SP1.3": "chassis", "SP1.4": "SP1.4", "C30.can": "C30.can",
}  # fmt: skip


@pytest.mark.parametrize("point", NAMED)
def test_what_a_net_is_called(point: str) -> None:
    state = graph(LOG, base=BASE)
    assert state.net_names[state.circuit.nets[state.circuit.index[point]]] == NAMED[point]


def test_members_of_a_net_stand_as_in_the_file() -> None:
    state = graph()
    assert all(a < b for points in state.members.values() for a, b in pairwise(points))


@given(chassis())
def test_joins_at_a_point_stand_as_in_the_file(drawn: Chassis) -> None:
    state = CircuitGraph(circuit(drawn.text()))
    for at in range(len(state.circuit.points)):
        assert list(state.joins_at[at]) == [join for join in state.circuit.joins if at in (join.a, join.b)]


def test_a_join_of_a_point_with_itself_counts_once_and_a_point_of_a_later_state_has_none() -> None:
    place = graph().circuit.source.whole
    own, between = (Join(1, end, How.SOLDERED, place, place) for end in (1, 2))
    found = JoinsAt(4, (own, between))
    assert [list(found[at]) for at in range(6)] == [[], [own, between], [between], [], [], []]
