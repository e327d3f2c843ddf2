"""A rectifier whose plate hangs on the tap of its own heater, as in most sets without a transformer."""

import math

import pytest

from netcheck.core.source import Source
from netcheck.electrical.mains.leakage import leaks
from netcheck.electrical.network.supplies import translated
from netcheck.electrical.proof.judgement import Surety, WayRound
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
    assert (verdict.surety, verdict.way) == (Surety.PROVEN, WayRound.RIGHT)


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


@pytest.mark.parametrize(("near", "far"), [("3", "4"), ("4", "3")])
def test_a_tap_that_is_joined_to_the_end_on_the_line_feeds_what_the_line_does(near: str, far: str) -> None:
    text = SET.format(on_tap="", bleeder="1 meg").replace("net tap: V5.6\n", "")
    text = text.replace("V5.4, LM1.1", f"V5.{near}, V5.6, V5.5").replace("h1: V5.3", f"h1: V5.{far}")
    graph = _graph(text)
    assert not any(" heater" in one.name for one in translated(graph).network.elements)
    assert cold(graph).nominal["C1"] == pytest.approx(math.sqrt(2) * 117.0, rel=1e-3)


def test_a_heater_that_is_not_known_makes_no_figure_and_says_which_word_is_missing() -> None:
    basing = "basing ZZ7: 1 plate, 2 cathode, 3 heater-1, 4 heater-2\n"
    graph = _graph(basing + TAPPED.replace("12AT6", "ZZ7"))
    assert missing(graph) == ("V3 ZZ7: its heater is not known, and no line can say it",)
    assert known(graph) is None
    assert all(math.isnan(row.running) for row in supply(graph).capacitors)
    assert judged(graph)["C1"].way is WayRound.RIGHT


def _leak_by_hand(near: float, far: float) -> float:
    """What 47 kilohm draw from a point of the string: its volts without, and its two ways to the line in parallel."""
    return 117.0 * far / (near + far) / (47e3 + near * far / (near + far))


def test_the_line_comes_to_the_chassis_through_a_tap_as_its_heaters_divide_it() -> None:
    """47 kilohm from the tap to the chassis: every heater is its rated ohms, the lamp beside the tapped section."""
    graph = _graph(TAPPED.replace("net tap:", "resistor R9 47k\nnet ground: chassis, R9.2\nnet tap: R9.1,"))
    strings = [(_beside_lamp(hot), hot * (sum(HEATERS) - 5.5) / 0.15) for hot in (1.0, 1 / 7)]
    assert leaks(graph)[0].amperes == pytest.approx(max(_leak_by_hand(*each) for each in strings), rel=1e-4)


def _beside_lamp(hot: float) -> float:
    """The tapped section, hot or with a seventh of its ohms, and the lamp across it."""
    section, lamp = hot * 5.5 / 0.15, 6.3 / 0.15
    return section * lamp / (section + lamp)


@pytest.mark.parametrize(("net", "far"), [("h1", 87.8), ("h2", 37.8), ("h3", 25.2), ("h4", 12.6)])
def test_between_two_heaters_it_is_the_line_as_they_divide_it(net: str, far: float) -> None:
    """Whichever way round the plug is and be the heaters hot or cold, the more counts."""
    graph = _graph(LAMP_ALONE.replace(f"net {net}:", f"resistor R9 47k\nnet ground: chassis, R9.2\nnet {net}: R9.1,"))
    found = []
    for hot in (1.0, 1 / 7):
        below, whole = hot * far / 0.15, hot * (sum(HEATERS) - 5.5) / 0.15 + _beside_lamp(hot)
        found += [_leak_by_hand(below, whole - below), _leak_by_hand(whole - below, below)]
    assert leaks(graph)[0].amperes == pytest.approx(max(found), rel=1e-4)


def test_two_sections_side_by_side_are_no_tap() -> None:
    """A double triode across 6.3 V in a string: the middle of its heater is one of its ends."""
    text = """mains 117 V 60 Hz
cord P1
tube V1 12AX7
tube V2 6AU6
resistor R1 270 ohm 25 W
diode D1 1N4007
electrolytic C1 40 mfd 200 V
resistor R2 10k 5 W
net line: P1.1, R1.1, D1.anode
net h1: R1.2, V1.4, V1.5
net h2: V1.9, V2.3
net B+: D1.cathode, C1+, R2.1
net B-: chassis, P1.2, V2.4, C1-, R2.2
"""
    assert not any(" heater" in one.name for one in translated(_graph(text)).network.elements)
