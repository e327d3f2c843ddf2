"""What states no rating is counted in the closing lines: that nothing is told of its heat is no agreement."""

import pytest

from netcheck.electrical.network.unrated import ADD
from tests.paper import checked, compared

SET = """
mains 117 V 60 Hz
cord P1
diode D1 1N4007
electrolytic C1 40 mfd 250 V 300 mA
electrolytic C2 20 mfd 250 V 300 mA
resistor R1 22k 5 W
resistor R2 1k 5 W
capacitor C3 .01 mfd 630 V
capacitor C4 365 mmfd variable
net line: P1.1, D1.anode
net B+: D1.cathode, C1+, R1.1, R2.1
net B: R2.2, C2+, C3.1, C4.1
net B-: P1.2, C1-, C2-, R1.2, C3.2, C4.2
common B-
"""
SILENT = {
    "R1 22k 5 W|R1 22k": "1 of 2 resistors states no watts",
    "R1 22k 5 W|R1 22k;R2 1k 5 W|R2 1k": "2 of 2 resistors state no watts",
    "C1 40 mfd 250 V 300 mA|C1 40 mfd 250 V": "1 of 2 electrolytics states no ripple current",
    "C3 .01 mfd 630 V|C3 .01 mfd": "1 of 3 capacitors states no volts",
    "C1 40 mfd 250 V 300 mA|C1 40 mfd": (
        "1 of 2 electrolytics states no ripple current, 1 of 3 capacitors states no volts"
    ),
    "resistor R1 22k 5 W|choke R1 5 H;R2 1k 5 W|R2 1k": "the one resistor states no watts",
}


def _without(changes: str) -> str:
    text = SET
    for change in changes.split(";"):
        there, instead = change.split("|")
        assert there in text
        text = text.replace(there, instead)
    return text


def test_a_set_that_states_its_ratings_has_no_such_line() -> None:
    assert checked(SET).unchecked == ()
    assert not [line for line in compared(SET, 'start from "original.netck"\n').closing if ADD in line]


@pytest.mark.parametrize(("changes", "said"), SILENT.items())
def test_what_states_none_is_counted_in_one_line(changes: str, said: str) -> None:
    line = f"NOT CHECKED: {said}: {ADD}"
    alone, beside = checked(_without(changes)), compared(_without(changes), 'start from "original.netck"\n')
    for report in (alone, beside):
        assert line in report.closing
        assert line in report.unchecked
        assert sum(ADD in each for each in report.last_words) == 1


def test_the_line_goes_when_the_rating_is_added() -> None:
    report = compared(_without("R1 22k 5 W|R1 22k"), 'start from "original.netck"\nchange R1 5 W\n')
    assert not [line for line in report.closing if ADD in line]


def test_while_something_is_wrong_that_comes_first() -> None:
    report = compared(_without("R1 22k 5 W|R1 22k"), 'start from "original.netck"\nlift C1+\n')
    assert not [line for line in report.closing if ADD in line]


def test_where_nothing_drives_it_that_is_said_instead() -> None:
    bare = _without("mains 117 V 60 Hz|;cord P1|plug P1 2 pins;R1 22k 5 W|R1 22k")
    assert not [line for line in checked(bare).closing if ADD in line]
