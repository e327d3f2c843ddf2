"""Nothing that has two leads vanishes: every kind of part is in each table of the engines, or in a list beside it."""

import pytest

from netcheck.core.kind import Features, Shape
from netcheck.electrical.mains import impedance
from netcheck.electrical.network import translate
from netcheck.parts import KINDS
from netcheck.parts.rectifiers import diode_paths

TABLES = {
    "what carries the line": (set(impedance._BY_WORD), impedance.OUTSIDE),
    "what a supply is made of": (set(translate._BY_WORD), translate.OUTSIDE),
}


@pytest.mark.parametrize("table", TABLES)
def test_every_kind_is_in_the_table_or_left_out_by_name(table: str) -> None:
    inside, outside = TABLES[table]
    assert inside | outside == set(KINDS)
    assert not inside & outside


@pytest.mark.parametrize("table", TABLES)
def test_only_places_and_what_joins_nets_is_left_out(table: str) -> None:
    joins = {"cord", "fuse", "switch"}
    assert all(KINDS[word].place for word in TABLES[table][1] - joins)


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
