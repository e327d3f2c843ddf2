"""What makes a loop of rectifiers a short: by Kirchhoff's voltage law a winding's volts must fall across something."""

import pytest

from netcheck.electrical.shorts import Short, shorts
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

HEAD = """mains 117 V 60 Hz
cord P1
transformer T1
winding T1 primary black-a black-b 117 V 6 ohm
winding T1 high red-a red-b 250 V 60 ohm
diode D1 1N4007
electrolytic C1 40 mfd 450 V
resistor R9 22k 10 W
net in-a: P1.1, T1.black-a
net in-b: P1.2, T1.black-b
net hot: T1.red-a, D1.anode
net ground: chassis, T1.red-b, C1-, R9.2
"""


def found(*lines: str) -> tuple[Short, ...]:
    return shorts(CircuitGraph(circuit(HEAD + "\n".join(lines) + "\n")))


def back_through(part: str) -> tuple[Short, ...]:
    """D1, and then a part of two leads, from one end of the winding to the other."""
    name = part.split()[1]
    return found(part, f"net rect: D1.cathode, {name}.1, C1+, R9.1", f"net ground: {name}.2")


@pytest.mark.parametrize(
    ("part", "is_short"),
    [
        ("resistor R1 99 ohm 500 W", True),
        ("resistor R1 100 ohm 500 W", False),
        ("choke L1 5 H 499 ohm", True),
        ("choke L1 5 H 500 ohm", False),
        ("fuse F1 1 A", True),
    ],
)
def test_what_burns_first_saves_nothing_and_what_limits_the_current_does(part: str, *, is_short: bool) -> None:
    assert [(s.source, s.leads, s.rectifiers) for s in back_through(part)] == (
        [("T1", ("red-a", "red-b"), ("D1",))] if is_short else []
    )


def test_a_battery_on_the_way_is_a_load_and_no_wire() -> None:
    lines = ("battery BT1 300 V", "net rect: D1.cathode, BT1+, C1+, R9.1", "net ground: BT1-")
    assert found(*lines) == ()


@pytest.mark.parametrize(("volts", "is_short"), [(180, False), (150, True)])
def test_windings_against_each_other_short_one_that_is_left_with_over_half_of_its_volts(
    volts: int, *, is_short: bool
) -> None:
    """250 V less 180 V are 70 V, less 150 V they are 100 V; what is left is computed as current and heat."""
    lines = (
        f"winding T1 bias blue-a blue-b {volts} V 10 ohm",
        "net rect: D1.cathode, T1.blue-a, C1+, R9.1",
        "net ground: T1.blue-b",
    )
    assert bool(found(*lines)) is is_short


def test_a_rectifier_beside_a_resistor_is_in_the_loop_too() -> None:
    """The node behind both is reached by the resistor as well; that way is no loop of rectifiers, the other is."""
    lines = (
        "resistor R1 10 ohm 100 W",
        "choke L1 5 H 200 ohm",
        "net hot: R1.1",
        "net rect: D1.cathode, R1.2, L1.1, C1+, R9.1",
        "net ground: L1.2",
    )
    assert [s.through for s in found(*lines)] == [("D1", "L1")]


def test_a_stretch_of_a_tapped_winding_is_named_by_its_own_leads() -> None:
    lines = (
        "winding T1 extra white-a white white-b 100-0-100 V 20 ohm",
        "diode D2 1N4007",
        "net w: T1.white, D2.anode",
        "net v: T1.white-b, D2.cathode",
        "net rect: D1.cathode, C1+, R9.1",
        "spare T1.white-a",
    )
    assert [(s.leads, s.rectifiers) for s in found(*lines)] == [(("white", "white-b"), ("D2",))]


def test_forty_pairs_of_resistors_in_a_row_are_gone_through_once() -> None:
    """There are two to the fortieth ways from one end to the other, and forty-one points."""
    parts = [f"resistor R{n}{each} 1 ohm 500 W" for n in range(40) for each in "ab"]
    nets = [f"net n{n}: R{n - 1}a.2, R{n - 1}b.2, R{n}a.1, R{n}b.1" for n in range(1, 40)]
    ends = "net rect: D1.cathode, R0a.1, R0b.1, C1+, R9.1", "net ground: R39a.2, R39b.2"
    (short,) = found(*parts, *nets, *ends)
    assert short.rectifiers == ("D1",)
