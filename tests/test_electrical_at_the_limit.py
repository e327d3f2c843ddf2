"""What is exactly at a limit is within it, and what is printed for some figure is enough for just that figure."""

import pytest

from netcheck.electrical.emptied import charged
from netcheck.electrical.fuses import fuse_for
from netcheck.electrical.mains.flow import Share
from netcheck.electrical.mains.leak_orders import shown_ways
from netcheck.electrical.mains.leak_words import milliamperes
from netcheck.electrical.mains.leakage import Leak
from netcheck.electrical.mains.line import line_of
from netcheck.electrical.network.translate import network_of
from netcheck.electrical.off_chart import off_chart
from netcheck.electrical.proof.judgement import Surety, Verdict, WayRound
from netcheck.electrical.table.heaters import Dropper, HeaterRow, HeaterString
from netcheck.electrical.table.rows import CapacitorRow, FirstFilter, RectifierRow, ResistorRow
from netcheck.model.graph import CircuitGraph
from tests.paper import circuit

UNKNOWN = Verdict("C1", Surety.UNPROVEN, WayRound.UNKNOWN, "")


def capacitor(peak: float, cold: float, high: float, ripple: float) -> str:
    return CapacitorRow("C1", "B+", 200.0, 150.0, 5.0, peak, cold, high, ripple, 0.2, UNKNOWN).over


@pytest.mark.parametrize(
    ("figures", "over"),
    [
        ((200.0, 200.0, 200.0, 0.2), ""),
        ((-200.0, -200.0, -200.0, 0.2), ""),
        ((201.0, 201.0, 201.0, 0.3), "in use"),
        ((200.0, -201.0, 201.0, 0.3), "cold"),
        ((200.0, 200.0, 201.0, 0.3), "cold on a high line"),
        ((200.0, 200.0, 200.0, 0.3), "ripple"),
    ],
)
def test_a_capacitor_at_its_volts_and_its_ripple_current_is_within_both(
    figures: tuple[float, float, float, float], over: str
) -> None:
    assert capacitor(*figures) == over


@pytest.mark.parametrize(
    ("mean", "peak", "inverse", "high", "over"),
    [
        (0.1, 0.6, 700.0, 700.0, ""),
        (0.1, 0.6, 700.0, None, ""),
        (0.2, 0.7, 800.0, 800.0, "mean"),
        (0.1, 0.7, 800.0, 800.0, "peak"),
        (0.1, 0.6, 800.0, 800.0, "inverse"),
        (0.1, 0.6, 700.0, 800.0, "inverse cold"),
    ],
)
def test_a_rectifier_at_its_limits_is_within_them(
    mean: float, peak: float, inverse: float, high: float | None, over: str
) -> None:
    assert RectifierRow("D1", mean, 0.2, peak, None, inverse, high, 0.1, 0.6, 700.0).over == over
    assert RectifierRow("D1", mean, 0.2, peak, None, inverse, high, None, None, None).over == ""


@pytest.mark.parametrize(("watts", "over"), [(1.0, ""), (1.5, "above half"), (2.0, "above half"), (2.5, "yes")])
def test_a_resistor_at_half_of_its_watts_is_run_as_new_ones_are(watts: float, over: str) -> None:
    assert ResistorRow("R1", 0.1, 0.1, watts, 2.0).over == over
    assert ResistorRow("R1", 0.1, 0.1, watts, None).over == ""
    assert Dropper("R1", 10.0, 0.1, watts, 2.0).over == ("yes" if watts > 2 else "")


@pytest.mark.parametrize(("farads", "over"), [(100.0, ""), (120.0, "within tolerance"), (121.0, "too large")])
def test_a_first_capacitor_is_its_tubes_within_a_fifth(farads: float, over: str) -> None:
    assert FirstFilter("V1", "5Y3GT", ("C1",), farads, 100.0, "", "").over == over


def test_heaters_that_get_a_twentieth_more_than_the_line_may_still_be_one_string() -> None:
    rows = tuple(HeaterRow(f"V{n}", 50.0, 0.15, volts) for n, volts in enumerate((52.5, 52.5)))
    assert HeaterString("P1", 100.0, 0.15, rows, ()).left == 0.0
    over = (*rows, HeaterRow("V3", 6.3, 0.15, 0.1))
    assert HeaterString("P1", 100.0, 0.15, over, ()).left is None


