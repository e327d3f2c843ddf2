"""The lugs of a chassis in order, with what the netlist puts on each."""

from pathlib import Path

import pytest

from netcheck.core.kind import Role
from netcheck.core.source import Source
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from netcheck.model.places import HeldBy, Item, PlaceListing, Spot, places
from netcheck.system.files import read, reader
from tests.paper import circuit

ROOT = Path(__file__).parents[1]
SAMPLES = sorted((ROOT / "samples").glob("*/*.netck"))

BASE = """
state drawn
tube V1 6J5
can C30 insulated
section C30A 20 mfd 450 V half-moon
section C30B 20 mfd 450 V
resistor R1 22k
resistor R2 1k
note C30 "the sleeve stays on"
net B+: C30A+, R1.1
net B+2: C30B+, V1.plate
net out: V1.cathode, R2.1
net ground: chassis, R2.2, C30-, V1.heater-1
net grid: V1.grid, R1.2
"""
TRACED = """
state rewired
start from "base.netck"
remove C30A
strip SP1 4 lugs foot 3 "under the can"
electrolytic C51 22 mfd 500 V plus C30.A minus SP1.1
wire SP1.1 to C30.can black 20 AWG
move R2.2 to SP1.3
at SP1.2: R1.1
lift R1.1
spare SP1.4 "kept for a test point"
"""


def listed(text: str, **others: str) -> dict[str, PlaceListing]:
    return {place.name: place for place in places(CircuitGraph(circuit(text, **others)))}


def spots(place: PlaceListing) -> dict[str, Spot]:
    return {spot.label: spot for spot in place.spots}


def items(place: PlaceListing, label: str) -> list[tuple[HeldBy, str]]:
    return [(item.put, item.name) for item in spots(place)[label].items]


def test_a_strip_lists_its_lugs_left_to_right_with_the_empty_ones() -> None:
    strip = listed(TRACED, base=BASE)["SP1"]
    assert [spot.label for spot in strip.spots] == ["1", "2", "3", "4"]
    assert strip.about == 'strip, 4 lugs, left to right seen from below, "under the can"'
    assert items(strip, "1") == [(HeldBy.LEAD, "C51-"), (HeldBy.WIRE, "C30.can")]
    assert items(strip, "2") == [(HeldBy.LEAD, "R1.1")]
    assert items(strip, "3") == [(HeldBy.LEAD, "R2.2"), (HeldBy.BONDED, "chassis")]
    assert items(strip, "4") == []
    assert (spots(strip)["3"].word, spots(strip)["3"].net) == ("foot", "chassis")
    assert (spots(strip)["4"].spare, spots(strip)["4"].net) == ("kept for a test point", "")
    assert spots(strip)["2"].spare is None


def test_a_wire_is_listed_at_both_ends_with_its_colour() -> None:
    found = listed(TRACED, base=BASE)
    here, there = spots(found["SP1"])["1"], spots(found["C30"])["can"]
    assert Item(HeldBy.WIRE, "C30.can", "black 20 AWG") in here.items
    assert Item(HeldBy.WIRE, "SP1.1", "black 20 AWG") in there.items


def test_a_wire_says_what_it_passes_and_is_not_on_it() -> None:
    parts = "strip SP1 5 lugs\nstrip SP2 3 lugs\nresistor R1 1k\nat SP1.2: R1.1\n"
    found = listed(f"{parts}wire SP1.1 to SP1.3 to SP2.1 black 20 AWG past SP1.2, SP2.3\nat SP1.1: R1.2")
    passing = Item(HeldBy.PAST, "SP1.1 to SP2.1", "black 20 AWG")
    assert spots(found["SP1"])["1"].items[-1] == Item(HeldBy.WIRE, "SP1.3", "black 20 AWG", past=("SP1.2", "SP2.3"))
    assert spots(found["SP1"])["2"].items == (Item(HeldBy.LEAD, "R1.1"), passing)
    lug = spots(found["SP2"])["3"]
    assert (lug.items, lug.is_held, lug.net) == ((passing,), False, "")


def test_a_wire_that_is_cut_passes_nothing_any_more() -> None:
    base = "strip SP1 5 lugs\nresistor R1 1k\nat SP1.1: R1.1\nat SP1.3: R1.2\nwire SP1.1 to SP1.3 past SP1.2\n"
    assert items(listed('start from "base.netck"\n', base=base)["SP1"], "2") == [(HeldBy.PAST, "SP1.1 to SP1.3")]
    assert items(listed('start from "base.netck"\ncut SP1.1 to SP1.3\n', base=base)["SP1"], "2") == []


def test_a_can_says_which_sections_are_out() -> None:
    can = listed(TRACED, base=BASE)["C30"]
    assert {label: spot.word for label, spot in spots(can).items()} == {
        "A": "half-moon, section out",
        "B": "",
        "can": "common",
    }
    assert can.notes == ("the sleeve stays on",)
    assert items(can, "A")[0] == (HeldBy.LEAD, "C51+")


