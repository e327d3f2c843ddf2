"""What a file that starts from another one takes away, changes and puts in, whatever the order of its lines."""

import itertools

import pytest

from netcheck.core.circuit import Circuit
from tests.paper import circuit, nets

BASE = """
resistor R1 470k
resistor R2 10k
resistor R3 47k 1 W 10%
capacitor C1 .02 mfd paper
strip SP1 5 lugs foot 3
net grid: R1.1, R2.1, C1.1
net ground: chassis, R1.2, R3.2
at SP1.1: R2.2, R3.1
wire SP1.1 to C1.2 red
"""


def layered(*lines: str, base: str = BASE, take: str = "start from") -> Circuit:
    return circuit("\n".join((f'{take} "base.netck"', *lines)), base=base)


def net(state: Circuit, point: str) -> set[str]:
    """What else is on a point's net."""
    found = next((set(group) for group in nets(state) if point in group), {point})
    return found - {point}


def test_parts_and_joins_are_taken_over() -> None:
    state = layered()
    assert set(state.parts) == {"R1", "R2", "R3", "C1", "SP1"}
    assert nets(state) == nets(circuit(BASE))
    assert state.inherited == 9
    assert state.sources == ("base.netck", "state.netck")


def test_parts_from_takes_over_no_join_and_of_a_net_its_name_alone() -> None:
    state = layered("net grid: R1.1, R1.2", take="parts from")
    assert set(state.parts) == {"R1", "R2", "R3", "C1", "SP1"}
    assert nets(state) == {frozenset({"grid", "R1.1", "R1.2"}), frozenset({"chassis", "ground", "SP1.3"})}
    assert state.inherited == 0


def test_what_a_mounting_bonds_is_not_a_join_that_is_taken_over() -> None:
    assert net(layered(take="parts from"), "chassis") == {"ground", "SP1.3"}


def test_a_lifted_lead_leaves_every_join_and_the_rest_stay_together() -> None:
    state = layered("lift C1.1")
    assert net(state, "C1.1") == set()
    assert {"R1.1", "R2.1"} <= net(state, "grid")


def test_a_lifted_lug_is_bare_and_what_hung_on_it_stays_joined() -> None:
    state = layered("lift SP1.1")
    assert net(state, "SP1.1") == set()
    assert {"R3.1", "C1.2"} <= net(state, "R2.2")


def test_a_lifted_point_may_be_joined_again_in_the_same_file() -> None:
    assert "R3.1" in net(layered("at R3.1: C1.1", "lift C1.1"), "C1.1")
    assert "grid" not in net(layered("at R3.1: C1.1", "lift C1.1"), "C1.1")


def test_move_is_lift_and_join() -> None:
    assert nets(layered("move C1.1 to SP1.1")) == nets(layered("lift C1.1", "at SP1.1: C1.1"))


def test_cut_takes_away_the_wire_with_these_ends_and_nothing_else() -> None:
    for ends in ("SP1.1 to C1.2", "C1.2 to SP1.1"):
        state = layered(f"cut {ends}")
        assert net(state, "C1.2") == set()
        assert net(state, "SP1.1") == {"R2.2", "R3.1"}


def test_cut_of_one_length_of_a_bus_leaves_the_others() -> None:
    base = BASE + "wire SP1.5 to SP1.4 to R1.1 black\n"
    state = layered("cut SP1.5 to SP1.4", base=base)
    assert net(state, "SP1.5") == set()
    assert "SP1.4" in net(state, "R1.1")


def test_a_removed_part_leaves_every_inherited_join() -> None:
    state = layered('remove R2 "left out"')
    assert "R2" not in state.parts
    assert "R2" in state.gone
    assert [(r.part, r.bridged, r.reason) for r in state.removals] == [("R2", False, "left out")]
    assert net(state, "SP1.1") == {"R3.1", "C1.2"}


def test_a_bridged_part_is_noted_as_bridged() -> None:
    assert [r.bridged for r in layered('remove R3 bridged "field open"').removals] == [True]


