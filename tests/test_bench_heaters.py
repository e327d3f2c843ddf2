"""What an ohmmeter finds across a cold heater, tapped or not, known or not."""

import math

import pytest

from netcheck.bench.branches import Makes, PartPath, branches_of
from tests.paper import circuit

CENTRE = "1 heater-1, 2 heater-tap, 3 heater-2, 4 plate, 5 cathode"


def heaters(tube: str, basing: str = "", *, tubes_in: bool = True) -> list[PartPath]:
    said = f"basing {tube}: {basing}\n" if basing else ""
    state = circuit(f"state rewired\n{said}tube V1 {tube}\nresistor R1 1k\nnet a: R1.1\n")
    return [*branches_of(state.parts["V1"], tubes_in=tubes_in)]


# Volts and amperes of the heaters (Receiving Tube Manual RC-30, 1975): a hot heater has the one over the other.
HOT = [
    ("6V6GT", "", [("V1 heater", "2", "7", 6.3 / 0.45)]),
    ("12AX7", "", [("V1 heater 1", "4", "9", 6.3 / 0.15), ("V1 heater 2", "9", "5", 6.3 / 0.15)]),
    ("35Z5GT", "", [("V1 heater 1", "2", "3", 7.5 / 0.15), ("V1 heater 2", "3", "7", 27.5 / 0.15)]),
    # A tap of which no data sheet says the volts halves them.
    ("25Z5", CENTRE, [("V1 heater 1", "1", "2", 12.5 / 0.3), ("V1 heater 2", "2", "3", 12.5 / 0.3)]),
]


@pytest.mark.parametrize(("tube", "basing", "wanted"), HOT, ids=[tube for tube, *_ in HOT])
def test_a_cold_heater_has_a_fifth_to_a_seventh_of_its_hot_ohms(
    tube: str, basing: str, wanted: list[tuple[str, str, str, float]]
) -> None:
    found = heaters(tube, basing)
    assert [(one.name, one.a, one.b) for one in found] == [(name, a, b) for name, a, b, _ in wanted]
    assert [one.high for one in found] == pytest.approx([hot for *_, hot in wanted])
    for one in found:
        assert one.ohms is not None
        assert one.makes is Makes.OHMS
        assert one.high / 7 < one.ohms < one.high / 5
        assert one.low < one.ohms


def test_of_a_tube_that_nothing_is_known_of_any_ohms_may_be_there() -> None:
    (one,) = heaters("ZZ9", "1 heater-1, 2 heater-2, 3 plate, 4 cathode")
    assert (one.name, one.a, one.b, one.ohms, one.low, one.high) == ("V1 heater", "1", "2", None, 0.0, math.inf)
    assert [(one.name, one.ohms) for one in heaters("ZZ9", CENTRE)] == [("V1 heater 1", None), ("V1 heater 2", None)]


def test_without_a_heater_or_with_the_tube_out_there_is_nothing() -> None:
    assert heaters("0A2") == []
    assert heaters("ZZ9", "1 heater-1, 3 plate, 4 cathode") == []
    assert heaters("6V6GT", tubes_in=False) == []
