"""The judge of orders, held against orders written by hand: right ones, wrong ones, and such that can't be followed."""

from collections.abc import Mapping, Sequence
from typing import Any

import pytest

from tests.campaign.chassis import CHASSIS, Chassis, Joint, Part, hub_of
from tests.campaign.orders import Unfollowed, carried_out
from tests.campaign.reading import rewired_of
from tests.campaign.repairs import distances, has_fewer_slips, orders_of, repair

LUGS = {"B+": "SP1.1", "screen": "SP1.2", "ground": "SP1.3", "plate": "SP1.4"}
RESISTORS = {"R1": ("B+", "screen"), "R2": ("B+", "plate"), "R3": ("screen", "ground"), "R4": ("B+", "plate")}


def sound() -> Chassis:
    """Four resistors and a can on one strip, a tube beside it; a fifth resistor is in series by declaration."""
    values = {"R1": "1k", "R2": "2k", "R3": "3k", "R4": "4k"}
    parts = {name: Part(name, "resistor", (value,), (f"{name}.1", f"{name}.2")) for name, value in values.items()}
    parts |= {
        "SP1": Part("SP1", "strip", ("5 lugs", "foot 3"), ()),
        "C1": Part("C1", "can", ("grounded",), (), members=("C1.A",)),
        "C1A": Part("C1A", "section", ("20 mfd", "half-moon"), ("C1A+", "C1A-")),
        "V1": Part("V1", "tube", (), tuple(f"V1.{n}" for n in (2, 3, 4, 5, 7, 8)), type="6V6GT"),
        "R9": Part("R9", "resistor", ("47 ohm",), ("R9.1", "R9.2"), claim="inserted", own=True),
    }
    joints = [Joint(LUGS[net], f"{r}.{n}", "solder") for r, ends in RESISTORS.items() for n, net in enumerate(ends, 1)]
    joints += [Joint("SP1.1", "R9.1", "solder"), Joint("SP1.5", "R9.2", "solder")]
    joints += [Joint("SP1.5", "C1.A", "wire", "red"), Joint("SP1.2", "V1.4", "wire"), Joint("SP1.4", "V1.3", "wire")]
    return Chassis(parts, joints)


def document(*mends: tuple[str, ...], grade: str = "STOP", **more: object) -> dict[str, Any]:
    return {"findings": [{"rule": "lead-on-wrong-net", "grade": grade, "parts": [], "mend": m, **more} for m in mends]}


def spoilt(*lines: str) -> Chassis:
    return carried_out(sound(), lines)