def test_change_keeps_the_joins_and_what_it_does_not_speak_of() -> None:
    state = layered("change R3 51k", "change C1 .022 mfd film")
    values = [q.written for q in state.parts["R3"].features.quantities]
    assert values == ["1 W", "51k"]  # the tolerance was printed with the old value
    assert state.parts["C1"].features.words == ("film",)
    assert nets(state) == nets(circuit(BASE))


def test_change_of_the_mounting_takes_the_bond_away() -> None:
    assert net(layered("change SP1 insulated"), "SP1.3") == set()


def test_change_to_another_kind_keeps_the_leads() -> None:
    state = layered("change R3 choke 12 H")
    assert state.parts["R3"].kind.word == "choke"
    assert nets(state) == nets(circuit(BASE))


def test_a_new_part_and_its_leads_clause_come_last() -> None:
    state = layered("capacitor C9 .1 mfd from C1.1 to SP1.3", "lift C1.1")
    assert net(state, "C9.1") == {"C1.1"}
    assert "chassis" in net(state, "C9.2")


def test_fit_solders_a_part_declared_elsewhere() -> None:
    state = layered("lift C1.1, C1.2", "fit C1 from SP1.4 to SP1.5")
    assert net(state, "C1.1") == {"SP1.4"}
    assert net(state, "C1.2") == {"SP1.5"}


CHANGES = (
    "lift C1.1",
    "move R2.1 to SP1.5",
    "cut SP1.1 to C1.2",
    "at SP1.4: C1.1, R2.1",
    'remove R1 "out"',
    "change R3 51k",
)


@pytest.mark.parametrize("order", [*itertools.permutations(range(6))][::40])
def test_changes_may_stand_in_any_order(order: tuple[int, ...]) -> None:
    assert nets(layered(*(CHANGES[n] for n in order))) == nets(layered(*CHANGES))


def test_a_third_layer_undoes_what_the_second_one_did() -> None:
    second = 'start from "base.netck"\nmove C1.1 to SP1.5\n'
    state = circuit('start from "second.netck"\nmove C1.1 to R1.1\n', base=BASE, second=second)
    assert net(state, "SP1.5").isdisjoint({"grid", "R1.1", "R2.1", "C1.1"})
    assert net(state, "C1.1") >= {"R1.1", "R2.1", "grid"}
    assert state.sources == ("base.netck", "second.netck", "state.netck")
    assert [t.point for t in state.taken] == ["C1.1", "C1.1"]


def test_a_join_of_this_file_is_not_undone_by_its_own_lift() -> None:
    state = layered("wire C1.1 to SP1.5 blue", "lift C1.1")
    assert net(state, "C1.1") == {"SP1.5"}


def test_where_the_state_title_and_common_are_said_last_they_stand() -> None:
    base = BASE + 'title "as drawn"\nstate drawn\ncommon grid\n'
    state = layered('title "as rewired"', "state rewired", base=base)
    assert (state.title, state.state.value, state.common) == ("as rewired", "rewired", "grid")


def test_covers_spare_and_apart_are_kept_by_their_canonical_names() -> None:
    state = layered("covers R1, SP1.foot, C1", "spare SP1.foot", "apart grid, chassis")
    assert [d.points for d in state.covers] == [("R1", "SP1.3", "C1")]
    assert [d.points for d in state.spared] == [("SP1.3",)]
    assert [d.points for d in state.apart] == [("grid", "chassis")]


@pytest.mark.parametrize(
    ("lines", "plate_now"),
    [(("change V1 6SJ7",), "V1.8"), (("change V1 6K7",), "V1.3"), (("remove V1", "tube V1 6SJ7"), "V1.8")],
    ids=["another base", "the same pin", "pulled, and another put in"],
)
def test_wires_stay_at_the_pins_where_they_were_whatever_tube_comes_into_the_socket(
    lines: tuple[str, ...], plate_now: str
) -> None:
    """A 6J5 has its grid on pin 5 and its plate on 3 (facts 3), a 6SJ7 its plate on 8, a 6K7 on 3."""
    base = BASE + "tube V1 6J5\nnet grid: V1.grid\nnet plate: V1.plate\n"
    state = layered(*lines, "at V1.plate: R2.2", base=base)
    assert {"R1.1", "C1.1"} <= net(state, "V1.5")
    assert "plate" in net(state, "V1.3")
    assert "R2.2" in net(state, plate_now)
