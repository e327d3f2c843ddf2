"""What a restorer declares on purpose: replaced, inserted, added, removed, intended, covered."""

import pytest

from netcheck.core.report import Report
from tests.paper import compared

ORIGINAL = """
state drawn
resistor R1 10k 1 W
resistor R2 22k 1 W
resistor R3 47k
resistor R4 100k
capacitor C1 .02 mfd 400 V
net a: R1.1, R3.1, C1.1
net m: R1.2, R2.1
net b: R2.2, R4.1
net ground: chassis, R3.2, R4.2, C1.2
"""


def rewired(*lines: str, take: str = "start from") -> Report:
    report = compared(ORIGINAL, "\n".join(("state rewired", f'{take} "original.netck"', *lines, "")))
    assert report.built, [d.headline for d in report.diagnostics]
    return report


def told(report: Report) -> list[str]:
    return [f"{d.labels[0].place.line}: {d.headline}" for d in report.diagnostics]


SILENT = {
    "one for two in series": ("remove R1, R2", "resistor R12 33k 2 W from R3.1 to R4.1 replaces R1, R2"),
    "one for one under a new name": ("remove C1", "capacitor C9 .022 mfd 630 V from R3.1 to chassis replaces C1"),
    "the old part bare in place": ("lift R3.1, R3.2", "resistor R9 47k from R1.1 to chassis replaces R3"),
    "one end of the old part lifted": ("lift C1.1", "capacitor C9 .02 mfd 400 V from R1.1 to chassis replaces C1"),
    "in series": ("lift C1.1", 'resistor R9 47 ohm from C1.1 to R3.1 inserted "stopper"'),
    "in series, at a lug": (
        "strip SP1 3 lugs",
        "move C1.1 to SP1.1",
        'resistor R9 47 ohm from SP1.1 to R3.1 inserted "stopper"',
    ),
    "two in series": (
        "strip SP1 3 lugs",
        "lift C1.1",
        'resistor R8 47 ohm from C1.1 to SP1.1 inserted "stopper"',
        'resistor R9 47 ohm from SP1.1 to R3.1 inserted "stopper"',
    ),
    "across two nets": (
        'resistor R9 220k from C1.1 to chassis added "bleeder"',
        "meant a: R9.1",
        "meant ground: R9.2",
    ),
    "a lead moved on purpose": ('move C1.1 to R4.1 intended "less treble"',),
    "two nets joined on purpose": ('wire R3.1 to R4.1 red intended "one supply for both"',),
    "a lead moved to a new lug": (
        "strip SP1 3 lugs",
        "at SP1.2: R4.1",
        'move C1.1 to SP1.2 intended "less treble"',
    ),
    "a lead moved to a new lug by wire": (
        "strip SP1 3 lugs",
        'move C1.1 to SP1.2 intended "less treble"',
        "wire SP1.2 to R2.2 red",
    ),
    "a lead moved to the foot of a new strip": (
        "strip SP1 3 lugs foot 1",
        'move R1.1 to SP1.1 intended "the stage is out of use"',
    ),
    "two leads moved to one new lug": (
        "strip SP1 3 lugs",
        'move C1.2 to SP1.2 intended "less treble"',
        'move R3.2 to SP1.2 intended "less treble"',
        "wire SP1.2 to R4.1 red",
    ),
    "a lead moved to a lug behind a new fuse": (
        "strip SP1 3 lugs",
        'move C1.1 to SP1.2 intended "less treble"',
        'resistor R9 47 ohm from SP1.2 to R4.1 inserted "stopper"',
    ),
    "two nets joined over a new lug": (
        "strip SP1 3 lugs",
        "at SP1.2: R4.1",
        'wire R3.1 to SP1.2 red intended "one supply for both"',
    ),
    "a lead moved to a new lug of a free part that is turned": (
        "strip SP1 3 lugs",
        "lift R2.1, R2.2, R4.1",
        "wire R2.2 to R1.2 blue",
        "at SP1.2: R2.1, R4.1",
        'move C1.1 to SP1.2 intended "less treble"',
    ),
    "left out": ('remove C1 "no tone control any more"',),
}


