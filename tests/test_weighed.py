"""The closing line that says what was calculated and held against what parts state."""

import pytest

from netcheck.api import check, compare
from netcheck.core.source import Source
from netcheck.electrical.weighed import weighed
from netcheck.model.graph import CircuitGraph
from tests.paper import built

SUPPLY = """
mains 117 V 60 Hz
cord P1
fuse F1 1 A slow
transformer T1
winding T1 primary black-a black-b 117 V 10 ohm
winding T1 high red-a red-b 117 V 20 ohm
diode D1 1000 V 1 A
electrolytic C1 40 mfd 250 V 300 mA
electrolytic C2 40 mfd 250 V
resistor R1 2.2k 20 W
resistor R2 1k
capacitor C3 365 mmfd variable
net line-a: P1.1, F1.1
net line-c: F1.2, T1.black-a
net line-b: P1.2, T1.black-b
net high: T1.red-a, D1.anode
net B+: D1.cathode, C1+, R1.1, R2.1, C3.1
net B+2: R2.2, C2+
net ground: chassis, T1.red-b, C1-, C2-, R1.2, C3.2
"""


def _of(text: str) -> tuple[str, ...]:
    circuit, problems = built(text)
    assert circuit is not None, problems
    return weighed(CircuitGraph(circuit))


def test_what_was_judged_is_counted_and_what_states_nothing_is_not() -> None:
    (said,) = _of(SUPPLY)
    assert said.partition(": ")[2].replace(" and ", ", ").split(", ") == [
        "the polarity of both electrolytics",
        "the volts of both capacitors",
        "the ripple current of 1 of 2 electrolytics",
        "the current of 1 rectifier",
        "the heat of 1 of 2 resistors",
    ]


@pytest.mark.parametrize(
    ("line", "by", "gone"),
    [
        ("diode D1 1000 V 1 A", "diode D1 1000 V", "the current of"),
        ("resistor R1 2.2k 20 W", "resistor R1 2.2k", "the heat of"),
        ("40 mfd 250 V 300 mA", "40 mfd 250 V", "the ripple current of"),
    ],
)
def test_a_rating_that_is_not_stated_is_not_counted(line: str, by: str, gone: str) -> None:
    assert gone in _of(SUPPLY)[0]
    assert gone not in _of(SUPPLY.replace(line, by))[0]


def test_one_two_and_more_are_said_as_one_says_them() -> None:
    one = SUPPLY.replace("electrolytic C2 40 mfd 250 V\n", "").replace(", C2+", "").replace(", C2-", "")
    assert "the polarity of the one electrolytic, the volts of the one capacitor" in _of(one)[0]
    three = SUPPLY.replace("net B+2:", "electrolytic C4 10 mfd 250 V plus B+2 minus chassis\nnet B+2:")
    assert "the polarity of all 3 electrolytics, the volts of all 3 capacitors" in _of(three)[0]


@pytest.mark.parametrize(
    "text",
    [
        SUPPLY.replace("117 V 10 ohm", "10 ohm").replace("117 V 20 ohm", "20 ohm"),
        "resistor R1 1k\nresistor R2 1k\nnet a: R1.1, R2.1\nnet b: R1.2, R2.2, chassis\n",
    ],
    ids=["a winding without volts", "no supply"],
)
def test_nothing_is_said_to_be_calculated_that_was_not(text: str) -> None:
    assert not any("the volts of" in line or "the heat of" in line for line in _of(text))


def _files(_: str, name: str) -> Source:
    return Source(name, SUPPLY if name == "original.netck" else f'start from "original.netck"\n{CHANGES[name]}\n')


CHANGES = {"right.netck": "change R1 2.2k 25 W", "wrong.netck": "lift R1.1"}


@pytest.mark.parametrize(("name", "said"), [("right.netck", 1), ("wrong.netck", 0)])
def test_a_comparison_says_it_where_the_rewired_circuit_is_the_one_that_will_be_powered(name: str, said: int) -> None:
    report = compare(_files("", "original.netck"), _files("", name), _files)
    assert sum(line.startswith("calculated, and held") for line in report.closing) == said
    assert not any(line.startswith("calculated, and held") for line in report.unchecked)


def test_check_says_it_too() -> None:
    report = check(_files("", "original.netck"), _files)
    assert sum(line.startswith("calculated, and held") for line in report.closing) == 1
