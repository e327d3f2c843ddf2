"""The discharge with the worst part open, against R C ln(V / 60 V) worked out by hand."""

import math

import pytest

from netcheck.core.source import Source
from netcheck.electrical.table.rows import Emptying
from netcheck.electrical.table.supply import supply
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from tests.paper import reader

TRANSFORMER = """
mains 120 V 60 Hz
cord P1
fuse F1 1 A
transformer T1 rise 0%
winding T1 primary 1 2 120 V
winding T1 high 3 4 250 V 20 ohm
diode D1 2000 V 1 A
electrolytic C1 100 mfd 450 V
electrolytic C2 10 mfd 450 V
switch S2
resistor R7 1 meg
resistor R1 100k
resistor R2 100k
net line-a: P1.1, F1.1
net line-f: F1.2, T1.1
net line-b: P1.2, T1.2
net high: T1.3, D1.anode
net k: D1.cathode, C1+, S2.1, R7.1
net B+: S2.2, C2+, R1.1, R2.1
net ground: chassis, T1.4, C1-, C2-, R7.2, R1.2, R2.2
"""
OFF_THE_LINE = """
mains 120 V 60 Hz
cord P1
fuse F1 1 A
diode D1 1000 V 1 A
electrolytic C1 100 mfd 250 V
resistor R1 100k
resistor R2 100k
common B-
net line-a: P1.1, F1.1
net line-f: F1.2, D1.anode
net B+: D1.cathode, C1+, R1.1, R2.1
net B-: P1.2, C1-, R1.2, R2.2
"""


def _emptied(text: str) -> dict[str, Emptying]:
    circuit, problems = build(Source("set.netck", text), reader({}))
    assert circuit is not None, problems
    return {row.name: row.emptying for row in supply(CircuitGraph(circuit)).charges}


def _seconds(volts: float, farads: float, ohms: float) -> float:
    return farads * ohms * math.log(volts / 60.0)


def test_a_switch_in_b_plus_is_worse_than_either_of_two_bleeders_behind_it() -> None:
    first = _emptied(TRANSFORMER)["C1"]
    parallel = 1 / (1 / 1e6 + 2 / 100e3)
    assert first.seconds[0] == pytest.approx(_seconds(first.volts, 110e-6, parallel), rel=1e-3)
    assert first.opened == "S2"
    assert first.opened_seconds[0] == pytest.approx(_seconds(first.volts, 100e-6, 1e6), rel=1e-3)


def test_without_its_own_bleeder_nothing_empties_what_a_switch_cuts_off() -> None:
    text = TRANSFORMER.replace("resistor R7 1 meg\n", "").replace(", R7.1", "").replace(", R7.2", "")
    first = _emptied(text)["C1"]
    assert (first.opened, first.opened_seconds) == ("S2", (None, None))


def test_a_fuse_in_b_plus_is_a_switch_that_nobody_opens_on_purpose() -> None:
    text = TRANSFORMER.replace("switch S2", "fuse F2 .2 A").replace("S2.", "F2.").replace("line-f", "line-z")
    first = _emptied(text)["C1"]
    assert first.opened == "F2"
    assert first.opened_seconds[0] == pytest.approx(_seconds(first.volts, 100e-6, 1e6), rel=1e-3)


def test_a_fuse_in_the_line_keeps_nothing_charged_that_has_its_own_bleeder() -> None:
    """With the fuse open the supply hangs on the line by one wire, and the bleeder across it is still there."""
    only = _emptied(OFF_THE_LINE)["C1"]
    assert only.opened in ("R1", "R2")
    assert only.opened_seconds[0] == pytest.approx(_seconds(only.volts, 100e-6, 100e3), rel=1e-3)


def test_a_field_coil_that_opens_leaves_the_first_capacitor_to_its_own_bleeder() -> None:
    text = TRANSFORMER.replace("switch S2", "choke L1 10 H 1000 ohm").replace("S2.", "L1.")
    first = _emptied(text)["C1"]
    assert first.opened == "L1"
    assert first.opened_seconds[0] == pytest.approx(_seconds(first.volts, 100e-6, 1e6), rel=1e-3)
