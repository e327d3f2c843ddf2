"""What is meant: leads of new parts are compared as if the drawing listed them."""

import random

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from netcheck.compare.rules import RULES
from netcheck.core.diagnostic import Grade
from netcheck.core.report import Report
from tests.paper import compared
from tests.strategies import Chassis, chassis

ORIGINAL = """
state drawn
mains 117 V 60 Hz
cord P1
fuse F1 1 A slow
transformer T1
winding T1 primary black-a black-b 117 V
winding T1 high red-a red-b 250 V 60 ohm
electrolytic C1 40 mfd 450 V
resistor R1 10k 10 W
resistor R2 470k
capacitor C9 .01 mfd 630 V
net a: P1.1, F1.1
net b: F1.2, T1.black-a
net c: P1.2, T1.black-b
net high: T1.red-a, R2.1
net B+: C1+, R1.1
net ground: chassis, T1.red-b, C1-, R1.2, R2.2, C9.2
net return: C9.1
"""


def rewired(*lines: str, original: str = ORIGINAL) -> Report:
    report = compared(original, "\n".join(("state rewired", 'start from "original.netck"', *lines, "")))
    assert report.built, [d.headline for d in report.diagnostics]
    return report


def told(report: Report) -> list[str]:
    """What stands but for the original's own oddities and what is computed."""
    names = {"lonely-net", "rating-too-low", "inverse-volts-too-low", "renamed", "value-changed"}
    return [d.headline for d in report.diagnostics if d.rule not in names]


BRIDGE = (
    "strip SP1 5 lugs foot 3",
    'resistor R60 220k 2 W from SP1.5 to chassis added "bleeder"',
    "meant filter: R60.1, D1.cathode, D2.cathode",
    "meant ground: R60.2, D3.anode, D4.anode",
    "meant high: D1.anode, D3.cathode",
    'lift T1.red-b intended "to the bridge"',
    "meant other: D2.anode, D4.cathode, T1.red-b",
    "at SP1.2: T1.red-b",
    'diode D3 1000 V 1 A anode SP1.3 cathode SP1.1 added "bridge"',
    "at SP1.1: T1.red-a",
)  # fmt: skip
RIGHT = (
    *BRIDGE,
    'diode D1 1000 V 1 A anode SP1.1 cathode SP1.5 added "bridge"',
    'diode D2 1000 V 1 A anode SP1.2 cathode SP1.5 added "bridge"',
    'diode D4 1000 V 1 A anode SP1.3 cathode SP1.2 added "bridge"',
)
CASES: dict[str, tuple[tuple[str, ...], list[str]]] = {
    "a bleeder where it is meant": (
        ('resistor R70 220k from C1+ to chassis added "bleeder"', "meant B+: R70.1", "meant chassis: R70.2"),
        [],
    ),
    "its ends are free": (
        ('resistor R70 220k from chassis to C1+ added "bleeder"', "meant B+: R70.1", "meant ground: R70.2"),
        [],
    ),
    "without the word added": (
        ("resistor R70 220k from C1+ to chassis", "meant B+: R70.1", "meant chassis: R70.2"),
        [],
    ),
    "a bleeder with one end elsewhere": (
        ('resistor R70 220k from C1+ to T1.red-a added "bleeder"', "meant B+: R70.1", "meant chassis: R70.2"),
        ["R70.2 is on high; it belongs on chassis"],
    ),
    "a bleeder with one end on an empty lug": (
        (
            "strip SP1 3 lugs",
            'resistor R70 220k from C1+ to SP1.2 added "bleeder"',
            "meant B+: R70.1",
            "meant chassis: R70.2",
        ),
        ["R70.2 is alone on SP1.2; it belongs on the chassis"],
    ),
    "a bridge of new nets": (RIGHT, []),
    "one of its diodes turned round": (
        (*RIGHT[:-2], 'diode D2 1000 V 1 A anode SP1.5 cathode SP1.2 added "bridge"', RIGHT[-1]),
        ["D2 is in backwards: its band is on SP1.2 (other) and belongs on SP1.5 (filter)"],
    ),
    "a wire across two of its nets": (
        (*RIGHT, "wire SP1.5 to SP1.3"),
        ["filter is joined to chassis by the wire from SP1.5 to SP1.3"],  # which shorts the winding: one slip
    ),
    "a lead that leaves its net on purpose, in one line": (
        ('move C9.2 to T1.red-a intended "off the chassis"',),
        [],
    ),
    "a ground that is moved": (
        ('lift C9.2 intended "off the chassis"', "meant B+: C9.2", "at C1+: C9.2"),
        [],
    ),
    "a ground that is moved and not soldered": (
        ('lift C9.2 intended "off the chassis"', "meant B+: C9.2"),
        ["C9.2 hangs free; it belongs on B+"],
    ),
    "a ground that is meant elsewhere and has not left": (
        ("meant B+: C9.2", "wire C9.2 to C1+"),
        [
            "B+ is joined to chassis by the wire from C9.2 to C1+",
            "`C9.2` is on chassis in the original: so chassis and B+ would be one net",
        ],
    ),
    "a name that the original does not have, for one lead": (
        ('resistor R70 220k from C1+ to chassis added "bleeder"', "meant B++: R70.1", "meant chassis: R70.2"),
        [
            "R70.1 is on B+: nothing says that it belongs there",
            "`B++` is no net of the original, and R70.1 would be alone on it",
        ],
    ),
    "a new lug is no net": (
        ("strip SP1 3 lugs", 'resistor R70 1k from C1+ to SP1.2 added "x"', "meant SP1.2: R70.2", "meant B+: R70.1"),
        ["R70.2 is alone on SP1.2, and R70 does nothing", "`SP1.2` is a new lug, and a drawing knows no lugs"],
    ),
    "a part that is inserted has its place": (
        ("move R1.1 to F2.1", "at F2.2: C1+", 'fuse F2 .1 A inserted "for B+"', "meant B+: F2.2"),
        ["`F2.2` is a lead of a part that is inserted, whose place is where the joint was"],
    ),
    "a polarized cord, as meant": (
        (
            'remove P1 "brittle"',
            'cord P2 polarized added "new"',
            "meant a: P2.hot",
            "meant c: P2.neutral",
            "at F1.1: P2.hot",
            "at T1.black-b: P2.neutral",
        ),
        [],
    ),
    "a polarized cord, hot and neutral exchanged": (
        (
            'remove P1 "brittle"',
            'cord P2 polarized added "new"',
            "meant a: P2.hot",
            "meant c: P2.neutral",
            "at F1.1: P2.neutral",
            "at T1.black-b: P2.hot",
        ),
        ["P2.hot and P2.neutral changed places: P2.hot belongs on a"],
    ),
}


