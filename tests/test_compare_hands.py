"""What hands can do on a chassis: where one solders, what moves whole, what is taken off."""

import pytest

from netcheck.compare.faults.hands import Hands, tried
from netcheck.core.mend import Cut, Mend, lines
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

CHASSIS = """
tube V1 6J5
strip SP1 4 lugs foot 3
strip SP2 3 lugs foot 2 insulated
can C30 insulated
section C30A 20 mfd 450 V half-moon
resistor R1 1k
resistor R2 2k
resistor R3 3k
resistor R4 4k
capacitor C1 .1 mfd
net a: R1.1, R2.1, V1.plate
net b: R1.2, R2.2
net c: C30A+, R3.1
at SP1.1: R3.2, C1.1
at SP1.2: R4.1
wire SP1.2 to SP1.4 green
wire SP1.1 to V1.grid
at C30.can: C1.2
"""
GRAPH = CircuitGraph(circuit(CHASSIS))
HANDS = Hands(GRAPH)


def at(name: str) -> int:
    return GRAPH.circuit.index[name]


def names(mend: Mend) -> list[str]:
    return list(lines(mend))


@pytest.mark.parametrize(
    ("hub", "but", "wanted"),
    [
        ("chassis", (), "chassis"),
        ("SP1.1", (), "SP1.1"),
        ("a", (), "V1.3"),  # a pin before a lead
        ("a", ("V1.3",), "R1.1"),
        ("a", ("V1.3", "R1.1"), "R2.1"),
        ("b", (), "R1.2"),
        ("b", ("R1.2", "R2.2"), "b"),  # nothing else is there than the net's name
    ],
)
def test_where_one_solders_to_join_a_net(hub: str, but: tuple[str, ...], wanted: str) -> None:
    assert HANDS.name(HANDS.place(at(hub), [at(name) for name in but])) == wanted


@pytest.mark.parametrize(
    ("lead", "movable"),
    [("R1.1", True), ("C1.2", True), ("V1.3", False), ("SP1.1", False), ("chassis", False), ("C30A+", False),
     ("C30.A", False), ("a", False)],
)  # fmt: skip
def test_a_lead_can_be_bent_and_a_pin_a_lug_or_a_can_cannot(lead: str, movable: bool) -> None:  # noqa: FBT001
    assert HANDS.is_movable(at(lead)) is movable


def test_a_section_is_soldered_to_by_the_lug_of_its_can() -> None:
    assert HANDS.name(HANDS.stand(at("C30A+"))) == "C30.A"
    assert HANDS.name(HANDS.stand(at("R1.1"))) == "R1.1"


def test_a_lead_that_leaves_its_only_joint_is_moved_and_of_a_wire_one_end_is() -> None:
    (lead,) = (join for join in HANDS.joints(at("R4.1")))
    assert names(HANDS.end_put(lead, at("SP1.2"), at("SP1.4"))) == ["move R4.1 to SP1.4"]
    wire = next(join for join in HANDS.joints(at("SP1.4")))
    assert names(HANDS.end_put(wire, at("SP1.2"), at("SP1.1"))) == [
        "cut SP1.2 to SP1.4", "wire SP1.1 to SP1.4 green",
    ]  # fmt: skip


def test_a_wire_brought_to_one_point_with_both_ends_is_taken_off() -> None:
    wire = next(join for join in HANDS.joints(at("SP1.4")))
    assert names(HANDS.end_put(wire, at("SP1.2"), at("SP1.4"))) == ["cut SP1.2 to SP1.4"]


def test_leads_in_each_others_places() -> None:
    ends = {at("R3.2"): at("R4.1"), at("R4.1"): at("R3.2")}
    assert sorted(names(HANDS.exchanged(ends))) == ["move R3.2 to SP1.2", "move R4.1 to SP1.1"]


def test_what_is_on_one_net_already_stays_where_it_is() -> None:
    assert HANDS.exchanged({at("R1.1"): at("R2.1"), at("R2.1"): at("R1.1")}) == ()


def test_a_mounting_is_undone_by_insulating_and_a_joint_by_cutting() -> None:
    bond = next(join for join in GRAPH.circuit.joins if {join.a, join.b} == {0, at("SP1.3")})
    wire = next(join for join in HANDS.joints(at("SP1.4")))
    assert names(HANDS.taken_off((bond, wire))) == ["change SP1 insulated", "cut SP1.2 to SP1.4"]


@pytest.mark.parametrize(
    ("part", "seat"), [("SP1", "SP1.3"), ("SP2", "SP2.2"), ("C30", "C30.can"), ("R1", None), ("V1", None)]
)
def test_the_point_that_a_mounting_joins_to_the_chassis(part: str, seat: str | None) -> None:
    found = HANDS.seat(part)
    assert (None if found is None else HANDS.name(found)) == seat


def test_what_cannot_be_done_is_not_done() -> None:
    assert tried(GRAPH.circuit, ()) is None
    assert tried(GRAPH.circuit, (Cut("R1.1", "R4.1"),)) is None
    assert tried(GRAPH.circuit, (Cut("SP1.2", "SP1.4"),)) is not None
