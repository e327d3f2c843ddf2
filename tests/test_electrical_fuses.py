"""The fuse of a set: which one is told, and from which share of what the set takes one is told at all."""

import pytest

from netcheck.core.diagnostic import Diagnostic
from netcheck.electrical.drawn import LineDraw, drawn
from netcheck.electrical.fuses import fuse_for
from netcheck.electrical.study import known
from netcheck.electrical.table.supply import supply
from netcheck.model.graph import CircuitGraph
from tests.paper import checked, circuit

SET = """state {state}
mains 117 V 60 Hz
common back
cord P1
fuse F1 {fuse} A
diode D1 1N5408
resistor R1 10 ohm 20 W
electrolytic C1 47 mfd 250 V
resistor R2 {load} ohm 100 W
net in: P1.1, F1.1
net line: F1.2, R1.1
net rect: R1.2, D1.anode
net B+: D1.cathode, C1+, R2.1
net back: P1.2, C1-, R2.2
"""
# What is sold, by its next smaller; a half more than what flows is the least that is fitted.
SIZES = (0.25, 0.3, 0.5, 0.75, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0)


def text(fuse: float, load: int, state: str = "rewired") -> str:
    return SET.format(fuse=f"{fuse:.4f}", load=load, state=state)


def taken(load: int) -> LineDraw:
    found = drawn(CircuitGraph(circuit(text(1, load))))
    assert found is not None
    return found


def told(fuse: float, load: int, state: str = "rewired") -> list[tuple[str, str]]:
    return [(d.grade.value, d.rule) for d in findings(fuse, load, state)]


def findings(fuse: float, load: int, state: str = "rewired") -> list[Diagnostic]:
    return [d for d in checked(text(fuse, load, state)).diagnostics if d.rule.startswith("fuse-too")]


@pytest.mark.parametrize("size", SIZES)
def test_a_fuse_is_a_half_more_than_what_flows(size: float) -> None:
    assert fuse_for(size / 1.5 * 0.999) == size
    assert fuse_for(size / 1.5 * 1.001) > size or size == SIZES[-1]


def test_more_than_any_fuse_takes_the_largest() -> None:
    assert fuse_for(100.0) == SIZES[-1]


@pytest.mark.parametrize(("share", "grade"), [(4.95, None), (5.05, "LOOK"), (9.95, "LOOK"), (10.05, "STOP")])
def test_five_times_what_a_set_takes_is_a_lot_and_ten_times_no_protection(share: float, grade: str | None) -> None:
    most = taken(500).most
    assert most > 0.25
    assert told(share * most, 500) == ([] if grade is None else [(grade, "fuse-too-large")])


def test_in_a_drawing_it_is_looked_at_and_no_more() -> None:
    assert told(20 * taken(500).most, 500, "drawn") == [("LOOK", "fuse-too-large")]


@pytest.mark.parametrize(("amperes", "grade"), [(0.99, None), (1.01, "LOOK"), (1.99, "LOOK"), (2.01, "STOP")])
def test_a_set_that_takes_next_to_nothing_has_a_fuse_of_one_ampere(amperes: float, grade: str | None) -> None:
    assert taken(22000).most < 0.1
    assert told(amperes, 22000) == ([] if grade is None else [(grade, "fuse-too-large")])


def test_a_fuse_of_less_than_the_least_that_flows_is_too_small() -> None:
    least = taken(500).least
    assert told(1.01 * least, 500) == []
    assert told(0.99 * least, 500) == [("LOOK", "fuse-too-small")]


def test_the_fuse_that_is_told_is_that_of_what_about_flows() -> None:
    (large,), (small,) = findings(50, 500), findings(0.1, 500)
    wanted = f"fit a fuse for {fuse_for(taken(500).about):g} A, slow"
    assert (large.do, small.do) == (wanted, wanted)


def test_what_is_taken_is_what_flows_within_the_margins() -> None:
    """Nothing but the cord feeds this set: its effective current, four fifths of it, and a third more."""
    found = taken(500)
    assert found.least == pytest.approx(0.8 * found.about)
    assert found.most == pytest.approx(1.3 * found.about)


TRANSFORMER = """
mains 117 V 60 Hz
cord P1
fuse F1 2 A
transformer T1
winding T1 primary black-a black-b 117 V 5 ohm
winding T1 high red-a red-b 200 V 60 ohm
winding T1 heat green-a green-b 6.3 V
diode D1 1N4007
electrolytic C1 47 mfd 450 V
resistor R1 10k 20 W
net in: P1.1, F1.1
net a: F1.2, T1.black-a
net b: P1.2, T1.black-b
net high: T1.red-a, D1.anode
net B+: D1.cathode, C1+, R1.1
net h: T1.green-a
net ground: chassis, T1.red-b, C1-, R1.2, T1.green-b
"""


def of_transformer(*lines: str) -> LineDraw:
    found = drawn(CircuitGraph(circuit(TRANSFORMER + "\n".join(lines) + "\n")))
    assert found is not None
    return found


# Watts across the winding of 6.3 V, at least and at most: by the type or the lamp, else what one heater or lamp takes.
ACROSS = [
    (("tube V1 6V6GT", "at h: V1.2", "at ground: V1.7"), 6.3 * 0.45, 6.3 * 0.45),
    (("basing X1: 1 heater-1, 2 heater-2", "tube V1 X1", "at h: V1.1", "at ground: V1.2"), 6.3 * 0.15, 6.3 * 3.0),
    (("lamp LM1 6.3 V 250 mA", "at h: LM1.1", "at ground: LM1.2"), 6.3 * 0.25, 6.3 * 0.25),
    (("lamp LM1 6.3 V", "at h: LM1.1", "at ground: LM1.2"), 6.3 * 0.1, 6.3 * 0.3),
    (("tube V1 6V6GT", "at h: V1.2, V1.7"), 0.0, 0.0),
]


