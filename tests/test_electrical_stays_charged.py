"""What is told of a capacitor that nothing empties: by its volts, or by what it holds (half of C times V squared)."""

import re

import pytest

from tests.paper import checked

SET = """mains 117 V 60 Hz
cord P1
fuse F1 1 A
transformer T1
winding T1 primary black-a black-b 117 V
winding T1 high red-a red-b {rms:.4f} V 500 ohm
diode D1 5000 V 1 A
{part}
plug J1 2 pins
net in: P1.1, F1.1
net line-a: F1.2, T1.black-a
net line-b: P1.2, T1.black-b
net hv: T1.red-a, D1.anode
net k: D1.cathode, {plus}, J1.1
net ground: chassis, T1.red-b, {minus}, J1.2
"""


def told(rms: float, part: str) -> list[str]:
    ends = ("C1+", "C1-") if part.startswith("electrolytic") else ("C1.1", "C1.2")
    text = SET.format(rms=rms, part=part, plus=ends[0], minus=ends[1])
    return [d.headline for d in checked(text).diagnostics if d.rule == "stays-charged"]


def volts_of_a_volt() -> float:
    """What the capacitor may hold, by the volt of the winding: the peak on a high line, unloaded."""
    (headline,) = told(10_000, "electrolytic C1 40 mfd 20000 V")
    found = re.search(r"may hold (\d+) V", headline)
    assert found is not None
    return int(found[1]) / 10_000


PEAK = volts_of_a_volt()


def test_it_is_the_peak_on_a_high_line_and_a_little_more_without_a_load() -> None:
    assert 1.1 * 2**0.5 <= PEAK <= 1.1 * 1.06 * 2**0.5


@pytest.mark.parametrize(("volts", "is_told"), [(598, False), (602, True)])
def test_electrolytics_of_receivers_hold_up_to_600_volts(volts: float, *, is_told: bool) -> None:
    assert bool(told(volts / PEAK, "electrolytic C1 40 mfd 1000 V")) is is_told


@pytest.mark.parametrize(("joules", "is_told"), [(0.098, False), (0.102, True)])
def test_a_paper_capacitor_is_told_by_what_it_holds(joules: float, *, is_told: bool) -> None:
    mfd = 2 * joules / 300**2 * 1e6
    assert bool(told(300 / PEAK, f"capacitor C1 {mfd:.4f} mfd 1000 V paper")) is is_told
