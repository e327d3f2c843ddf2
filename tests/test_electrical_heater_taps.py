"""A rectifier whose plate hangs on the tap of its own heater, as in most sets without a transformer."""

import math

import pytest

from netcheck.core.source import Source
from netcheck.electrical.mains.leakage import leaks
from netcheck.electrical.network.supplies import translated
from netcheck.electrical.proof.judgement import Surety, Way
from netcheck.electrical.study import cold, judged, known, missing
from netcheck.electrical.table.supply import supply
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from tests.paper import reader

# From memory: a 35W4 drops 29.5 of its 35 V from pin 3 to the tap, all at 150 mA.
SET = """
mains 117 V 60 Hz
common B-
cord P1
tube V1 12BE6
tube V2 12BA6
tube V3 12AT6
tube V4 50C5
tube V5 35W4
lamp LM1 6.3 V 150 mA
electrolytic C1 40 mfd 250 V
resistor R1 {bleeder}
net line: P1.1, V5.4, LM1.1
net h1: V5.3, V4.3
net h2: V4.4, V2.3
net h3: V2.4, V1.3
net h4: V1.4, V3.3
net tap: V5.6{on_tap}
net B+: V5.7, C1+, R1.1
net B-: P1.2, V3.4, C1-, R1.2
"""
TAPPED = SET.format(on_tap=", V5.5, LM1.2", bleeder="2.2k")
LAMP_ALONE = SET.format(on_tap=", LM1.2", bleeder="1 meg").replace("P1.1, V5.4", "P1.1, V5.4, V5.5")
HEATERS = (12.6, 12.6, 12.6, 50.0, 35.0)


def _graph(text: str) -> CircuitGraph:
    circuit, problems = build(Source("set.netck", text), reader({}))
    assert circuit is not None, problems
    return CircuitGraph(circuit)


def _tap_volts() -> float:
    """What the string leaves at the tap, by hand: every heater its rated ohms, the lamp beside the last section."""
    rest = (sum(HEATERS) - 5.5) / 0.15
    section, lamp = 5.5 / 0.15, 6.3 / 0.15
    beside = section * lamp / (section + lamp)
    return 117.0 * rest / (1.0 + rest + beside)


def test_the_tap_feeds_the_plate_with_what_its_section_leaves() -> None:
    graph = _graph(TAPPED.replace("2.2k", "1 meg"))
    assert cold(graph).nominal["C1"] == pytest.approx(math.sqrt(2) * _tap_volts(), rel=1e-3)
    verdict = judged(graph)["C1"]
    assert (verdict.surety, verdict.way) == (Surety.PROVEN, Way.RIGHT)


def test_the_heaters_are_told_as_assumed_and_no_line_is_at_nothing() -> None:
    table = supply(_graph(TAPPED))
    assert "V5 35W4: heater hot, 35 V at 150 mA" in table.defaults
    running = {row.name: row.running for row in table.lines}
    assert 60.0 < running["B+"] < math.sqrt(2) * _tap_volts()
    assert [len(string.heaters) for string in table.heaters] == [5]


def test_a_plate_on_the_line_needs_no_heaters_whatever_lamp_hangs_on_the_tap() -> None:
    graph = _graph(LAMP_ALONE)
    assert not any(" heater" in one.name for one in translated(graph).network.elements)
    assert cold(graph).nominal["C1"] == pytest.approx(math.sqrt(2) * 117.0, rel=1e-3)


def test_a_heater_that_is_not_known_makes_no_figure_and_says_which_word_is_missing() -> None:
    basing = "basing ZZ7: 1 plate, 2 cathode, 3 heater-1, 4 heater-2\n"
    graph = _graph(basing + TAPPED.replace("12AT6", "ZZ7"))
    assert missing(graph) == ("V3 ZZ7: its heater is not known, fit a type that is",)
    assert known(graph) is None
    assert all(math.isnan(row.running) for row in supply(graph).capacitors)
    assert judged(graph)["C1"].way is Way.RIGHT


def test_the_line_comes_to_the_chassis_through_a_heater_as_through_any_resistance() -> None:
    """47 kilohm from the tap to the chassis; of the line the string leaves about nine tenths there, taken roughly."""
    graph = _graph(TAPPED.replace("net tap:", "resistor R9 47k\nnet ground: chassis, R9.2\nnet tap: R9.1,"))
    assert 0.9 < leaks(graph)[0].amperes * 47e3 / 117.0 < 1.0
