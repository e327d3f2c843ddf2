"""What tubes are to a supply: bias and knees, gas tubes that keep volts, rectifiers that nobody has figures of."""

import pytest

from netcheck.electrical.network.elements import Load, Rectifier, Regulator, Tube
from netcheck.electrical.network.translate import Translation, network_of
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

SET = """
mains 117 V 60 Hz
cord P1
diode D1 1000 V 1 A
electrolytic C1 47 mfd 250 V
resistor R1 10k 5 W
net line: P1.1, D1.anode
net B+: D1.cathode, C1+, R1.1
net ground: chassis, P1.2, C1-, R1.2
"""


def found(*lines: str, text: str = SET) -> Translation:
    return network_of(CircuitGraph(circuit(text + "\n".join(lines) + "\n")))


def loads(*lines: str) -> dict[str, Load]:
    return {one.name: one for one in found(*lines).network.elements if isinstance(one, Load)}


def biased(type_: str, ohms: str) -> tuple[str, ...]:
    screen = ", V1.screen" if type_ == "6V6GT" else ""
    return (
        f"tube V1 {type_}", f"resistor R2 {ohms}", f"at B+: V1.plate{screen}", "net k: V1.cathode, R2.1",
        "at ground: R2.2",
    )  # fmt: skip


# The type, its cathode resistor, and the milliamperes of plate and screen together: bias volts by ohms, or its own.
BIASED = [
    ("6V6GT", "1k", 20.0), ("6V6GT", "2k", 10.0), ("6V6GT", "270 ohm", 49.5), ("6V6GT", "5k", 4.0),
    ("6V6GT", "5.1k", 49.5), ("6J5", "2.5k", 2.0), ("6J5", "1k", 3.0), ("6J5", "5k", 1.0), ("6J5", "47k", 3.0),
]  # fmt: skip


@pytest.mark.parametrize(("type_", "ohms", "milliamperes"), BIASED)
def test_a_tube_never_has_more_across_its_cathode_resistor_than_a_bias(
    type_: str, ohms: str, milliamperes: float
) -> None:
    """20 V of an output tube, 5 V of a small one; over 5 kilohm it is a tail or a load, and its grid stands high."""
    drawn = loads(*biased(type_, ohms))
    assert 1000 * sum(one.amperes for one in drawn.values()) == pytest.approx(milliamperes)
    said = [text for text in found(*biased(type_, ohms)).defaults if text.startswith("V1")]
    held = milliamperes not in (49.5, 3.0)
    assert all(text.endswith(", held down by its cathode resistor") is held for text in said)
    if type_ == "6V6GT":
        assert drawn["V1 plate current"].amperes / drawn["V1 screen current"].amperes == pytest.approx(10)


@pytest.mark.parametrize(("type_", "knee"), [("6V6GT", 20.0), ("6J5", 100.0)])
def test_an_output_tube_draws_all_of_its_current_from_20_volts_and_a_small_one_from_100(
    type_: str, knee: float
) -> None:
    assert {one.knee_volts for one in loads(*biased(type_, "1k")).values()} == {knee}


def test_a_gas_tube_keeps_its_volts_and_draws_nothing_of_its_own() -> None:
    lines = ("tube V1 0D3", "resistor R2 5k", "at B+: R2.1", "net kept: R2.2, V1.plate", "at ground: V1.cathode")
    elements = found(*lines).network.elements
    (tube,) = [one for one in elements if isinstance(one, Regulator)]
    assert (tube.name, tube.volts) == ("V1", 150.0)
    assert not [one for one in elements if isinstance(one, Load | Tube)]


BASED = "basing X1: 1 plate, 2 cathode, 3 heater-1, 4 heater-2"


def test_a_rectifier_of_which_nobody_has_figures_drops_50_volts_at_125_milliamperes() -> None:
    text = f"{BASED}\n" + SET.replace("diode D1 1000 V 1 A", "tube D1 X1").replace("D1.anode", "D1.1").replace(
        "D1.cathode", "D1.2"
    )
    (one,) = [each for each in found(text=text).network.elements if isinstance(each, Rectifier)]
    assert (one.driven, one.cold, one.inverse_volts, one.peak_amperes, one.mean_amperes) == (
        True,
        False,
        None,
        None,
        None,
    )
    # The power of 3/2 up to six times the current: that is 6 to the 2/3 times the volts.
    assert one.law.corners[-1] == pytest.approx((50.0 * 6 ** (2 / 3), 0.75), rel=0.02)
    assert "D1 X1: drops 50 V at 125 mA" in found(text=text).defaults


def test_a_rectifier_of_the_table_is_said_with_its_ratings() -> None:
    text = SET.replace("diode D1 1000 V 1 A", "tube D1 35W4").replace("D1.anode", "D1.5").replace("D1.cathode", "D1.7")
    (one,) = [each for each in found(text=text).network.elements if isinstance(each, Rectifier)]
    assert one.inverse_volts == 330.0
    (said,) = [each for each in found(text=text).defaults if each.startswith("D1 35W4")]
    assert said.startswith("D1 35W4: drops ")
    assert "a plate is rated" in said
    assert "330 V inverse (" in said
