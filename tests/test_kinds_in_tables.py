"""Nothing that has two leads vanishes: every kind of part is in each table of the engines, or in a list beside it."""

import pytest

from netcheck.bench import branches
from netcheck.compare import bands
from netcheck.core.kind import Family, Features, Seat, Shape
from netcheck.core.quantity import Dimension
from netcheck.electrical.mains import impedance
from netcheck.electrical.network import translate
from netcheck.parts import KINDS
from netcheck.parts.rectifiers import diode_paths

TABLES = {
    "what carries the line": (set(impedance._BY_FAMILY), impedance.OUTSIDE),
    "what a supply is made of": (set(translate._BY_FAMILY), translate.OUTSIDE),
    "what a meter finds": (set(branches._BY_FAMILY), branches.OUTSIDE),
}


@pytest.mark.parametrize("table", TABLES)
def test_every_family_is_in_the_table_or_left_out_by_name(table: str) -> None:
    inside, outside = TABLES[table]
    assert inside | outside == set(Family)
    assert not inside & outside


@pytest.mark.parametrize("table", ["what carries the line", "what a supply is made of"])
def test_only_places_and_what_joins_nets_is_left_out(table: str) -> None:
    joins = {Family.CORD, Family.FUSE, Family.SWITCH}
    assert all(kind.place for kind in KINDS.values() if kind.family in TABLES[table][1] - joins)


@pytest.mark.parametrize("word", KINDS)
def test_a_kind_says_what_its_family_is_asked(word: str) -> None:
    kind = KINDS[word]
    assert (kind.junction is not None) is (kind.family is Family.RECTIFIER)
    assert (kind.iron is not None) is (kind.family is Family.INDUCTOR)
    assert kind.family is Family.CONTROL or not kind.divides
    assert kind.place or kind.seat not in (Seat.PLUG, Seat.STRIP, Seat.LUG, Seat.CAN)


@pytest.mark.parametrize(
    ("electrodes", "found"),
    [
        (("heater-1", "plate", "heater-2", "cathode"), [("plate", "cathode")]),  # a 35Z5
        (("heater-1", "plate-1", "plate-2", "heater-2"), [("plate-1", "heater-2"), ("plate-2", "heater-2")]),  # a 5Y3
        (("plate-a", "cathode-a", "plate-b", "cathode-b"), [("plate-a", "cathode-a"), ("plate-b", "cathode-b")]),
        (("plate", "grid", "cathode"), []),
        (("plate", "grid", "cathode", "diode-1"), []),
        # A rectifier and a pentode in one bulb.
        (("plate-a", "grid-a", "grid-2-a", "cathode-a", "plate-b", "cathode-b"), [("plate-b", "cathode-b")]),
        (("plate", "grid", "cathode", "plate-2", "cathode-2"), [("plate-2", "cathode-2")]),
        (("plate", "grid", "cathode", "plate-2", "grid-2", "cathode-2"), []),  # a twin triode, or a pentode's screen
        (("plate-1", "grid-1", "cathode-1", "plate-2", "grid-2", "cathode-2"), []),
        (("plate", "grid", "cathode", "plate-2"), []),
    ],
)
def test_a_plate_without_a_grid_is_a_diode(electrodes: tuple[str, ...], found: list[tuple[str, str]]) -> None:
    assert list(diode_paths(electrodes)) == found


def test_a_shape_needs_no_value() -> None:
    """What follows looks at parts without their values: they are still parts with two leads."""
    for word in ("resistor", "capacitor", "electrolytic", "choke", "coil", "lamp", "speaker", "battery", "diode"):
        shape = KINDS[word].shape(Features())
        assert isinstance(shape, Shape), shape
        assert len(shape.terminals) >= 2


# What may be said of a part and is held against nothing in a comparison, with the reason.
NOT_COMPARED = {
    ("selenium", Dimension.PLATES): "its volts are what counts",
    ("lamp", Dimension.POWER): "a lamp says volts and amperes, or volts and watts",
    ("lamp", Dimension.RESISTANCE): "cold ohms of a ballast, for the bench",
    ("fuse", Dimension.RESISTANCE): "for the bench",
    ("battery", Dimension.CURRENT): "what it may give is no part of the circuit",
    ("cord", Dimension.GAUGE): "for the list of what to buy",
    ("cord", Dimension.WIRES): "they are its leads",
    ("strip", Dimension.LUGS): "they are its lugs",
    ("plug", Dimension.PINS): "they are its pins",
    ("network", Dimension.PINS): "they are its pins",
    ("transformer", Dimension.FREQUENCY): "the line's, which `mains` says",
}


def test_every_value_that_may_be_said_is_compared_or_left_out_by_name() -> None:
    """A figure that stands in both files and is held against nothing is silence that looks like agreement."""
    compared = {
        (word, dimension)
        for word, kind in KINDS.items()
        for dimension in {*kind.rated, *(each for each, _ in bands.bands_of(kind)), Dimension.TOLERANCE}
    }
    compared |= {("transformer", each) for each in (*bands._OF_A_WINDING, Dimension.CURRENT)}
    said = {(word, dimension) for word, kind in KINDS.items() for dimension in kind.dimensions}
    assert said - compared == set(NOT_COMPARED)
