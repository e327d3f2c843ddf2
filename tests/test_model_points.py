"""Every spelling of a terminal leads to one point, and a can's lugs outlive its sections."""

import pytest

from tests.paper import circuit, nets
from tests.test_model_layers import net

SAME = [
    ("tube V1 6J5", ("V1.5", "V1.grid", "V1.grid-1")),
    ("tube V1 6SN7GT", ("V1.4", "V1.grid-a")),
    ("tube V1 50C5", ("V1.1", "V1.cathode")),
    ("strip SP1 5 lugs foot 3", ("SP1.3", "SP1.foot")),
    ("diode D1 1000 V", ("D1.cathode", "D1.k", "D1.band")),
    ("diode D1 1000 V", ("D1.anode", "D1.a")),
    ("can C30 insulated\nsection C30A 20 mfd half-moon", ("C30.A", "C30.half-moon", "C30A+")),
    ("can C30 insulated\nsection C30A 20 mfd half-moon", ("C30.can", "C30-", "C30A-")),
    ("can C30 insulated\nsection C30A 20 mfd plain\nsection C30B 20 mfd square", ("C30.A", "C30.plain", "C30A+")),
    ("can C30 insulated common-plus\nsection C30A 20 mfd", ("C30.can", "C30+", "C30A+")),
    ("can C30 insulated common-plus\nsection C30A 20 mfd", ("C30.A", "C30A-")),
    ("transformer T1 grounded\nwinding T1 high red-a red-b 250 V", ("T1.frame", "T1.shield")),
    ("lug G1 insulated", ("G1",)),
    ("tube V1 6V6GT", ("V1.3", "V1.plate", "V1.anode")),
    ("tube V1 6V6GT", ("V1.4", "V1.screen", "V1.grid-2")),
    ("tube V1 6SJ7", ("V1.3", "V1.suppressor", "V1.grid-3")),
    ("tube V1 5Y3GT", ("V1.2", "V1.filament-1", "V1.heater-1")),
    ("tube V1 5Y3GT", ("V1.8", "V1.filament-2", "V1.heater-2")),
    ("tube V1 5Y3GT", ("V1.6", "V1.plate-1", "V1.anode-1")),
    ("tube V1 5Y3GT", ("V1.4", "V1.plate-2", "V1.anode-2")),
    ("tube V1 3S4", ("V1.5", "V1.heater-tap", "V1.filament-tap")),
    ("basing X99: 1 anode-d, 2 grid-1-c\ntube V1 X99", ("V1.1", "V1.plate-d", "V1.anode-d")),
    ("basing X99: 1 anode-d, 2 grid-1-c\ntube V1 X99", ("V1.2", "V1.grid-c", "V1.grid-1-c")),
    ("can C30 insulated\nsection C30A 20 mfd minus blue\nsection C30B 8 mfd", ("C30.blue", "C30A-")),
    ("can C30 insulated\nsection C30A 20 mfd minus blue\nsection C30B 8 mfd", ("C30.can", "C30-", "C30B-")),
]  # fmt: skip


@pytest.mark.parametrize(("declared", "words"), SAME, ids=[" = ".join(words) for _, words in SAME])
def test_words_for_one_point_need_no_joint(declared: str, words: tuple[str, ...]) -> None:
    """A resistor on each spelling: they all meet."""
    lines = [f"resistor R{n} 1k\nnet n{n}: {word}, R{n}.1" for n, word in enumerate(words)]
    state = circuit("\n".join((declared, *lines)))
    assert {f"R{n}.1" for n in range(1, len(words))} <= net(state, "R0.1")


APART = [
    ("tube V1 6J5", "V1.1", "chassis"),
    ("tube V1 6J5", "V1.heater-1", "V1.heater-2"),
    ("tube V1 6SN7GT", "V1.grid-a", "V1.grid-b"),
    ("can C30 insulated\nsection C30A 20 mfd", "C30.can", "chassis"),
    ("can C30 insulated\nsection C30A 20 mfd minus blue", "C30.can", "C30A-"),
    ("can C30 insulated\nsection C30A 20 mfd", "C30.A", "C30.can"),
    ("strip SP1 3 lugs foot 2 insulated", "SP1.foot", "chassis"),
    ("strip SP1 3 lugs", "SP1.2", "chassis"),
    ("lug G1 insulated", "G1", "chassis"),
    ("switch S1", "S1.1", "S1.2"),
    ("pot R9 500k", "R9.wiper", "R9.cw"),
    ("cord P1 3 wires", "P1.earth", "chassis"),
    ("strip SP1 3 lugs\nwire SP1.1 to SP1.3 past SP1.2", "SP1.2", "SP1.1"),
    ("transformer T1 insulated\nwinding T1 high red-a red-b 250 V", "T1.frame", "chassis"),
]  # fmt: skip


