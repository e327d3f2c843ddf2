"""Slips at parts that are inserted: one finding each, of the right lead."""

import pytest

from netcheck.core.diagnostic import Grade
from tests.cathodes import CATHODES
from tests.paper import compared

METERED = """
strip SP1 5 lugs foot 3
strip SP2 5 lugs
lift V1.cathode
lift V2.cathode
resistor R71 10 ohm inserted "to read the cathode current"
resistor R72 10 ohm inserted "to read the cathode current"
"""

RECTIFIER = """
plug P1 2 pins
resistor R31 22 ohm
selenium SE1 130 V 100 mA
resistor R21 82 ohm
resistor R22 100 ohm
resistor R1 10k
resistor R2 22k
resistor R3 33k
lamp LM1 6.3 V 0.15 A
electrolytic C1 40 mfd 150 V
net line-a: P1.1, R31.1, R21.1
net rect: R31.2, SE1-
net B+: SE1+, C1+, R1.1, R2.1, R3.1
net heat: R21.2, R22.1
net heat-2: R22.2, LM1.1
net ground: chassis, P1.2, C1-, LM1.2, R1.2, R2.2, R3.2
"""

LINE = """
plug P1 2 pins
switch S1
position S1 on: 1 2
transformer T1 "power"
winding T1 primary black-a black-b 117 V
net line-a: P1.1, S1.1
net line-b: S1.2, T1.black-a
net line-c: P1.2, T1.black-b
"""

CASES = {
    "one inserted resistor bridged, the other one loose: two": (
        CATHODES,
        f"""
        {METERED}
        at SP1.1: R71.1, V1.cathode
        at SP1.3: R71.2
        wire SP1.1 to chassis bare
        at SP2.1: R72.1, V2.cathode
        at SP2.2: R72.2
        """,
        [
            "R71 is inserted but bridged: both its ends are on chassis",
            "SP2.2 with R72.2 is not connected to the chassis",
        ],
    ),
    "an inserted resistor on the wrong lug of a strip, another lead loose elsewhere: two": (
        CATHODES,
        f"""
        {METERED}
        strip SP3 5 lugs foot 2
        at SP1.1: R71.1, V1.cathode
        at SP1.3: R71.2
        at SP2.1: V2.cathode
        at SP3.2: R72.1, R72.2
        wire SP3.4 to SP2.1
        move R2.2 to SP1.5
        """,
        ["R72 is inserted but bridged: both its ends are on chassis; V2.8 hangs free", "R2.2 is alone on SP1.5"],
    ),
    "a strip read from above, with an inserted resistor on it": (
        CATHODES,
        """
        strip SP1 7 lugs foot 6
        resistor R71 10 ohm inserted "to read the cathode current"
        lift V1.cathode
        wire V1.cathode to SP1.2
        at SP1.6: R71.1
        at chassis: R71.2
        lift R1.1
        lift R3.1
        wire SP1.3 to V1.grid
        wire SP1.5 to V1.plate
        at SP1.5: R1.1
        at SP1.3: R3.1
        """,
        ["the strip SP1 is wired as its mirror image"],
    ),
    "a rectifier turned round, and an exchange at the resistor inserted beside it: a ring": (
        RECTIFIER,
        """
        diode D1 1000 V 1 A replaces SE1
        remove SE1
        resistor R50 33 ohm inserted "silicon drops less"
        at C1+: D1.anode
        at D1.cathode: R50.1
        lift R22.2
        at R31.2: R22.2
        at LM1.1: R50.2
        """,
        ["D1.anode, R22.2 and R50.2 went round by one: D1.anode belongs on rect"],
    ),
    "a fuse with both ends on one side": (
        LINE,
        """
        strip SP1 3 lugs
        move P1.1 to SP1.1
        fuse F1 1 A inserted "no fuse before"
        at S1.1: F1.1, F1.2
        """,
        ["F1 is inserted but bridged: both its ends are on line-a; P1.1 hangs free"],
    ),
    "a wire on the lug where an inserted resistor is in series": (
        RECTIFIER,
        """
        strip SP1 5 lugs
        resistor R50 33 ohm inserted "silicon drops less"
        move SE1- to SP1.1
        at SP1.1: R50.1
        at R31.2: R50.2
        move C1+ to SP1.2
        wire SE1+ to SP1.1 red
        """,
        ["the red wire from SE1+ to SP1.1 joins"],
    ),
}


@pytest.mark.parametrize(("original", "log", "told"), CASES.values(), ids=CASES)
def test_one_slip_is_one_finding(original: str, log: str, told: list[str]) -> None:
    rewired = "\n".join(('start from "original.netck"', *(line.strip() for line in log.splitlines())))
    report = compared(original, rewired)
    errors = [d.headline for d in report.diagnostics if d.grade is Grade.STOP]
    assert len(errors) == len(told), errors
    for words in told:
        assert any(words in headline for headline in errors), errors


def test_a_loose_lead_is_told_with_the_two_parts_inserted_side_by_side() -> None:
    log = """
    start from "original.netck"
    resistor R71 10 ohm inserted "to read the cathode current"
    resistor R72 10 ohm inserted "to read the cathode current"
    lift V1.cathode
    lift V2.cathode
    at V1.cathode: R71.1, R72.1
    at chassis: R71.2, R72.2
    """
    (error,) = [d for d in compared(CATHODES, log).diagnostics if d.grade is Grade.STOP]
    assert error.headline == "V2.8 hangs free; it belongs on the chassis"
    assert error.why.startswith("R71 and R72 are inserted side by side, and one may belong here")
    assert {"V2.8", "R71.1", "R72.1"} <= set(error.touched.leads)
