"""Why something differs on purpose, as the page of the record lists it: what the rewired file gives a reason for."""

from netcheck.core.record import Reason
from netcheck.core.source import Source
from netcheck.records import record
from tests.paper import reader

ORIGINAL = """title "Bench 2, five resistors"
state drawn
strip SP1 5 lugs foot 3
resistor R1 1k
resistor R2 2.2k
fuse F1 1 A
capacitor C1 .01 mfd 400 V
note R1 "scorched"
net a: R1.1, R2.1, C1.1
net b: R1.2, F1.1
net c: F1.2, R2.2
net ground: chassis, C1.2
"""
REWIRED = """state rewired
start from "original.netck"
remove F1 bridged "no fuse here"
change R2 3.3k
lift C1.2 intended "measured without"
resistor R3 22 ohm from R1.1 to SP1.1 inserted "stops it singing"
lamp LM1 6.3 V 150 mA from SP1.1 to SP1.2 added "a pilot"
spare SP1.2
note "the back is open"
note SP1 "tag by tag"
accept value-changed R2 "one bought"
"""


def test_what_has_a_reason_is_listed_with_it_and_with_its_line() -> None:
    texts = {"original.netck": ORIGINAL, "rewired.netck": REWIRED}
    first, last = (Source(name, text) for name, text in texts.items())
    report, found = record(first, last, read=reader(texts))
    assert report.built
    assert found is not None
    assert found.state == "rewired"
    assert found.reasons == (
        Reason("R2 is 3.3k; the original has 2.2k", "one bought", "rewired.netck:4:8"),
        Reason("lift C1.2", "measured without", "rewired.netck:5:1"),
        Reason("F1 taken out, a wire in its place", "no fuse here", "rewired.netck:3:8"),
        Reason("R3 put in series", "stops it singing", "rewired.netck:6:10"),
        Reason("LM1 added", "a pilot", "rewired.netck:7:6"),
        Reason("R1", "scorched", ""),
        Reason("noted", "the back is open", ""),
        Reason("SP1", "tag by tag", ""),
    )


def test_what_the_base_gives_a_reason_for_is_the_bases() -> None:
    base = ORIGINAL.replace("resistor R1 1k", 'resistor R1 1k added "by a former owner"')
    texts = {"original.netck": base, "rewired.netck": REWIRED}
    first, last = (Source(name, text) for name, text in texts.items())
    _, found = record(first, last, read=reader(texts))
    assert found is not None
    assert "by a former owner" not in {one.why for one in found.reasons}


def test_no_record_is_made_of_what_can_not_be_built() -> None:
    texts = {"original.netck": ORIGINAL, "rewired.netck": REWIRED.replace("R2 3.3k", "R2 3.3 mfd")}
    first, last = (Source(name, text) for name, text in texts.items())
    report, found = record(first, last, read=reader(texts))
    assert not report.built
    assert found is None
