"""What is said of a winding stays with it: in layered files, from end to end or of each side, and its rise."""

import pytest

from netcheck.electrical.network.elements import Resistor, VoltageSource
from netcheck.electrical.network.translate import network_of
from netcheck.model.graph import CircuitGraph
from netcheck.parts.transformer import rise_of
from tests.paper import built, circuit, compared

BASE = """
title "A set"
state drawn
mains 117 V 60 Hz
cord P1
transformer T1
winding T1 primary 1 2 117 V 5 ohm
winding T1 high 3 4 5 310-0-310 V 200 ohm
winding T1 filament 6 7 5 V 0.2 ohm
tube V1 5Y3GT
electrolytic C1 16 mfd 500 V
net line-a: P1.1, T1.1
net line-b: P1.2, T1.2
net plate-a: T1.3, V1.4
net plate-b: T1.5, V1.6
net fil: T1.6, V1.2
net B+1: T1.7, V1.8, C1+
net ground: chassis, T1.4, C1-
draws B+1 60 mA
"""
LOG = 'state planned\nstart from "base.netck"\n'


def _sources(text: str, **others: str) -> dict[str, VoltageSource]:
    elements = network_of(CircuitGraph(circuit(text, **others))).network.elements
    return {one.name: one for one in elements if isinstance(one, VoltageSource)}


def test_a_winding_keeps_its_values_through_a_work_log() -> None:
    """The transformer is spoken of in the log, its windings in the base."""
    alone, layered = _sources(BASE), _sources(f"{LOG}change T1 rise 8%\n", base=BASE)
    assert layered["T1 high 1"].ohms == alone["T1 high 1"].ohms == pytest.approx(100 + 5 * (310 / 117) ** 2)
    assert (alone["T1 high 1"].rise, layered["T1 high 1"].rise) == (0.05, 0.08)


def test_a_winding_added_in_a_work_log_keeps_its_own_values() -> None:
    log = f"{LOG}winding T1 bias 8 9 30 V 40 ohm\nselenium CR1 52 V 75 mA\nelectrolytic C2 47 mfd 100 V\n"
    log += "resistor R1 10k\nnet b: T1.8, CR1+\nnet bias: CR1-, C2-, R1.1\nnet ground: T1.9, C2+, R1.2\n"
    found = _sources(log, base=BASE)
    assert found["T1 bias"].peak == pytest.approx(30 * 2**0.5)
    assert found["T1 bias"].ohms == pytest.approx(40 + 5 * (30 / 117) ** 2)
    assert found["T1 high 1"].ohms == pytest.approx(100 + 5 * (310 / 117) ** 2)


def test_a_winding_without_volts_keeps_its_ohms_through_a_work_log() -> None:
    output = BASE + "transformer T4\nwinding T4 primary 1 2 180 ohm\ntube V5 6V6GT\n"
    output += "net B+1: T4.1, V5.screen\nnet p: T4.2, V5.plate\nnet ground: V5.cathode\n"
    network = network_of(CircuitGraph(circuit(f"{LOG}change T4 grounded\n", base=output))).network
    (found,) = (one for one in network.elements if isinstance(one, Resistor) and one.name.startswith("T4"))
    assert found.ohms == 180.0


@pytest.mark.parametrize(
    ("written", "same_as"),
    [
        ("310-0-310 V 100 ohm each side", "310-0-310 V 200 ohm"),
        ("310 V 100 ohm each side", "310-0-310 V 200 ohm"),
        ("310-0-310 V 100 ohm 40 mA each side", "310-0-310 V 200 ohm 40 mA"),
    ],
)
def test_each_side_is_of_each_side_of_the_tap(written: str, same_as: str) -> None:
    """Ohms are stated end to end unless `each side` is written."""
    base, other = (BASE.replace("310-0-310 V 200 ohm", values) for values in (written, same_as))
    assert _sources(base) == _sources(other)


def test_each_side_keeps_how_it_was_written() -> None:
    part = circuit(BASE.replace("200 ohm", "100 ohm each side")).parts["T1"]
    (ohms,) = (q for q in part.features.winding_values["high"] if q.dimension.value == "ohm")
    assert (float(ohms.amount), ohms.written) == (200.0, "100 ohm each side")


def test_two_spellings_of_one_winding_compare_as_equal() -> None:
    report = compared(BASE, BASE.replace("drawn", "rewired").replace("200 ohm", "100 ohm each side"))
    assert not report.diagnostics


@pytest.mark.parametrize(
    "line", ["winding T1 x 8 9 5 V each", "winding T1 x 8 9 5 V side", "winding T1 x 8 9 5 V per side"]
)
def test_half_a_phrase_is_refused(line: str) -> None:
    found, problems = built(f"{BASE}{line}\n")
    assert found is None
    assert [problem.rule for problem in problems] == ["syntax"]


def test_leads_may_be_called_each_and_side() -> None:
    windings = circuit(f"{BASE}winding T1 x each side 5 V\n").parts["T1"].features.windings
    assert ("x", ("each", "side")) in windings


@pytest.mark.parametrize(("said", "rise"), [("0%", 0.0), ("8%", 0.08), ("2.5%", 0.025), ("5 %", 0.05), ("50%", 0.5)])
def test_the_rise_of_a_transformer(said: str, rise: float) -> None:
    part = circuit(BASE.replace("transformer T1", f"transformer T1 rise {said}")).parts["T1"]
    read = rise_of(part.features)
    assert read is not None
    assert float(read) == pytest.approx(rise)


@pytest.mark.parametrize(
    ("said", "why"), [("8", "rise"), ("51%", "rise"), ("-3%", "`-3%` is less than nothing"), ("much", "rise")]
)
def test_a_rise_that_is_none_is_refused(said: str, why: str) -> None:
    found, problems = built(BASE.replace("transformer T1", f"transformer T1 rise {said}"))
    assert found is None
    assert any(why in problem.headline for problem in problems)
