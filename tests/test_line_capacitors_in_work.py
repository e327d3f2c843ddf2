"""Capacitors on the line beside the original: what else is told of one hides nothing, and no old leak excuses a new."""

import pytest

from netcheck.core.diagnostic import Grade
from tests.paper import compared
from tests.test_cautions import BY_TRANSFORMER, SET

OTHER_SIZE = 'accept value-changed C9 "less current"\n'


@pytest.mark.parametrize("part", [".0047 mfd 630 V film", ".01 mfd 100 V film", ".05 mfd 250 V film"])
@pytest.mark.parametrize("accepted", ["", OTHER_SIZE])
def test_no_other_slip_of_a_line_capacitor_hides_its_class(part: str, accepted: str) -> None:
    """Neither its value, nor its volts, nor that one of these was accepted: if it shorts, the chassis is live."""
    original = SET.format(state="drawn", size=".05", kind="400 V paper")
    rewired = f'state rewired\nstart from "original.netck"\nchange C9 {part}\n{accepted}'
    told = [(d.grade, d.rule) for d in compared(original, rewired).diagnostics if "C9" in d.touched.parts]
    assert (Grade.STOP, "line-capacitor-class") in told


@pytest.mark.parametrize("grade", [Grade.NOTE, Grade.STOP])
def test_a_smaller_line_capacitor_is_not_ordered_back_to_what_leaks(grade: Grade) -> None:
    """A tenth of the paper capacitor is what the limit asks for; from B+ to B- it is a slip of a decade."""
    original = SET.format(state="drawn", size=".05", kind="400 V paper")
    if grade is Grade.STOP:
        original = original.replace("C9.2", "R1.2").replace("R1.2, C9.1", "C9.1").replace("R1.1", "R1.1, C9.2")
    work = 'state rewired\nstart from "original.netck"\nchange C9 .0047 mfd 630 V film\n'
    (found,) = [d for d in compared(original, work).diagnostics if d.rule == "value-changed"]
    assert found.grade is grade
    assert found.do.startswith("leave it" if grade is Grade.NOTE else "fit .05 mfd")


def test_what_the_original_lets_through_elsewhere_excuses_no_new_way_to_the_metal() -> None:
    """A drawing with 2.3 mA through its capacitor; then that is out, and as much comes through another part."""
    original = SET.format(state="drawn", size=".05", kind="400 V paper")
    work = 'state rewired\nstart from "original.netck"\nremove C9 "left out"\n'
    work += 'resistor R9 56k 1 W added "bleeder"\nat C1-: R9.1\nat chassis: R9.2\n'
    (found,) = [d for d in compared(original, work).diagnostics if d.rule == "hot-chassis"]
    assert (found.grade, found.why.split("; ")[0]) == (Grade.STOP, "in the original it is 2.3 mA")


def test_a_leak_of_the_original_excuses_no_joint_to_the_neutral() -> None:
    wide = BY_TRANSFORMER.replace("cord P1", "mains 120 V 60 Hz\ncord P1 polarized\ncapacitor C9 .05 mfd 400 V paper")
    wide = wide.replace("P1.1", "P1.hot, C9.1").replace("P1.2", "P1.neutral").replace("chassis,", "chassis, C9.2,")
    work = (
        'state rewired\nstart from "original.netck"\nremove C9 "left out"\nwire P1.neutral to chassis intended "so"\n'
    )
    (found,) = [d for d in compared(wide, work).diagnostics if d.rule == "hot-chassis"]
    assert found.grade is Grade.LOOK
    assert found.why.startswith("in the original it is 2.3 mA")