@pytest.mark.parametrize("lines", SILENT.values(), ids=SILENT)
def test_what_is_declared_and_done_is_silent(lines: tuple[str, ...]) -> None:
    assert told(rewired(*lines)) == []


UNDONE = {
    "replaced at the wrong place": (
        ("remove R1, R2", "resistor R12 33k 2 W from R3.1 to C1.1 replaces R1, R2"),
        ["4: R12.2 is on a; it belongs on b"],
    ),
    "replaced by another value": (
        ("remove R1, R2", "resistor R12 3.3k 2 W from R3.1 to R4.1 replaces R1, R2"),
        ["4: R12 (in place of R1 and R2) is 3.3k; the original has 32k (a decade slip?)"],
    ),
    "one for two, of the watts of one": (
        ("remove R1, R2", "resistor R12 33k 1 W from R3.1 to R4.1 replaces R1, R2"),
        ["4: R12 (in place of R1 and R2) is rated 1 W; the original was 2 W"],
    ),
    "still in place": (
        ("resistor R9 47k from R1.1 to chassis replaces R3",),
        ["3: R3 is still wired in across a and chassis, although R9 replaces it"],
    ),
    "inserted and bridged": (
        ('resistor R9 47 ohm from C1.1 to R3.1 inserted "stopper"',),
        ["3: R9 is inserted but bridged: both its ends are on a"],
    ),
    "inserted across two nets": (
        ('resistor R9 220k from R1.1 to R4.1 inserted "stopper"',),
        ["3: R9 is across a and b, not in series"],
    ),
    "moved to a new lug that leads nowhere": (
        ("strip SP1 3 lugs", 'move C1.1 to SP1.2 intended "less treble"'),
        [
            "4: the intended move ends on `SP1.2`, which leads to no net of the original",
            "4: C1.1 is alone on SP1.2; it belongs on a",
        ],
    ),
    "moved to a new lug on two nets": (
        ("strip SP1 3 lugs", "at SP1.2: R4.1, R1.2", 'move C1.1 to SP1.2 intended "less treble"'),
        [
            "4: b is joined to m by R4.1 on SP1.2",
            "5: the intended move ends on `SP1.2`, which is on two nets of the original at once",
            "5: C1.1 is on m (SP1.2); it belongs on a",
        ],
    ),
    "moved to a new lug, and a stranger there": (
        ("strip SP1 3 lugs", "at SP1.2: R4.1, R2.2", "move R3.2 to SP1.2", 'move C1.1 to SP1.2 intended "less treble"'),
        ["5: R3.2 is on b (SP1.2); it belongs on chassis"],
    ),
    "added and bridged": (
        ('resistor R9 220k from C1.1 to R3.1 added "bleeder"',),
        ["3: both leads of R9 are on a"],
    ),
}


@pytest.mark.parametrize(("lines", "expected"), UNDONE.values(), ids=UNDONE)
def test_what_is_declared_and_not_done_is_told(lines: tuple[str, ...], expected: list[str]) -> None:
    assert told(rewired(*lines)) == expected


COVERED = "1 part is outside `covers` and not checked"


def test_only_what_is_covered_is_compared_and_the_rest_is_counted() -> None:
    report = rewired("covers R1, R2, R3, R4", "lift C1.1", "at R4.1: C1.1", "change R3 4.7k")
    assert [d.split(": ", 1)[1] for d in told(report)] == [
        "R3 is 4.7k; the original has 47k (a decade slip?)",
        COVERED,
    ]
    assert "NOT CHECKED: 1 part outside `covers`" in report.closing


def test_a_covered_point_is_compared_without_its_part() -> None:
    report = rewired("covers R1, R2, R3.1, R4.1, C1, chassis", "move R3.2 to R4.1")
    assert [d.rule for d in report.diagnostics] == []


def test_a_replacement_is_covered_with_the_part_it_replaces() -> None:
    lines = ("remove C1", "capacitor C9 .1 mfd 630 V from R3.1 to chassis replaces C1", "covers C9, R3")
    assert [d.rule for d in rewired(*lines).diagnostics] == ["value-changed", "not-compared"]


