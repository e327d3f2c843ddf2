"""What a winding makes: held against the drawing's, and against what hangs across it. Bounds from both sides."""

import pytest

from netcheck import api
from netcheck.core.report import Report
from netcheck.core.source import Source

SET = """
transformer T1
winding T1 primary 1 2 117 V
winding T1 high 3 4 5 {high} 70 mA 120 ohm
resistor R1 10
resistor R2 10k
net line: T1.1, R1.1
net line-b: T1.2, R1.2
net high: T1.3, R2.1
net low: T1.5, R2.2
spare T1.4
"""
HEATED = """
state rewired
transformer T1
winding T1 primary 1 2 117 V
winding T1 heater {leads} {volts}
{part}
{nets}
"""


def told(report: Report, *rules: str) -> list[tuple[str, str]]:
    return [(d.grade.name, d.headline) for d in report.diagnostics if d.rule in rules]


def compared(old: str, new: str) -> Report:
    drawn = Source("old.netck", old)
    return api.compare(drawn, Source("new.netck", f"state rewired\n{new}"), lambda _asking, _written: drawn)


def checked(text: str) -> Report:
    state = Source("state.netck", text)
    return api.check(state, lambda _asking, _written: state)


@pytest.mark.parametrize(
    ("now", "grades"),
    [
        ("290-0-290 V", []),
        ("304-0-304 V", []),
        ("306-0-306 V", ["NOTE"]),
        ("319-0-319 V", ["NOTE"]),
        ("320-0-320 V", ["LOOK"]),
        ("276-0-276 V", []),
        ("275-0-275 V", ["NOTE"]),
        ("260-0-260 V", ["LOOK"]),
        ("348-0-348 V", ["LOOK"]),
        ("349-0-349 V", ["STOP"]),
        ("231-0-231 V", ["STOP"]),
        ("290-0-400 V", ["STOP"]),  # one half alone
        ("580 V", []),  # the whole winding, written as one figure
        ("290 V", ["STOP"]),  # half of it
    ],
)
def test_the_volts_of_a_winding(now: str, grades: list[str]) -> None:
    report = compared(SET.format(high="290-0-290 V"), SET.format(high=now))
    assert [grade for grade, _ in told(report, "value-changed")] == grades


def test_the_amperes_of_a_winding_are_a_rating() -> None:
    old = SET.format(high="290-0-290 V")
    less = compared(old, old.replace("70 mA", "60 mA"))
    assert told(less, "rating-too-low") == [("STOP", "the winding high of T1 is rated 60 mA; the original was 70 mA")]
    assert not told(compared(old, old.replace("70 mA", "80 mA")), "rating-too-low", "value-changed")


def test_the_ohms_of_a_winding() -> None:
    old = SET.format(high="290-0-290 V")
    assert not told(compared(old, old.replace("120 ohm", "100 ohm")), "value-changed")
    assert told(compared(old, old.replace("120 ohm", "30 ohm")), "value-changed")[0][0] == "STOP"


@pytest.mark.parametrize(
    ("leads", "volts", "part", "nets", "grades"),
    [
        ("3 4", "6.3 V", "tube V1 6SN7", "net a: T1.3, V1.7\nnet b: T1.4, V1.8", []),
        ("3 4", "6.9 V", "tube V1 6SN7", "net a: T1.3, V1.7\nnet b: T1.4, V1.8", []),
        ("3 4", "7 V", "tube V1 6SN7", "net a: T1.3, V1.7\nnet b: T1.4, V1.8", ["LOOK"]),
        ("3 4", "7.9 V", "tube V1 6SN7", "net a: T1.3, V1.7\nnet b: T1.4, V1.8", ["STOP"]),
        ("3 4", "5 V", "tube V1 6SN7", "net a: T1.3, V1.7\nnet b: T1.4, V1.8", ["LOOK"]),
        # Between the middle and an end there is half of it.
        ("3 4 5", "6.3-0-6.3 V", "tube V1 6SN7", "net a: T1.3, V1.7\nnet b: T1.4, V1.8", []),
        ("3 4 5", "6.3-0-6.3 V", "tube V1 6SN7", "net a: T1.3, V1.7\nnet b: T1.5, V1.8", ["STOP"]),
        # A 12AX7 takes 12.6 V from end to end, 6.3 V with its ends joined and fed at its tap.
        ("3 4", "12.6 V", "tube V1 12AX7", "net a: T1.3, V1.4\nnet b: T1.4, V1.5", []),
        ("3 4", "6.3 V", "tube V1 12AX7", "net a: T1.3, V1.4, V1.5\nnet b: T1.4, V1.9", []),
        ("3 4", "12.6 V", "tube V1 12AX7", "net a: T1.3, V1.4, V1.5\nnet b: T1.4, V1.9", ["STOP"]),
        # A lamp that burns out hurts nothing; one that is dim was meant to be.
        ("3 4", "12.6 V", "lamp LM1 6.3 V 150 mA", "net a: T1.3, LM1.1\nnet b: T1.4, LM1.2", ["LOOK"]),
        ("3 4", "5 V", "lamp LM1 6.3 V 150 mA", "net a: T1.3, LM1.1\nnet b: T1.4, LM1.2", []),
        ("3 4", "6.3 V", "lamp LM1 neon 65 V", "net a: T1.3, LM1.1\nnet b: T1.4, LM1.2", []),
        ("3 4", "117 V", "lamp LM1 neon 65 V", "net a: T1.3, LM1.1\nnet b: T1.4, LM1.2", []),
        ("3 4", "117 V", "lamp LM1 ballast 55 V", "net a: T1.3, LM1.1\nnet b: T1.4, LM1.2", []),
        # Behind a resistor nothing is known without solving.
        ("3 4", "12.6 V", "tube V1 6SN7\nresistor R1 22", "net a: T1.3, R1.1\nnet c: R1.2, V1.7\nnet b: T1.4, V1.8",
         []),
    ],
)  # fmt: skip
def test_what_hangs_across_a_winding(leads: str, volts: str, part: str, nets: str, grades: list[str]) -> None:
    text = HEATED.format(leads=leads, volts=volts, part=part, nets=nets)
    report = checked(text)
    assert [grade for grade, _ in told(report, "heaters-off")] == grades


def test_a_drawing_is_no_stop_for_how_it_was_built() -> None:
    text = HEATED.format(leads="3 4", volts="12.6 V", part="tube V1 6SN7", nets="net a: T1.3, V1.7\nnet b: T1.4, V1.8")
    report = checked(text.replace("state rewired", "state drawn"))
    assert [grade for grade, _ in told(report, "heaters-off")] == ["LOOK"]


def test_a_winding_without_a_middle_is_for_another_rectifier() -> None:
    """That the set was made for another one is no slip, but nobody has looked at the volts."""
    old = SET.format(high="290-0-290 V")
    new = SET.format(high="250 V").replace("high 3 4 5", "high 3 5").replace("spare T1.4\n", "")
    assert told(compared(old, new), "value-changed") == [
        ("LOOK", "the winding high of T1 is 250 V; the original has 290-0-290 V")
    ]


def test_a_winding_is_one_finding_its_volts_first() -> None:
    old = SET.format(high="290-0-290 V")
    new = old.replace("290-0-290 V 70 mA 120 ohm", "70 mA 30 ohm 360-0-360 V")
    assert told(compared(old, new), "value-changed") == [
        ("STOP", "the winding high of T1 is 360-0-360 V; the original has 290-0-290 V")
    ]