CASES: Mapping[str, tuple[tuple[str, ...], Sequence[tuple[str, ...]], tuple[bool, bool, int]]] = {
    # what the hands did, the orders of each finding, what is right to say of them: (ordered, repaired, wrong orders)
    "a lead goes back": (("move R1.2 to SP1.4",), [("move R1.2 to SP1.2",)], (True, True, 0)),
    "to the wrong lug": (("move R1.2 to SP1.4",), [("move R1.2 to SP1.1",)], (True, False, 1)),
    "another wire taken off than the one astray": (
        ("wire V1.3 to V1.4",), [("cut SP1.4 to V1.3",)], (True, False, 1),
    ),
    "the bridge": (("wire V1.3 to V1.4",), [("cut V1.3 to V1.4",)], (True, True, 0)),
    "the bridge by its electrodes": (("wire V1.3 to V1.4",), [("cut V1.plate to V1.grid-2",)], (True, True, 0)),
    "a bridge that is not there": (("wire V1.3 to V1.4",), [("cut SP1.4 to SP1.2",)], (True, False, 1)),
    "two mends": (
        ("move R3.1 to SP1.1", "cut SP1.4 to V1.3"),
        [("move R3.1 to SP1.2",), ("wire V1.3 to SP1.4 green",)], (True, True, 0),
    ),
    "one of two mends is for nothing": (
        ("move R3.1 to SP1.1",),
        [("move R3.1 to SP1.2",), ("cut SP1.4 to V1.3", "wire SP1.4 to V1.3")], (True, True, 1),
    ),
    "two mends that undo each other": (
        ("move R3.1 to SP1.1",), [("move R3.1 to SP1.2",), ("move R3.1 to SP1.1",)], (True, False, 1),
    ),
    "a mend that leans on another": (
        ("move R3.1 to SP1.1", "cut SP1.4 to V1.3"),
        [("move R3.1 to SP1.4",), ("cut SP1.4 to R3.1", "wire V1.3 to SP1.4", "at SP1.2: R3.1")], (True, True, 1),
    ),
    "exchanged back": (
        ("move R1.2 to SP1.4", "move R2.2 to SP1.2"), [("move R1.2 to SP1.2", "move R2.2 to SP1.4")], (True, True, 0),
    ),
    "half of the exchange": (
        ("move R1.2 to SP1.4", "move R2.2 to SP1.2"), [("move R1.2 to SP1.2",)], (True, False, 1),
    ),
    "the foot bonded": (("change SP1 insulated",), [("change SP1 grounded",)], (True, True, 0)),
    "the can kept off the chassis": (("change C1 insulated",), [("change C1 grounded",)], (True, True, 0)),
    "a lug of the can by its section": (("lift C1.A",), [("at SP1.5: C1A+",)], (True, True, 0)),
    "the inserted resistor bypassed": (("lift R9.2",), [("wire SP1.1 to SP1.5",)], (True, False, 1)),
    "the inserted resistor put back": (("lift R9.2",), [("at SP1.5: R9.2",)], (True, True, 0)),
    "what belongs is taken out": (("move R1.2 to SP1.4",), [("remove R1",)], (True, False, 1)),
    "a lead off that is on nothing": (("lift R1.2",), [("lift R1.2", "move R1.2 to SP1.2")], (True, False, 1)),
    "no line of a work log": (("lift R1.2",), [("solder R1.2 to SP1.2",)], (True, False, 1)),
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_orders_by_hand(name: str) -> None:
    hands, mends, (ordered, repaired, wrong) = CASES[name]
    told = repair(document(*mends), spoilt(*hands), sound())
    assert told.concerned
    assert told.tried
    assert (told.ordered, told.repaired, int(bool(told.wrong))) == (ordered, repaired, wrong), told.wrong


def test_a_finding_without_an_order_leaves_the_rest_unrepaired_and_not_wrong() -> None:
    faulty = spoilt("move R3.1 to SP1.1", "cut SP1.4 to V1.3")
    told = repair(document(("move R3.1 to SP1.2",), ()), faulty, sound())
    assert (told.ordered, told.tried, told.repaired, told.wrong) == (False, True, False, ())


def test_the_first_alternative_is_followed_where_no_mend_is_certain() -> None:
    faulty = spoilt("move R3.1 to SP1.1")
    either = [["move R3.1 to SP1.2"], ["lift R3.1"]]
    told = repair(document((), alternatives=either), faulty, sound())
    assert (told.ordered, told.repaired, told.wrong) == (True, True, ())
    told = repair(document((), alternatives=either[::-1]), faulty, sound())
    assert (told.ordered, told.repaired, bool(told.wrong)) == (True, False, True)


def test_notes_are_not_followed_and_order_nothing() -> None:
    assert orders_of(document(("lift R1.1",), grade="NOTE")) == []
    told = repair(document(("move R3.1 to SP1.2",), grade="LOOK"), spoilt("move R3.1 to SP1.1"), sound())
    assert (told.ordered, told.tried, told.repaired) == (False, True, True)


def test_a_part_that_is_not_there_asks_for_no_order() -> None:
    faulty = spoilt("remove R4", "move R3.1 to SP1.1")
    findings = document(("move R3.1 to SP1.2",))["findings"]
    findings.append({"rule": "part-missing", "grade": "STOP", "parts": ["R4"], "mend": []})
    told = repair({"findings": findings}, faulty, sound())
    assert (told.ordered, told.repaired, told.wrong) == (True, True, ())
    loose = spoilt("lift R4.1", "lift R4.2", "move R3.1 to SP1.1")
    assert not repair({"findings": findings}, loose, sound()).ordered


def test_what_only_a_missing_part_holds_in_series_is_so_again_once_it_is_fitted() -> None:
    drawn = sound()
    drawn.joints = [j for j in drawn.joints if not j.has("C1.A")]
    drawn.joints.append(Joint("SP1.5", "R5.1", "solder"))
    drawn.parts["R5"] = Part("R5", "resistor", ("5k",), ("R5.1", "R5.2"))
    findings = document(("move R3.1 to SP1.2",))["findings"]
    findings.append({"rule": "part-missing", "grade": "STOP", "parts": ["R5"], "mend": []})
    told = repair({"findings": findings}, carried_out(drawn, ("remove R5", "move R3.1 to SP1.1")), drawn)
    assert (told.ordered, told.repaired, told.wrong) == (True, True, ())


def test_values_alone_concern_no_joints() -> None:
    told = repair(document(("change R1 1k",)), spoilt("change R1 10k"), sound())
    assert not told.concerned


def test_equal_parts_may_take_each_other_s_place() -> None:
    """R2 and R4 made alike: exchanging their plate ends with those on the screen by either one gives the original."""
    right, wrong = sound(), spoilt("move R2.2 to SP1.2", "lift R4.2")
    for state in (right, wrong):
        state.parts["R4"] = Part("R4", "resistor", ("2k",), ("R4.1", "R4.2"))
    told = repair(document(("move R2.2 to SP1.4",), ("at SP1.4: R4.2",)), wrong, right)
    assert (told.repaired, told.wrong) == (True, ())
    turned = repair(document(("move R2.2 to SP1.4",), ("move R4.1 to SP1.4", "at SP1.1: R4.2")), wrong, right)
    assert (turned.repaired, turned.wrong) == (True, ())


def test_what_hangs_on_a_lead_stays_joined_when_it_comes_off() -> None:
    state = sound()
    state.joints = [*state.joints, Joint("R3.1", "R9.2", "solder")]
    left = carried_out(state, ["lift R3.1"]).components()
    assert left["R9.2"] == left["SP1.2"]
    assert "R3.1" not in left


def test_a_net_of_the_original_is_a_place() -> None:
    state = sound()
    state.hubs = frozenset({hub_of("B+")})
    state.joints = [Joint(hub_of("B+"), "SP1.1", "hub"), *state.joints]
    assert carried_out(state, ["wire V1.5 to B+"]).components()["V1.5"] == state.components()["SP1.1"]
    with pytest.raises(Unfollowed, match="no point C\\+"):
        carried_out(state, ["wire V1.5 to C+"])


def test_a_socket_whose_tube_is_out_has_its_pins() -> None:
    """The rectifier of this sample is out; its pin 8 stays on B+1, pin 1 is bare, and it has no pin 9."""
    state = rewired_of("sallow-street")
    assert "V6" in state.gone
    assert carried_out(state, ["wire SP1.1 to V6.8"]).components()["SP1.1"] == state.components()[hub_of("B+1")]
    bare = carried_out(state, ["wire SP1.1 to V6.1"]).components()
    assert bare["V6.1"] == bare["SP1.1"]
    with pytest.raises(Unfollowed, match=r"no point V6\.9"):
        carried_out(state, ["wire SP1.1 to V6.9"])


@pytest.mark.parametrize(
    "line",
    [
        "lift SP9.1", "lift R1.3", "move V1.9 to SP1.1", "cut SP1.1 to SP1.2", "wire R1.1 to R1.1", "remove R7",
        "change R1 grounded", "change R7 10k", "lift C1.B", "lift", "move R1.1 SP1.2", "at SP1.1: SP1.1",
    ],
)  # fmt: skip
def test_what_is_not_there_can_t_be_ordered(line: str) -> None:
    with pytest.raises(Unfollowed, match=line.partition(" ")[0]):
        carried_out(sound(), [line])


SLIPS: Mapping[str, tuple[tuple[str, ...], Sequence[tuple[str, ...]], int, bool]] = {
    # what is wrong, the orders of each finding, how many faults were planted, whether it is the shorter account
    "one end of a wire for two faults": (
        ("cut SP1.4 to V1.3", "wire SP1.2 to V1.3"), [("cut SP1.2 to V1.3", "wire SP1.4 to V1.3")], 2, True,
    ),
    "one lead for two faults": (("move R1.2 to SP1.4",), [("move R1.2 to SP1.2",)], 2, True),
    "as many slips as faults": (("move R1.2 to SP1.4",), [("move R1.2 to SP1.2",)], 1, False),
    "two wires are two slips": (
        ("cut SP1.4 to V1.3", "wire SP1.2 to SP1.1"), [("cut SP1.1 to SP1.2", "wire SP1.4 to V1.3")], 2, False,
    ),
    "a finding too few, and not the original": (
        ("move R1.2 to SP1.4", "wire V1.3 to V1.4"), [("cut V1.3 to V1.4",)], 2, False,
    ),
    "one finding of three acts": (
        ("move R1.2 to SP1.4", "move R3.1 to SP1.1", "wire V1.3 to V1.4"),
        [("cut V1.3 to V1.4", "move R1.2 to SP1.2", "move R3.1 to SP1.2")], 2, False,
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", SLIPS)
def test_fewer_slips_than_were_planted(name: str) -> None:
    done, orders, faults, shorter = SLIPS[name]
    told = document(*orders)
    assert has_fewer_slips(told, repair(told, spoilt(*done), sound()), faults) is shorter


def test_distances_of_partitions() -> None:
    """By hand: one of five leads astray is two pairs fewer, two more, and one net to split and one to join."""
    here = {"a": 1, "b": 1, "c": 1, "d": 2, "e": 2}
    there = {"a": 1, "b": 1, "c": 2, "d": 2, "e": 2}
    assert distances(here, here) == (0, 0)
    assert distances(here, there) == distances(there, here) == (4, 2)
    assert distances(here, dict.fromkeys(here, 7)) == (6, 1)


def test_the_hand_made_chassis_is_what_it_says() -> None:
    number = sound().components()
    assert number[CHASSIS] == number["R3.2"] == number["C1.can"] == number["SP1.3"]
    assert len({number[lug] for lug in LUGS.values()}) == 4
