"""A transformer that a vibrator drives: what it gives is no sine wave of the mains, and no figure is told of it."""

import pytest

from netcheck.core.source import Source
from netcheck.electrical.network.supplies import not_calculated
from netcheck.electrical.table.supply import supply
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from tests.paper import reader

CAR = """
battery B1 6.3 V
fuse F1 15 A
switch S1 drawn closed
choke L1 30 uH
plug VB1 3 pins "socket of the vibrator"
transformer T1
winding T1 primary green-a red green-b 6.3-0-6.3 V
winding T1 secondary blue-a black blue-b 250-0-250 V 180 ohm each side
capacitor C1 .007 mfd 1600 V oil
tube V1 6X5GT
electrolytic C2 16 mfd 400 V
resistor R1 22k 5 W
net A1: B1+, F1.1
net A2: F1.2, S1.1
net A3: S1.2, L1.1
net A4: L1.2, T1.red, V1.7
net vib-a: T1.green-a, VB1.1
net vib-b: T1.green-b, VB1.2
net hv-a: T1.blue-a, C1.1, V1.3
net hv-b: T1.blue-b, C1.2, V1.5
net B+: V1.8, C2+, R1.1
net ground: chassis, B1-, VB1.3, T1.black, V1.2, C2-, R1.2
"""
MAINS = "mains 117 V 60 Hz\n"
MADE = 'supply B+ to chassis 250 V "stated"\n'


def graph_of(text: str) -> CircuitGraph:
    circuit, problems = build(Source("set.netck", text), reader({}))
    assert circuit is not None, problems
    return CircuitGraph(circuit)


@pytest.mark.parametrize("mains", ["", MAINS])
def test_of_a_car_radio_no_mains_are_asked_for_but_what_its_vibrator_makes(mains: str) -> None:
    (told,) = not_calculated(graph_of(CAR + mains))
    assert told.endswith("; add what the vibrator makes, for instance `supply B+ to chassis 250 V`")


@pytest.mark.parametrize("mains", ["", MAINS])
def test_with_the_volts_that_it_makes_those_are_told_and_nothing_of_the_winding(mains: str) -> None:
    graph = graph_of(CAR + MADE + mains)
    table = supply(graph)
    assert not_calculated(graph) == ()
    rails = {name: rail for rail in table.lines for name in rail.name.split(", ")}
    assert rails["B+"].running == pytest.approx(250, abs=1)
    assert rails.keys().isdisjoint({"hv-a", "hv-b"})
    assert table.rectifiers == ()
    assert "what T1 secondary makes by its vibrator, but for what `supply` lines say" in table.left_out


@pytest.mark.parametrize(
    "made",
    [
        CAR.replace("net A4: L1.2, T1.red,", "net A4: L1.2,").replace("net A1: B1+,", "net A1: B1+, T1.red,"),
        CAR.replace("switch S1 drawn closed", "switch S1 drawn open"),
        CAR.replace("B1-", "B1#").replace("B1+", "B1-").replace("B1#", "B1+"),
    ],
    ids=["without fuse and choke", "switched off", "plus at the frame"],
)
def test_however_the_battery_feeds_it(made: str) -> None:
    assert "vibrator" in not_calculated(graph_of(made))[0]


def test_a_bias_cell_drives_no_transformer() -> None:
    """A drawing of a set on the line without its cord, with a cell in the grid return."""
    text = CAR.replace("6.3-0-6.3 V", "117-0-117 V").replace("net A1: B1+, F1.1", "net A1: B1+, R2.1\nspare F1.1")
    text += "resistor R2 1 meg\nspare R2.2\n"
    assert not_calculated(graph_of(text))[0].endswith("add `mains`, for instance `mains 117 V 60 Hz`")
    assert not_calculated(graph_of(text + MAINS)) == ()


@pytest.mark.parametrize(("size", "ohms"), [("30 uH", "0.6"), ("2.5 mH", "50"), ("12 H", "200"), ("", "200")])
def test_a_choke_for_radio_frequency_has_no_ohms_of_one_of_iron(size: str, ohms: str) -> None:
    """The usual choke of 2.5 mH has about 50 ohm."""
    text = (CAR + MADE).replace("choke L1 30 uH", f"choke L1 {size}")
    text += "resistor R3 10 ohm\nat L1.2: R3.1\nat chassis: R3.2\n"
    assert f"L1: {ohms} ohm" in supply(graph_of(text)).defaults
