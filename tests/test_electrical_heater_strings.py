"""What a string of heaters leaves, which heater is worst off, and which is made for another current: by its figures."""

import pytest

from netcheck.electrical.table.heaters import Dropper, HeaterRow, HeaterString, heaters
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit


def row(rated: float, volts: float, amperes: float = 0.15) -> HeaterRow:
    return HeaterRow("V", rated, amperes, volts)


def string(*rows: HeaterRow) -> HeaterString:
    return HeaterString("P1", 117.0, 0.15, rows, ())


def test_the_heaters_leave_the_line_less_what_they_are_made_for() -> None:
    assert string(row(50, 48), row(12.6, 12)).left == pytest.approx(117 - 62.6)


@pytest.mark.parametrize(("each", "in_series"), [(61.4, True), (61.5, False)])
def test_heaters_that_get_a_twentieth_more_than_the_line_together_are_not_in_series(
    each: float, *, in_series: bool
) -> None:
    """1.05 times 117 V are 122.85 V, 61.425 V for each of two."""
    assert (string(row(63, each), row(63, each)).left is not None) is in_series


def test_the_worst_is_the_farthest_off_either_way() -> None:
    low, high = row(50, 44), row(12.6, 13.5)
    assert string(low, high).worst is low
    assert string(row(50, 49), high).worst is high


@pytest.mark.parametrize(("volts", "wrong"), [(45.1, False), (44.9, True), (54.9, False), (55.1, True)])
def test_a_tenth_either_way_is_right(volts: float, *, wrong: bool) -> None:
    assert string(row(50, volts), row(12.6, 12.6)).is_wrong is wrong


@pytest.mark.parametrize(("amperes", "other"), [(0.136, False), (0.134, True), (0.164, False), (0.166, True)])
def test_a_heater_a_tenth_off_the_current_of_most_is_another_strings(amperes: float, *, other: bool) -> None:
    odd = row(12.6, 12.6, amperes)
    assert string(row(50, 50), odd).of_other_current == ((odd,) if other else ())


@pytest.mark.parametrize(
    ("watts", "rated", "over"), [(5.0, 5.0, ""), (5.1, 5.0, "yes"), (4.9, 5.0, ""), (50.0, None, "")]
)
def test_a_dropper_is_over_above_its_rating(watts: float, rated: float | None, over: str) -> None:
    assert Dropper("R1", 54.0, 0.15, watts, rated).over == over


STRING = """
mains 117 V 60 Hz
cord P1
tube V1 50L6GT
tube V2 12SQ7
resistor R1 360 ohm 20 W
resistor R2 {beside}
net line: P1.1, R1.1, R2.1
net h1: R1.2, V1.2
net h2: V1.7, V2.7
net back: P1.2, V2.8, R2.2
"""


@pytest.mark.parametrize(("beside", "told"), [("7.5k", True), ("8.2k", False)])
def test_what_carries_less_than_a_tenth_of_the_string_is_no_dropper(beside: str, *, told: bool) -> None:
    """A tenth of the 150 mA that the heaters are made for goes through 7.8 kilohm at 117 V."""
    (found,) = heaters(CircuitGraph(circuit(STRING.format(beside=beside)))).strings
    assert [one.name for one in found.droppers] == ["R1", *["R2"] * told]
    (dropper,) = [one for one in found.droppers if one.name == "R1"]
    ohms = 360 + 50 / 0.15 + 12.6 / 0.15
    assert dropper.amperes == pytest.approx(117 / (ohms + 1), rel=0.01)
    assert dropper.volts == pytest.approx(360 * 117 / (ohms + 1), rel=0.01)


def test_one_heater_is_no_string() -> None:
    alone = STRING.replace("tube V2 12SQ7\n", "").replace("net h2: V1.7, V2.7\n", "").replace("V2.8", "V1.7")
    assert heaters(CircuitGraph(circuit(alone.format(beside="7.5k")))).strings == ()