@pytest.mark.parametrize(("lines", "least", "most"), ACROSS)
def test_heaters_and_lamps_are_added_with_a_tenth_for_the_transformer(
    lines: tuple[str, ...], least: float, most: float
) -> None:
    bare, found = of_transformer(), of_transformer(*lines)
    assert (found.least - bare.least) / 0.8 == pytest.approx(1.1 * least / 117)
    assert (found.most - bare.most) / 1.3 == pytest.approx(1.1 * most / 117)
    assert found.about - bare.about == pytest.approx(1.1 * (least + most) / 2 / 117)


def test_a_loaded_winding_takes_its_volts_by_its_effective_current() -> None:
    (rectifier,) = supply(CircuitGraph(circuit(TRANSFORMER))).rectifiers
    assert of_transformer().about == pytest.approx(1.1 * 200 * rectifier.rms / 117, rel=0.01)


def test_without_a_fuse_a_line_or_a_load_nothing_is_said_to_flow() -> None:
    no_fuse = TRANSFORMER.replace("fuse F1 2 A\n", "").replace("net a: F1.2, T1.black-a\n", "")
    battery = "battery BT1 90 V\nfuse F1 1 A\nresistor R1 1k 10 W\nnet p: BT1+, F1.1\nnet q: F1.2, R1.1\n"
    switch = "switch S1\nnet a: S1.2, T1.black-a\n"
    assert drawn(CircuitGraph(circuit(no_fuse.replace("F1.1", "T1.black-a")))) is None
    assert drawn(CircuitGraph(circuit(no_fuse.replace("F1.1", "S1.1") + switch))) is None
    assert drawn(CircuitGraph(circuit(f"{battery}net m: BT1-, R1.2\n"))) is None


def test_a_fuse_that_is_bridged_is_none_that_anything_goes_through() -> None:
    bridged = drawn(CircuitGraph(circuit(text(1, 500) + "fuse F2 1 A\nat line: F2.1, F2.2\n")))
    assert bridged is not None
    assert [part.name for part in bridged.fuses] == ["F1"]


HEATERS = (
    "tube V1 {type}\ntube V2 {type}\nresistor R9 500 ohm 20 W\nnet h: V1.4, V2.3\nnet h2: V2.4, R9.1\nat back: R9.2\n"
)
UNKNOWN = "basing X1: 1 plate, 2 cathode, 3 heater-1, 4 heater-2\n" + HEATERS.format(type="X1")


@pytest.mark.parametrize(
    ("string", "least", "most"),
    [
        (HEATERS.format(type="12BE6") + "at line: V1.3\n", 0.15, 0.15),  # what its type takes
        (UNKNOWN + "at line: V1.3\n", 0.0, 0.3),  # no more than strings were made for
        (UNKNOWN + "spare V1.3\n", 0.0, 0.0),
    ],
)
def test_a_string_on_the_line_takes_its_current_beside_the_rectifier(string: str, least: float, most: float) -> None:
    bare, found = taken(500), drawn(CircuitGraph(circuit(text(1, 500) + string)))
    assert found is not None
    assert (found.least - bare.least) / 0.8 == pytest.approx(least, abs=1e-6)
    assert (found.most - bare.most) / 1.3 == pytest.approx(most, abs=1e-6)
    assert found.about - bare.about == pytest.approx((least + most) / 2, abs=1e-6)


def test_a_string_whose_tap_feeds_the_rectifier_is_in_what_the_cord_gives() -> None:
    """The heaters and the plate together: what the cord is seen to give has both, and nothing is added."""
    tapped = (
        "mains 117 V 60 Hz\ncommon B-\ncord P1\nfuse F1 1 A\ntube V1 50C5\ntube V2 35W4\nresistor R9 100 ohm 10 W\n"
        "electrolytic C1 40 mfd 250 V\nresistor R1 2.2k 10 W\nnet in: P1.1, F1.1\nnet line: F1.2, V2.4\n"
        "net h1: V2.3, V1.3\nnet h2: V1.4, R9.1\nnet tap: V2.6, V2.5\nnet B+: V2.7, C1+, R1.1\n"
        "net B-: P1.2, R9.2, C1-, R1.2\n"
    )
    graph = CircuitGraph(circuit(tapped))
    found, seen = drawn(graph), known(graph)
    assert found is not None
    assert seen is not None
    (cord,) = (heat for heat in seen.sources if heat.name == "P1")
    assert found.about == pytest.approx(cord.amperes.rms)


@pytest.mark.parametrize("end", ["x", "y"])
def test_a_transformer_with_one_lead_on_the_line_takes_nothing_from_it(end: str) -> None:
    other = "y" if end == "x" else "x"
    lines = (
        "transformer T2", "winding T2 primary x y 117 V", "winding T2 heat u v 6.3 V", "lamp LM2 6.3 V 250 mA",
        "net u: T2.u, LM2.1", "net v: T2.v, LM2.2", f"at b: T2.{end}", f'spare T2.{other} "not yet"',
    )  # fmt: skip
    assert of_transformer(*lines).about == pytest.approx(of_transformer().about)