@pytest.mark.parametrize(("declared", "one", "other"), APART, ids=[f"{row[1]} and {row[2]}" for row in APART])
def test_what_is_never_joined_in_silence(declared: str, one: str, other: str) -> None:
    state = circuit(f"{declared}\nresistor R1 1k\nresistor R2 1k\nat {one}: R1.1\nat {other}: R2.1\n")
    assert "R2.1" not in net(state, "R1.1")


BONDED = {
    "SP1.2": "strip SP1 3 lugs foot 2",
    "G1": "lug G1 grounded",
    "C30.can": "can C30 grounded\nsection C30A 20 mfd",
    "T1.frame": "transformer T1 grounded\nwinding T1 high red-a red-b 250 V",
}


@pytest.mark.parametrize(("point", "declared"), list(BONDED.items()))
def test_what_a_mounting_bonds(point: str, declared: str) -> None:
    assert point in net(circuit(declared), "chassis")


def test_all_pins_of_one_electrode_are_one_point() -> None:
    """The grid of a 50C5 is on pins 2 and 5 (tube manuals; from memory)."""
    assert "V1.5" in net(circuit("tube V1 50C5"), "V1.2")


def test_a_wire_is_a_bus_of_all_its_ends() -> None:
    state = circuit("strip SP1 5 lugs\nwire SP1.1 to SP1.3 to SP1.5 black 20 AWG past SP1.2, SP1.4\n")
    assert nets(state) == {frozenset({"SP1.1", "SP1.3", "SP1.5"})}


CAN = """
can C30 insulated
section C30A 20 mfd 450 V half-moon
section C30B 20 mfd 450 V square
resistor R1 22k
net B+1: C30A+, R1.1
net B+2: C30B+, R1.2
net ground: chassis, C30.can
"""


def on_can(*lines: str) -> set[str]:
    """What is on the lug of the first section after the changes."""
    return net(circuit("\n".join(('start from "base.netck"', *lines)), base=CAN), "C30.A")


def test_a_gutted_can_keeps_its_lugs() -> None:
    assert on_can("remove C30A, C30B") == {"R1.1", "B+1"}


def test_a_restuffed_section_keeps_its_lug() -> None:
    assert on_can("change C30A 22 mfd 500 V") == {"C30A+", "R1.1", "B+1"}


def test_a_bypassed_section_has_its_lug_to_itself() -> None:
    assert on_can("lift C30.A") == {"C30A+"}


def test_new_parts_hang_on_the_lugs_of_a_gutted_can() -> None:
    lines = ("remove C30A", "electrolytic C51 22 mfd 500 V plus C30.A minus C30.can replaces C30A")
    assert on_can(*lines) == {"R1.1", "B+1", "C51+"}


def test_the_can_itself_may_leave_when_nothing_hangs_on_it() -> None:
    lines = ("lift C30.A, C30.B, C30.can", "remove C30A, C30B")
    state = circuit("\n".join(('start from "base.netck"', *lines)), base=CAN)
    last = circuit(
        'start from "second.netck"\nremove C30\n', base=CAN, second="\n".join(('start from "base.netck"', *lines))
    )
    assert "C30" in state.parts
    assert "C30" not in last.parts


def test_a_strip_may_leave_that_only_a_lifted_wire_still_leads_to() -> None:
    base = "strip SP1 3 lugs\nstrip SP2 3 lugs\nresistor R1 1k\nat SP1.1: R1.1\nwire SP1.1 to SP2.1 red\n"
    state = circuit('start from "base.netck"\nlift SP1.1\nremove SP2\n', base=base)
    assert set(state.parts) == {"SP1", "R1"}
    assert net(state, "R1.1") == {"lifted off SP1.1"}


@pytest.mark.parametrize("said", ["germanium", "1N34A germanium", "germanium 1N34A"])
def test_a_word_of_a_diode_is_no_type(said: str) -> None:
    part = circuit(f"diode D1 {said}\nresistor R1 1k\nnet a: D1.anode, R1.1\nnet b: D1.cathode, R1.2\n").parts["D1"]
    assert part.features.words == ("germanium",)
    assert part.features.type == ("1N34A" if "1N34A" in said else "")