def test_a_drawn_socket_lists_what_its_nets_put_there() -> None:
    found = listed(BASE)
    pins = spots(found["V1"])
    assert list(pins) == ["1", "2", "3", "4", "5", "6", "7", "8"]
    assert (pins["8"].word, pins["8"].net, items(found["V1"], "8")) == ("cathode", "out", [(HeldBy.DRAWN, "R2.1")])
    assert items(found["V1"], "3") == [(HeldBy.DRAWN, "C30.B")]
    assert items(found["V1"], "2") == [(HeldBy.DRAWN, "chassis")]
    assert (pins["4"].word, pins["4"].items) == ("nothing inside", ())


def test_a_lead_that_a_lug_has_is_not_said_to_be_anywhere_else() -> None:
    """R2.2 and R1.1 have lugs now, so no net of the drawing lists them; R1.2 has none."""
    found = listed(TRACED, base=BASE)
    drawn = {
        item.name for place in found.values() for spot in place.spots for item in spot.items if item.put is HeldBy.DRAWN
    }
    assert drawn == {"R1.2", "R2.1", "V1.3", "C30.B", "chassis"}


def test_what_a_base_file_joins_is_marked_as_inherited() -> None:
    third = 'start from "mid.netck"\nwire SP1.2 to C30.B red\n'
    strip = listed(third, base=BASE, mid=TRACED)["SP1"]
    marks = {item.name: item.inherited for spot in strip.spots for item in spot.items if item.put is not HeldBy.BONDED}
    assert marks == {"C51-": True, "C30.can": True, "R1.1": True, "R2.2": True, "C30.B": False}


def test_a_flying_lead_says_where_it_is_soldered() -> None:
    text = (
        "transformer T1\nwinding T1 main red blue 5 V\nstrip SP1 2 lugs\nat SP1.1: T1.red\nwire T1.blue to SP1.2 white"
    )
    found = listed(text)
    assert items(found["T1"], "red") == [(HeldBy.AT, "SP1.1")]
    assert items(found["T1"], "blue") == [(HeldBy.WIRE, "SP1.2")]
    assert items(found["SP1"], "1") == [(HeldBy.LEAD, "T1.red")]


def test_a_small_part_is_a_place_where_something_is_soldered_to_it() -> None:
    text = "lamp LM1 6.3 V\nlamp LM2 6.3 V\nresistor R1 10 ohm\nnet a: LM1.1, LM2.1\nnet b: LM2.2, R1.2\nat LM1.2: R1.1"
    found = listed(text)
    assert list(found) == ["LM1"]
    assert items(found["LM1"], "2") == [(HeldBy.LEAD, "R1.1")]


def test_a_lifted_bundle_is_listed_while_something_hangs_on_it() -> None:
    parts = "can C30 insulated\nsection C30A 20 mfd\nresistor R1 1k\nresistor R2 1k\n"
    base = f"{parts}at C30.A: R1.1, R2.1\nnet b: R1.2, R2.2"
    found = listed('start from "base.netck"\nlift C30.A', base=base)
    bundle = found["lifted off C30.A"]
    assert (bundle.kind, items(bundle, "")) == ("bundle", [(HeldBy.LEAD, "R1.1"), (HeldBy.LEAD, "R2.1")])
    assert items(found["C30"], "A") == []


def test_a_lead_that_is_moved_leaves_its_lug_empty() -> None:
    base = "strip SP1 2 lugs\nresistor R1 1k\nresistor R2 1k\nat SP1.1: R1.1\nat SP1.2: R2.1\nnet b: R1.2, R2.2"
    found = listed('start from "base.netck"\nmove R1.1 to SP1.2', base=base)
    assert list(found) == ["SP1"]
    assert items(found["SP1"], "1") == []


def test_what_is_soldered_straight_to_the_chassis_comes_last() -> None:
    text = "lug G1 grounded\nresistor R1 1k\nresistor R2 1k\nat chassis: R1.1\nat G1: R2.1\nnet b: R1.2, R2.2"
    *_, lug, chassis = places(CircuitGraph(circuit(text)))
    assert (lug.name, [spot.label for spot in lug.spots]) == ("G1", [""])
    assert [(item.put, item.name) for item in chassis.spots[0].items] == [(HeldBy.LEAD, "R1.1")]


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_every_lead_that_a_sample_solders_to_a_lug_is_listed_there_once(path: Path) -> None:
    source = read(str(path))
    assert isinstance(source, Source)
    built, _ = build(source, reader(source))
    assert built is not None
    listing = places(CircuitGraph(built))
    at_places = [
        (spot.point, item.name)
        for place in listing
        for spot in place.spots
        for item in spot.items
        if item.put is HeldBy.LEAD
    ]
    assert len(at_places) == len(set(at_places))
    soldered = {
        (built.points[j.a].name, built.points[j.b].name) for j in built.joins if j.how.value in ("soldered", "lead")
    }
    assert {pair for pair in soldered if built.points[built.index[pair[0]]].part} <= set(at_places)
    lugs = {
        p.name for p in built.points if p.terminal is not None and p.terminal.role is Role.LUG and p.part in built.parts
    }
    assert lugs == {spot.point for place in listing for spot in place.spots} & lugs
