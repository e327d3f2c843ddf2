"""Silicon in place of a tube: the resistor that is told brings the volts back where it is put, by a run of its own."""

from pathlib import Path

import pytest

from netcheck.api import compare
from netcheck.electrical.running.steady import steady
from netcheck.electrical.table.supply import supply
from netcheck.electrical.table.swap import SiliconSwap, swapped
from netcheck.model.graph import CircuitGraph
from netcheck.system.files import read, reader
from tests import paper
from tests.circuits import circuit

SAMPLES = Path(__file__).parents[1] / "samples"
LOAD = "E C1 {plus} {minus} 20\nJ load {plus} {minus} 0.05\nR R1 {plus} {minus} 100000\n"
BEHIND = "S Ta a 0 300\nS Tb 0 b 300\nV V1 a {k}\nV V2 b {k}\n" + LOAD.format(plus="k", minus="0")
BEFORE = "S Ta a 0 300\nS Tb 0 b 300\nV V1 {k} a\nV V2 {k} b\n" + LOAD.format(plus="0", minus="k")
DOUBLER = "S LINE {top} 0 165\nE CA {top2} m 40\nV V1 0 m\nV V2 m k\n" + LOAD.format(plus="k", minus="0")


def told(text: str, *parts: str) -> SiliconSwap:
    network = circuit(text)
    return swapped(network, steady(network), parts, {})


def mean(text: str, name: str) -> float:
    return next(one.volts.mean for one in steady(circuit(text)).capacitors if one.name == name)


# The set, its rectifiers, where the resistor goes, and the same with silicon and that resistor drawn into it.
CASES = {
    "behind a common cathode": (BEHIND.format(k="k"), "between V1, V2 and k", BEHIND.format(k="x") + "R RX x k {ohms}"),
    "before a common anode": (BEFORE.format(k="k"), "between k and V1, V2", BEFORE.format(k="x") + "R RX x k {ohms}"),
    "in the lead of a doubler": (
        DOUBLER.format(top="a", top2="a"),
        "in the lead from LINE to the rectifiers",
        DOUBLER.format(top="a", top2="x") + "R RX a x {ohms}",
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_the_resistor_brings_the_volts_back(name: str) -> None:
    text, place, mended = CASES[name]
    swap = told(text, "V1", "V2")
    assert (swap.held, swap.place, swap.late) == ("C1", place, ("V1", "V2"))
    assert swap.ohms is not None
    silicon = mended.replace("\nV V", "\nD V")
    assert mean(silicon.format(ohms=swap.ohms), "C1") == pytest.approx(mean(text, "C1"), abs=1.0)
    (risen,) = [one for one in swap.changes if one.name == "C1"]
    assert (risen.before, risen.after) == pytest.approx(
        (mean(text, "C1"), mean(silicon.format(ohms=1e-3), "C1")), abs=1.0
    )


@pytest.mark.parametrize("name", CASES)
def test_the_usual_values_are_the_next_larger_ones_and_take_more(name: str) -> None:
    text, _, mended = CASES[name]
    swap = told(text, "V1", "V2")
    assert swap.ohms is not None
    assert [one.series for one in swap.preferred] == ["E12", "E24"]
    for one in swap.preferred:
        assert swap.ohms <= one.ohms < swap.ohms * 1.25
        seen = mean(mended.replace("\nV V", "\nD V").format(ohms=one.ohms), "C1")
        assert seen == pytest.approx(one.volts, abs=1.0)
        assert one.volts <= mean(text, "C1") + 1.0


def test_two_rectifiers_that_share_no_lead_have_no_place_for_one_resistor() -> None:
    apart = "S Ta a 0 300\nV V1 a k\nE C1 k 0 20\nR R1 k 0 10000\nS Tb b 0 300\nV V2 b m\nE C2 m 0 20\nR R2 m 0 10000"
    swap = told(apart, "V1", "V2")
    assert (swap.place, swap.ohms, swap.watts, swap.preferred) == ("", None, None, ())
    assert {one.name for one in swap.changes} == {"C1", "C2"}


def test_what_is_silicon_already_rises_by_nothing_and_needs_no_resistor() -> None:
    swap = told("S T a 0 300\nD D1 a k\nE C1 k 0 20\nR R1 k 0 10000", "D1")
    assert (swap.ohms, swap.late) == (None, ())


def test_a_set_that_makes_no_dc_has_no_rectifier_to_swap() -> None:
    lamp = "mains 117 V 60 Hz\ncord P1\nlamp LM1 117 V 300 mA\nnet a: P1.1, LM1.1\nnet b: P1.2, LM1.2\n"
    with pytest.raises(ValueError, match="no rectifier V7 is part of a supply here"):
        supply(CircuitGraph(paper.circuit(lamp)), "V7")


@pytest.mark.parametrize(("name", "asked"), [("one-can", 0), ("skerry", 1)])
def test_what_silicon_raises_is_computed_only_where_silicon_is_new(
    name: str, asked: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """To run both supplies costs more than all else in a comparison."""
    runs: list[object] = []
    monkeypatch.setattr("netcheck.compare.by_itself.silicon.raised", runs.append)
    original, rewired = (read(SAMPLES / name / f"{state}.netck") for state in ("original", "rewired"))
    assert compare(original, rewired, reader(original, rewired)).built
    assert len(runs) == asked
