"""A heater string that can't be worked out is said to be left out, by every command that would have looked at it."""

import pytest

from netcheck.electrical.table.supply import supply
from netcheck.model.graph import CircuitGraph
from tests.paper import checked, circuit, compared

WHOLE = """mains 117 V 60 Hz
cord P1
fuse F1 1/2 A slow
tube V1 50L6GT
tube V2 12SQ7
resistor R1 360 ohm 20 W
net in: P1.1, F1.1
net line: F1.2, R1.1
net h1: R1.2, V1.2
net h2: V1.7, V2.7
net back: P1.2, V2.8
spare V1.1, V1.3, V1.4, V1.5, V1.6, V1.8, V2.1, V2.2, V2.3, V2.4, V2.5, V2.6
"""
MAINS = "add `mains`, for instance `mains 117 V 60 Hz`"
LACKING = {
    WHOLE: (),
    WHOLE.replace("360 ohm ", ""): ("the heater string on P1: R1: add its ohms",),
    WHOLE.replace("mains 117 V 60 Hz\n", ""): (f"the heater string on P1: {MAINS}",),
    WHOLE.replace("V2 12SQ7", "V2 12X9") + "basing 12X9: 7 heater-1, 8 heater-2\n": (
        "the heater string on P1: heater not known of V2 12X9",
    ),
    # One heater is no string, and what is missing beside it is of no account here.
    WHOLE.replace("360 ohm ", "").replace("net h1: R1.2, V1.2\nnet h2: V1.7, V2.7\n", "net h1: R1.2, V2.7\n"): (),
}


@pytest.mark.parametrize("text", LACKING)
def test_what_is_not_looked_at_is_told_with_what_to_add(text: str) -> None:
    lines = tuple(f"NOT CHECKED: {said}" for said in LACKING[text])
    for report in (checked(text), compared(text, text)):
        assert tuple(line for line in report.closing if "heater string" in line) == lines
    assert tuple(said for said in supply(CircuitGraph(circuit(text))).left_out if "string" in said) == LACKING[text]


def test_a_missing_joint_comes_first() -> None:
    text = WHOLE.replace("360 ohm ", "")
    report = compared(text, text.replace("V1.7, V2.7", "V1.7, V2.6"))
    assert [line for line in report.closing if "heater string" in line] == []
