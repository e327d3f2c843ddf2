"""Where one can solder on a chassis, and which place of a net a hand would take first."""

import pytest

from netcheck.compare.faults.hands import Hands
from netcheck.compare.faults.places import bare_place, gap_to, is_place, nearest_places, spare_wires
from netcheck.core.mend import lines
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

CHASSIS = """
tube V1 6J5
tube V2 6J5
strip SP1 5 lugs foot 3
strip SP2 4 lugs foot 2 insulated
can C30 insulated
section C30A 20 mfd 450 V half-moon
section C30B 20 mfd 450 V square
pot RV1 500k
resistor R1 1k
resistor R2 2k
resistor R3 3k
resistor R4 4k
resistor R5 5k
resistor R6 6k
resistor R7 7k
capacitor C1 .1 mfd
at SP1.1: R1.1, V1.plate
at SP1.2: R1.2, R2.1, RV1.cw
at SP1.4: R2.2, C30A+
at SP1.5: R3.1, R4.1
wire SP2.4 to SP1.5
wire SP2.4 to V2.grid
net b: R5.1, R6.1
net free: R3.2
at SP2.1: R4.2
net ground: chassis, C30.can, RV1.ccw, R5.2, V1.cathode, V2.cathode
at C30B+: R6.2
"""
GRAPH = CircuitGraph(circuit(CHASSIS))
INDEX = GRAPH.circuit.index


def names(points: object) -> list[str]:
    assert isinstance(points, list | tuple)
    return [GRAPH.point(at).name for at in points]


@pytest.mark.parametrize(
    ("point", "place"),
    [("chassis", True), ("SP1.1", True), ("SP1.3", True), ("V1.3", True), ("C30.can", True), ("C30.A", True),
     ("RV1.wiper", True), ("R1.1", False), ("C1.2", False), ("C30A+", False), ("b", False)],
)  # fmt: skip
def test_what_one_can_solder_to(point: str, place: bool) -> None:  # noqa: FBT001
    assert is_place(GRAPH, INDEX[point]) is place


@pytest.mark.parametrize(
    ("net", "near", "wanted"),
    [
        ("SP1.5", "SP1.4", ["SP1.5", "SP2.4", "V2.5"]),  # the lug beside; another strip's; a pin last
        ("SP1.5", "SP2.3", ["SP2.4", "SP1.5", "V2.5"]),
        ("SP1.5", "V2.3", ["V2.5", "SP2.4", "SP1.5"]),  # on its own socket; of two lugs the one with fewer leads
        ("SP1.5", "SP2.1", ["SP2.4", "SP1.5", "V2.5"]),  # on its own strip, though not beside
        ("SP1.2", "R7.1", ["SP1.2", "RV1.cw"]),
        ("b", "R7.1", ["R5.1", "R6.1"]),  # leads of small parts where nothing else is there
        ("b", "R5.1", ["R6.1"]),  # and not the one in question
        ("free", "R7.1", ["R3.2"]),
        ("free", "R3.2", ["free"]),  # nothing but the net's name
    ],
)
def test_the_places_of_a_net_seen_from_a_point(net: str, near: str, wanted: list[str]) -> None:
    assert names(nearest_places(GRAPH, GRAPH.circuit.nets[INDEX[net]], INDEX[near])) == wanted


def test_of_the_chassis_the_foot_of_the_own_strip_comes_first_and_the_sheet_itself_last() -> None:
    ground = GRAPH.circuit.nets[0]
    assert names(nearest_places(GRAPH, ground, INDEX["SP1.1"]))[0] == "SP1.3"
    assert names(nearest_places(GRAPH, ground, INDEX["R7.1"]))[0] == "SP1.3"
    assert names(nearest_places(GRAPH, ground, INDEX["R7.1"]))[-1] == "chassis"


def test_the_socket_of_a_tube_that_went_out_comes_last() -> None:
    with_tube = """
    tube V1 6J5
    strip SP1 4 lugs foot 2
    resistor R1 1k
    resistor R2 1k
    resistor R3 1k
    at SP1.3: R1.1, R3.1
    at SP1.4: R3.2
    wire SP1.3 to V1.plate
    wire SP1.4 to SP1.3
    at chassis: V1.cathode, R1.2, R2.1
    """
    state = CircuitGraph(circuit('start from "set.netck"\nremove V1', set=with_tube))
    index = state.circuit.index
    found = nearest_places(state, state.circuit.nets[index["R3.1"]], index["R2.2"])
    assert [state.point(at).name for at in found] == ["SP1.4", "SP1.3", "V1.3"]


def test_a_bare_lug_is_one_with_nothing_on_it() -> None:
    assert GRAPH.point(bare_place(GRAPH, INDEX["SP2.4"], 0)).name == "SP2.3"  # beside
    assert GRAPH.point(bare_place(GRAPH, INDEX["V1.5"], 0)).name == "V1.4"  # counted as the pins are
    assert bare_place(GRAPH, INDEX["SP1.1"], 7) == 7  # what is beside holds something
    assert bare_place(GRAPH, INDEX["R1.1"], 7) == 7  # nothing is beside a lead


@pytest.mark.parametrize(
    ("site", "group", "home", "gap"),
    [
        ("SP1.1", ["SP1.1"], "SP1.2", ("SP1.1", "SP1.2")),
        ("SP1.4", ["SP1.4"], "SP1.5", ("SP1.4", "SP1.5")),
        ("R2.2", ["SP1.4"], "SP1.5", ("SP1.4", "SP1.5")),  # a lug of the group, where the lead has none
        ("SP1.1", ["SP1.1"], "SP1.4", None),  # not beside
        ("V1.3", ["V1.3"], "SP1.2", ("SP1.1", "SP1.2")),
    ],
)
def test_the_lug_beside_that_has_the_net(site: str, group: list[str], home: str, gap: tuple[str, str] | None) -> None:
    nets = GRAPH.circuit.nets
    found = gap_to(GRAPH, INDEX[site], [nets[INDEX[name]] for name in group], nets[INDEX[home]])
    assert (None if found is None else tuple(names(found))) == gap


def test_a_wire_that_joins_nothing_where_it_is_was_to_go_to_the_lug_beside() -> None:
    text = """
    strip SP1 5 lugs foot 3
    resistor R1 1k
    resistor R2 2k
    at SP1.1: R1.1
    at SP1.2: R2.1
    wire SP1.2 to SP1.4
    wire SP1.2 to SP1.4 black
    at SP1.5: R2.2
    """
    state = CircuitGraph(circuit(text))
    index, nets = state.circuit.index, state.circuit.nets
    found = [list(lines(mend)) for mend in spare_wires(Hands(state), {nets[index["R1.1"]]}, nets[index["R2.1"]])]
    assert found == [["cut SP1.2 to SP1.4", "wire SP1.1 to SP1.4"], ["cut SP1.2 to SP1.4", "wire SP1.1 to SP1.4 black"]]
    one = text.replace("    wire SP1.2 to SP1.4 black\n", "    at SP1.4: R1.2\n")
    needed = CircuitGraph(circuit(one))
    index, nets = needed.circuit.index, needed.circuit.nets
    assert not [*spare_wires(Hands(needed), {nets[index["R1.1"]]}, nets[index["R2.1"]])]
