"""A small run of the campaign on silence, and its engine against closed forms."""

import math
from random import Random

import numpy as np
import pytest

from tests.paper import compared
from tests.silence.conversions import JOBS, accepted_value, sound_state
from tests.silence.elements import Capacitor, Choke, Diode, Element, Resistor, Sink, Source, Wired
from tests.silence.engine import simulated
from tests.silence.hands import SLIPS
from tests.silence.oracle import powered
from tests.silence.running import tally
from tests.silence.sets import SETS
from tests.silence.touch import touched

PEAK = 117 * math.sqrt(2)
LINE = Source("P1 cord", 1, 0, PEAK, 60.0, 1.0)


def circuit(*elements: Element) -> Wired:
    count = 1 + max(max(one.a, one.b) for one in elements)
    return Wired(count, elements, 0, (1, 0))


def test_a_small_run_is_silent_of_nothing_that_burns_and_stops_no_right_work() -> None:
    found = tally(6, 7)
    assert found.destructive + found.unbuilt == 6
    assert [(trial.slip, said) for outcome, trial, said in found.shown if outcome != "false look"] == []


def test_every_set_has_work_and_every_slip_a_name() -> None:
    assert set(JOBS) == set(SETS)
    assert len(SLIPS) == len(set(SLIPS.values()))


@pytest.mark.parametrize("name", sorted(SETS))
def test_what_is_accepted_is_a_stop_without_the_line_that_accepts_it(name: str) -> None:
    lines = ("state rewired", 'start from "original.netck"')
    change, accept = accepted_value(lines, SETS[name], Random(1))  # noqa: S311
    told = {
        accepted: [d.grade.value for d in compared(SETS[name], "\n".join((*lines, *more)) + "\n").diagnostics]
        for accepted, more in ((False, (change,)), (True, (change, accept)))
    }
    assert told[False].count("STOP") == 1
    assert "STOP" not in told[True]


@pytest.mark.parametrize("name", sorted(SETS))
def test_a_right_state_turns_no_electrolytic_round_and_keeps_within_its_ratings(name: str) -> None:
    drawn = powered(SETS[name], "")
    state = powered(SETS[name], "\n".join(sound_state(name, Random(3))) + "\n")  # noqa: S311
    for each in (drawn, state):
        assert each.reversed == {}
        assert all(share < 1.2 for share in each.shares.values()), each.shares


def test_a_resistor_on_the_line_takes_its_effective_current() -> None:
    course = simulated(circuit(LINE, Resistor("R1", 1, 0, 116.0)))
    assert math.sqrt((course.through(LINE) ** 2).mean()) == pytest.approx(1.0, rel=1e-3)


def test_a_rectifier_charges_a_capacitor_to_the_peak() -> None:
    parts = (LINE, Diode("D1", 1, 2, 0.7, 0.05), Capacitor("C1", 2, 0, 40e-6, polar=True, rated=200))
    course = simulated(circuit(*parts, Resistor("R1", 2, 0, 1e6)))
    assert course.across(parts[2]).mean() == pytest.approx(PEAK - 0.7, rel=5e-3)


def test_a_rectifier_turned_round_charges_it_below_zero() -> None:
    parts = (LINE, Diode("D1", 2, 1, 0.7, 0.05), Capacitor("C1", 2, 0, 40e-6, polar=True, rated=200))
    course = simulated(circuit(*parts, Resistor("R1", 2, 0, 1e6)))
    assert course.across(parts[2]).mean() == pytest.approx(0.7 - PEAK, rel=5e-3)


def test_half_a_wave_of_a_large_capacitor_behind_a_resistor() -> None:
    """Source ohms of 0.02 of the load's: 0.8529 of the peak (the exact solution for a large capacitor)."""
    source = Source("P1 cord", 1, 0, 100.0, 60.0, 20.0)
    parts = (source, Diode("D1", 1, 2, 0.0, 1e-3), Capacitor("C1", 2, 0, 2000e-6, polar=True, rated=None))
    course = simulated(circuit(*parts, Resistor("R1", 2, 0, 1000.0)), periods=240)
    assert course.across(parts[2]).mean() == pytest.approx(85.29, rel=5e-3)


def test_a_choke_on_direct_volts_takes_what_its_ohms_let_through() -> None:
    battery = Source("B", 1, 0, 100.0, 0.0, 1.0)
    load = Resistor("R1", 2, 0, 799.0)
    course = simulated(circuit(battery, Choke("L1", 1, 2, 5.0, 200.0), load))
    assert course.across(load).mean() == pytest.approx(79.9, rel=1e-3)


def test_a_tube_draws_its_current_above_the_knee_less_below_and_nothing_backwards() -> None:
    battery = Source("B", 1, 0, 100.0, 0.0, 1000.0)
    for turned, drop in ((False, 10.0), (True, 0.0)):
        ends = (0, 1) if turned else (1, 0)
        course = simulated(circuit(battery, Sink("V1", *ends, 0.010, 20.0)))
        assert 100.0 - course.nets[-1][1] + course.nets[-1][0] == pytest.approx(drop, abs=0.02)
        cold = simulated(circuit(battery, Sink("V1", *ends, 0.010, 20.0)), warm=False)
        assert np.ptp(cold.nets[-1]) == pytest.approx(100.0, abs=0.02)


def test_what_a_hand_gets_from_a_capacitor_to_the_line() -> None:
    """.01 mfd at 117 V and 60 Hz: 0.441 mA, hardly less through 1500 ohm of a hand."""
    hung = Wired(3, (LINE, Capacitor("C1", 1, 2, 10e-9, polar=False, rated=None)), 2, (1, 0))
    assert touched(hung) == pytest.approx(117 * 2 * math.pi * 60 * 10e-9, rel=1e-3)


def test_a_polarized_plug_has_its_hot_blade_first() -> None:
    hung = Wired(3, (LINE, Resistor("R1", 0, 2, 100.0)), 2, (1, 0))
    assert touched(hung) == pytest.approx(117 / 1601, rel=2e-3)
    plugged = Wired(3, hung.elements, 2, (1, 0), polarized=True)
    assert touched(plugged) < 1e-6
