"""Which point of the original a lead of a replacement is: the end of the same sign, the lead of the same name."""

import pytest

from netcheck.compare.roles.followed import in_original
from tests.paper import circuit

ORIGINAL = """
selenium SE1 130 V 100 mA
electrolytic C1 10 mfd 450 V
capacitor C2 .1 mfd 400 V
resistor R1 10k
net line: SE1-, C2.1
net B+: SE1+, C1+, R1.1
net ground: chassis, C1-, C2.2, R1.2
"""
REWIRED = """
start from "original.netck"
diode D1 1000 V 1 A replaces SE1
capacitor C11 10 mfd 630 V film replaces C1
electrolytic C12 .1 mfd 400 V replaces C2
resistor R11 10k 5 W replaces R1
"""
SAME = {
    "R1.1": "R1.1", "R11.1": "R1.1", "R11.2": "R1.2", "D1.cathode": "SE1+", "D1.anode": "SE1-",
    "C11.1": None, "C12+": None, "C99.1": None,
}  # fmt: skip


@pytest.mark.parametrize(("lead", "same"), SAME.items())
def test_a_lead_of_a_replacement_is_an_end_of_the_original(lead: str, same: str | None) -> None:
    drawn, worked = circuit(ORIGINAL), circuit(REWIRED, original=ORIGINAL)
    at = in_original(drawn, worked, lead)
    assert (None if at is None else drawn.points[at].name) == same