def test_half_a_milliampere_is_as_much_as_may_be() -> None:
    at, over = (Leak(0, "chassis", amperes, 0.0005, (), "P1.1") for amperes in (0.0005, 0.00051))
    assert (at.is_over, over.is_over) == (False, True)


def test_a_tenth_of_a_leak_is_shown_and_less_is_not() -> None:
    ways = (Share("C1", 0.9), Share("C2", 0.1), Share("C3", 0.09))
    assert shown_ways(Leak(0, "chassis", 1.0, 0.0005, ways, "P1.1")) == [*ways[:2]]


@pytest.mark.parametrize(
    ("amperes", "said"),
    [(0.00072, "0.72 mA"), (0.0099, "9.9 mA"), (0.01, "10 mA"), (0.999, "1000 mA"), (1.0, "1 A"), (10.0, "10 A")],
)
def test_a_leak_is_told_in_two_figures(amperes: float, said: str) -> None:
    assert milliamperes(amperes) == said


@pytest.mark.parametrize(("amperes", "fuse"), [(0.5, 0.75), (1.0, 1.5), (2.0, 3.0), (4.0, 6.0)])
def test_a_fuse_of_a_half_more_is_enough(amperes: float, fuse: float) -> None:
    assert fuse_for(amperes) == fuse


SUPPLY = """
mains 117 V 60 Hz
common B-
cord P1
{choke}
diode D1 1000 V 1 A
electrolytic C1 47 mfd 250 V
resistor R1 10k 5 W
resistor R2 1k 5 W
resistor R3 100k 1 W
capacitor C2 {paper} mfd 400 V
net a: P1.1, L1.1
net b: L1.2, D1.anode
net B+: D1.cathode, C1+, R1.1, R2.1
net out: R2.2, R3.1, C2.1
net B-: P1.2, C1-, R1.2, R3.2, C2.2
"""


def graph(paper: str = ".25", choke: str = "choke L1 5 mH 1 ohm") -> CircuitGraph:
    return CircuitGraph(circuit(SUPPLY.format(paper=paper, choke=choke)))


@pytest.mark.parametrize(("mfd", "smooths"), [(".25", True), (".24", False)])
def test_a_quarter_of_a_microfarad_smooths_and_less_carries_signals(mfd: str, *, smooths: bool) -> None:
    found = network_of(graph(mfd))
    assert ("C2" in {one.name for one in found.network.elements}) is smooths
    assert ("C2" in {one.name for one in found.papers}) is not smooths


@pytest.mark.parametrize(
    ("mfd", "volts", "hurts"), [(".1", 60.1, True), (".1", -60.1, True), (".1", 60.0, False), (".09", 400.0, False)]
)
def test_a_tenth_of_a_microfarad_above_sixty_volts_can_hurt(mfd: str, volts: float, *, hurts: bool) -> None:
    assert [one.name for one in charged(graph(mfd), {"C2": volts})] == (["C2"] if hurts else [])


@pytest.mark.parametrize(
    ("choke", "is_line"), [("choke L1 99 mH 1 ohm", True), ("choke L1 .1 H 1 ohm", False), ("choke L1 1 ohm", True)]
)
def test_a_choke_of_a_tenth_of_a_henry_smooths_and_a_smaller_one_is_a_wire_of_the_line(
    choke: str, *, is_line: bool
) -> None:
    state = graph(choke=choke)
    line = line_of(state)
    assert line is not None
    assert (state.circuit.net_of("D1.anode") in line.sides[0].nets) is is_line


def test_five_volts_off_a_chart_are_within_what_a_meter_shows() -> None:
    text = (
        "supply B+ to chassis 15 V\nelectrolytic C1 40 mfd 50 V\nnet B+: C1+\nnet ground: chassis, C1-\nvolts B+ {} V\n"
    )
    assert off_chart(CircuitGraph(circuit(text.format(10.5)))) is None
    far = off_chart(CircuitGraph(circuit(text.format(9.5))))
    assert far is not None
    assert far.far[0].computed == pytest.approx(15.0)
