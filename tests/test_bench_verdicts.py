"""What a sheet makes of readings that are not as expected, word for word, however many explanations there are."""

import itertools

import pytest

from netcheck.bench.explain import Diagnosis, Explanation
from netcheck.bench.explain_sheet import Said, diagnosis_sheet
from netcheck.bench.filled_in import FilledIn
from netcheck.bench.next_reading import next_reading
from netcheck.bench.readings import Reading, reading_of
from netcheck.bench.slips import simple_slips
from netcheck.reports import SHEETS, Style
from tests.test_bench_explain import planned

PLAN, _ = planned()
SLIPS = {slip.words: slip for slip in simple_slips(PLAN.chassis)}
WRONG = PLAN.steps[3:5]
READ = tuple(reading for text in ("OL", "12 k") if isinstance(reading := reading_of(text), Reading))


def one(*words: str, fits: bool = True) -> Explanation:
    return Explanation(tuple(SLIPS[slip] for slip in words), 1.0, fits)


NONE = """2 readings are not as expected. No slip that is looked for explains them, nor do two together.

Not as expected
step  red         black  expected  read
4     D1.anode    SP1.1  beep      OL
5     D1.cathode  SP1.2  beep      12 k

Readings: 2. Steps of the plan not measured: 7.
"""

CERTAIN = """2 readings are not as expected. Of all single faults only one explains every reading: C1 is
  shorted.

Not as expected
step  red         black  expected  read
4     D1.anode    SP1.1  beep      OL
5     D1.cathode  SP1.2  beep      12 k

What explains the readings, the likeliest first
    what it may be  what mends it
1. one fault, fits every reading
[ ] C1 is shorted   fit C1 of 47 mfd 250 V

To mend, in this order, then measure again
[ ] fit C1 of 47 mfd 250 V

Readings: 2. Steps of the plan not measured: 7.
"""

NEAREST = """2 readings are not as expected. Nothing explains all of them; below is what comes nearest. Measure
  more before mending.

Not as expected
step  red         black  expected  read
4     D1.anode    SP1.1  beep      OL
5     D1.cathode  SP1.2  beep      12 k

What explains the readings, the likeliest first
    what it may be                 what mends it
1. one fault, leaves readings unexplained
[ ] R1 is open                     fit R1 of 1k 5%
2. two faults, leaves readings unexplained
[ ] C1 is shorted; and R2 is open  fit C1 of 47 mfd 250 V, fit R2 of 100k 5%

Measure this next
red on SP1.2, black on chassis
    it reads              then
[ ] joined (below 2 ohm)  C1 is shorted; and R2 is open
[ ] open                  R1 is open

To mend, in this order, then measure again
If the first line above is right. Nothing is proved until the readings agree.
[ ] fit R1 of 1k 5%

Readings: 2. Steps of the plan not measured: 7.
"""

RIVALS = """2 readings are not as expected. The readings do not single out one fault.

Not as expected
step  red         black  expected  read
4     D1.anode    SP1.1  beep      OL
5     D1.cathode  SP1.2  beep      12 k

What explains the readings, the likeliest first
    what it may be              what mends it
1. one fault, fits every reading
[ ] C1 is shorted               fit C1 of 47 mfd 250 V
2. one fault, fits every reading
[ ] C2 is shorted               fit C2 of 22 mfd 250 V
3. two faults, leaves readings unexplained
[ ] R2 is open; and R1 is open  fit R2 of 100k 5%, fit R1 of 1k 5%

Measure this next
red on SP1.2, black on chassis
    it reads              then
[ ] joined (below 2 ohm)  C1 is shorted
[ ] about 1 k             C2 is shorted
[ ] open                  R2 is open; and R1 is open

To mend, in this order, then measure again
If the first line above is right. Nothing is proved until the readings agree.
[ ] fit C1 of 47 mfd 250 V

Readings: 2. Steps of the plan not measured: 7.
"""

TIE = """2 readings are not as expected. The readings do not single out one fault.

Not as expected
step  red         black  expected  read
4     D1.anode    SP1.1  beep      OL
5     D1.cathode  SP1.2  beep      12 k

What explains the readings, the likeliest first
    what it may be  what mends it
1. one fault, fits every reading; these readings do not tell them apart
[ ] C1 is shorted   fit C1 of 47 mfd 250 V
[ ] C2 is shorted   fit C2 of 22 mfd 250 V
2. one fault, fits every reading
[ ] R2 is open      fit R2 of 100k 5%

Measure this next
red on SP1.2, black on chassis
    it reads              then
[ ] joined (below 2 ohm)  C1 is shorted
[ ] about 1 k             C2 is shorted

To mend, in this order, then measure again
If the first line above is right. Nothing is proved until the readings agree.
[ ] fit C1 of 47 mfd 250 V

Readings: 2. Steps of the plan not measured: 7.
"""

C1, C2, R2 = one("C1 is shorted"), one("C2 is shorted"), one("R2 is open")
BOTH = one("R2 is open", "R1 is open", fits=False)
FOUND = {
    "none": (Diagnosis(WRONG, (), certain=False), NONE),
    "certain": (Diagnosis(WRONG, ((C1,),), certain=True), CERTAIN),
    "nearest": (
        Diagnosis(
            WRONG,
            ((one("R1 is open", fits=False),), (one("C1 is shorted", "R2 is open", fits=False),)),
            certain=False,
        ),
        NEAREST,
    ),
    "rivals": (Diagnosis(WRONG, ((C1,), (C2,), (BOTH,)), certain=False), RIVALS),
    "tie": (Diagnosis(WRONG, ((C1, C2), (R2,)), certain=False), TIE),
}


@pytest.mark.parametrize("case", FOUND)
def test_a_diagnosis_reads_like_this(case: str) -> None:
    found, wanted = FOUND[case]
    sheet = diagnosis_sheet(PLAN, FilledIn(WRONG, READ, 7), Said(found), ("a.netck", "r.csv"))
    assert SHEETS[".txt"](sheet, Style()).partition("by ____________\n\n")[2] == wanted
    assert sheet.failed


def test_what_was_not_measured_is_said_only_where_nothing_is_wrong() -> None:
    good = Diagnosis((), (), certain=False)
    sheet = diagnosis_sheet(PLAN, FilledIn(WRONG, READ, 7), Said(good), ())
    assert not sheet.failed
    assert sheet.before == ("All readings are as expected.",)
    assert sheet.closing == (
        "Readings: 2. Steps of the plan not measured: 7.", "What was not measured is not proved."
    )  # fmt: skip
    sheet = diagnosis_sheet(PLAN, FilledIn(WRONG, READ, 0), Said(good), ())
    assert sheet.closing == ("Readings: 2. Steps of the plan not measured: 0.",)


def test_no_reading_is_asked_for_that_was_made() -> None:
    chassis = PLAN.chassis
    every = {frozenset(pair) for pair in itertools.combinations(range(len(chassis.names)), 2)}
    first = next_reading(chassis, (C1, C2), set())
    assert first is not None
    again = next_reading(chassis, (C1, C2), {frozenset((first.red, first.black))})
    assert again is not None
    assert {again.red, again.black} != {first.red, first.black}
    assert next_reading(chassis, (C1, C2), every) is None
    assert next_reading(chassis, (C1,), set()) is None
    assert next_reading(chassis, (C1, C1), set()) is None  # no reading tells a thing from itself