@pytest.mark.parametrize(("lines", "expected"), CASES.values(), ids=CASES)
def test_what_is_meant_is_compared(lines: tuple[str, ...], expected: list[str]) -> None:
    assert sorted(told(rewired(*lines))) == sorted(expected)


def test_the_way_from_a_finding_to_silence_is_the_line_that_it_proposes() -> None:
    part = 'resistor R70 220k from C1+ to chassis added "bleeder"'
    (first,) = rewired(part).diagnostics[:1]
    assert first.rule == "part-added"
    lines = [piece for piece in first.do.split("`") if piece.startswith("meant ")]
    assert lines == ["meant B+: R70.1", "meant chassis: R70.2"]
    assert told(rewired(part, *lines)) == []


def test_a_redesign_is_a_planned_file_and_compared_as_a_whole() -> None:
    planned = ORIGINAL.replace("state drawn", "state planned") + "resistor R70 220k\nnet B+: R70.1\nnet ground: R70.2\n"
    done = 'state rewired\nstart from "original.netck"\nmove R70.1 to T1.red-a\n'
    assert told(compared(planned, done)) == ["R70.1 is on high; it belongs on B+"]


OF_PAIRS = {rule.name for rule in RULES}


def _wired(of: Chassis, rng: random.Random) -> tuple[list[str], list[str]]:
    """(what the drawing would list of two new parts, how they are soldered in)."""
    names = sorted({joint.points[0] for joint in of.joints if joint.form == "net"})
    leads = ["R9.1", "R9.2", "C99+", "C99-"]
    listed = [f"{rng.choice([*names, 'chassis', 'NEW'])}: {lead}" for lead in leads]
    return listed, [f"at {rng.choice([*of.points, 'chassis'])}: {lead}" for lead in leads]


@given(chassis(), st.randoms(use_true_random=False))
def test_it_adds_to_what_is_expected_exactly_as_a_net_of_the_original_would(of: Chassis, rng: random.Random) -> None:
    listed, soldered = _wired(of, rng)
    assume(sum(line.startswith("NEW") for line in listed) != 1)
    parts = "resistor R9 1k\nelectrolytic C99 8 mfd 450 V\n"
    as_net = "".join(
        f"net {'ground: chassis,' if line.startswith('chassis') else ''}{line.removeprefix('chassis:')}\n"
        for line in listed
    )
    as_meant = "".join(f"meant {line}\n" for line in listed)
    wiring = of.rewired(rng).text(*soldered)
    drawn = compared(of.text() + parts + as_net, "state rewired\n" + parts + wiring)
    meant = compared(of.text(), "state rewired\n" + parts + wiring + as_meant)
    assert drawn.built
    assert meant.built
    grave = [
        {d.headline for d in report.diagnostics if d.grade is Grade.STOP and d.rule in OF_PAIRS}
        for report in (drawn, meant)
    ]
    assert grave[0] == grave[1]
