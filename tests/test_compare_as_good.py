"""Accounts that are as good, places that are meant, orders that reach past inserted parts: one slip, one order."""

import pytest

from netcheck.core.diagnostic import Grade
from netcheck.core.mend import lines
from tests.paper import compared

FILTER = """
diode D1 1000 V 1 A
electrolytic C1 50 mfd 100 V
electrolytic C2 50 mfd 100 V
resistor R1 1k 1 W
resistor R2 3.9k 1 W
resistor R3 10k 1 W
net first: D1.anode, C1-, R1.1
net second: R1.2, C2-, R2.1
net third: R2.2, R3.1
net ac: D1.cathode
net ground: chassis, C1+, C2+, R3.2
"""
DOUBLER = """
selenium SE1 130 V 250 mA
selenium SE2 130 V 250 mA
electrolytic C1 40 mfd 200 V
electrolytic C2 40 mfd 400 V
resistor R1 1k 5 W
net mid: C1+, SE1+, SE2-
net B+: SE2+, C2+, R1.1
net ground: chassis, SE1-, C2-, R1.2
net in: C1-
"""
START = 'start from "original.netck"\n'

EQUAL = {
    "two like capacitors at the two ends of a resistor that may lie either way": (
        FILTER, "lift C1-\nlift C2-\nat R2.1: C1-\nat D1.anode: C2-\n"
    ),
    "two like rectifiers that are soldered to each other": (
        DOUBLER,
        """
        remove SE1, SE2
        diode D1 1000 V 3 A replaces SE1
        diode D2 1000 V 3 A replaces SE2
        fit D1 cathode R1.1 anode D2.cathode
        at C1+: D2.cathode
        at chassis: D2.anode
        """,
    ),
}  # fmt: skip


@pytest.mark.parametrize(("original", "log"), EQUAL.values(), ids=EQUAL)
def test_like_parts_in_each_others_place_are_no_fault(original: str, log: str) -> None:
    report = compared(original, START + log)
    assert report.built
    assert [d.headline for d in report.diagnostics if d.grade is not Grade.NOTE] == []
    assert [d.rule for d in report.diagnostics if d.rule == "parts-exchanged"]


STAGE = """
tube V1 6J5
resistor R1 1k
resistor R2 470k
resistor R3 47k
capacitor C1 .1 mfd 400 V
net cathode: V1.8, R1.1
net grid: V1.5, R2.1
net plate: V1.3, R3.1, C1.1
net ground: chassis, R1.2, R2.2, V1.7
net B+: R3.2, C1.2
"""
IN_SERIES = f'{START}strip SP1 4 lugs\nlift V1.8\nresistor R9 10 ohm from V1.8 to SP1.1 inserted "to read it"\n'
ONE_SLIP = {
    "an inserted part's end beside the lug where the rest waits": (
        STAGE, f"{IN_SERIES}move R1.1 to SP1.2\n", ["at SP1.2: R9.2", "move R9.2 to SP1.2"]
    ),
    "a lead on the other end of its own part": (STAGE, f"{START}move C1.1 to C1.2\n", ["move C1.1 to V1.3"]),
    "a return on the can that is insulated in the original too, joined to another net": (
        f"""{STAGE}
        common B-
        can C5 insulated
        section C5A 20 mfd 25 V
        resistor R5 1k
        net B-: C5A-, R5.1
        net bias: C5A+, R5.2
        """,
        f"{START}move R2.2 to C5.can\n",
        ["move R2.2 to V1.7"],
    ),
}  # fmt: skip


@pytest.mark.parametrize(("original", "rewired", "orders"), ONE_SLIP.values(), ids=ONE_SLIP)
def test_one_slip_has_one_finding_with_its_order(original: str, rewired: str, orders: list[str]) -> None:
    report = compared(original, rewired)
    assert report.built
    grave = [d for d in report.diagnostics if d.grade is Grade.STOP]
    assert len(grave) == 1, [d.headline for d in grave]
    assert [line for mend in grave[0].mends for line in lines(mend) if line in orders], grave[0].mends