def test_the_last_lines_say_what_was_compared_and_what_was_taken_over() -> None:
    report = rewired("remove C1", "capacitor C9 .022 mfd 630 V from R3.1 to chassis replaces C1")
    assert report.closing[0] == "compared: 10 leads of 5 parts on 4 nets"
    assert (
        "NOT CHECKED: 9 of 11 joints are copied from original.netck; nobody has looked at them on the chassis"
        in report.closing
    )
    assert report.cautions[-1].startswith("This checks paper, not the chassis.")


def test_a_trace_has_nothing_that_was_taken_over() -> None:
    report = rewired(
        "at R1.1: R3.1, C1.1",
        "wire R1.2 to R2.1 red",
        "at R2.2: R4.1",
        "at chassis: R3.2, R4.2, C1.2",
        take="parts from",
    )
    assert report.diagnostics == ()
    assert not [line for line in report.closing if "copied from" in line]


def test_what_the_file_accepts_is_listed_with_its_reason() -> None:
    report = rewired("change R3 56k", 'accept value-changed R3, R4 "what the drawer had"')
    assert report.diagnostics == ()
    assert [(a.diagnostic.headline, a.reason) for a in report.accepted] == [
        ("R3 is 56k; the original has 47k", "what the drawer had")
    ]


def test_a_trace_may_say_that_a_lead_is_off_on_purpose() -> None:
    joints = ("at R1.1: R3.1", "wire R1.2 to R2.1 red", "at R2.2: R4.1", "at chassis: R3.2, R4.2, C1.2")
    report = rewired('lift C1.1 intended "no tone control any more"', "spare C1.1", *joints, take="parts from")
    assert report.diagnostics == ()


def test_what_a_new_lug_was_taken_for_is_said() -> None:
    report = rewired("strip SP1 3 lugs", "at SP1.2: R4.1", 'move C1.1 to SP1.2 intended "less treble"')
    assert [line for line in report.closing if line.startswith("intended")] == [
        "intended changes end on new lugs; each was matched to a net by what is soldered to it: SP1.2 to b"
    ]


def test_what_is_lifted_on_purpose_must_have_been_there() -> None:
    joints = (f"at {hub}: {leads}" for hub, leads in (("R1.1", "R3.1, C1.1"), ("R2.2", "R4.1"), ("R1.2", "R2.1")))
    lines = ("strip SP1 3 lugs", 'lift SP1.2 intended "bare"', *joints, "at chassis: R3.2, R4.2, C1.2")
    assert told(rewired(*lines, take="parts from")) == [
        "4: the intended lift of `SP1.2` names no point of the original"
    ]


def test_an_intended_move_to_two_nets_says_why_and_what_to_do_each_in_its_place() -> None:
    report = rewired("strip SP1 3 lugs", "at SP1.2: R4.1, R1.2", 'move C1.1 to SP1.2 intended "less treble"')
    (found,) = [d for d in report.diagnostics if "on two nets" in d.headline]
    assert found.why == "leads of b and of m are soldered to it"
    assert found.do == "name a point of the net that is meant instead of SP1.2, or solder SP1.2 to that net"


def test_an_intended_move_of_what_stood_for_a_stack_before_is_one_of_the_stacks_own_lead() -> None:
    """The cathode is the plus of the stack: their names differ, their polarity says it."""
    original = """
    transformer T1
    winding T1 high red-a red-b 120 V
    selenium CR1 130 V 100 mA
    electrolytic C1 40 mfd 250 V
    resistor R1 22k
    resistor R2 22k
    resistor R3 22k
    net high: T1.red-a, CR1-
    net B+: CR1+, C1+, R1.1
    net ground: chassis, T1.red-b, C1-, R1.2, R2.2, R3.2
    net tap: R2.1, R3.1
    """.replace("    ", "")
    found = 'start from "original.netck"\nremove CR1\n'
    found += "diode D1 1000 V 1 A anode T1.red-a cathode C1+ replaces CR1\n"
    log = 'start from "found.netck"\nmove D1.cathode to R2.1 intended "fed through the tap"\n'
    report = compared(original, log, found=found)
    assert report.built
    assert [d.headline for d in report.diagnostics if d.rule in ("unused-intent", "lead-on-wrong-net")] == []
