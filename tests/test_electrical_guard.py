"""The guard over both engines: a verdict that any figure of its own row contradicts is never told as certain."""

from dataclasses import replace

import pytest

from netcheck.electrical.proof.guard import Seen, agreed, contradicts, held_against
from netcheck.electrical.proof.judgement import Surety, Verdict, Way

PROVEN_RIGHT = Verdict("C1", Surety.PROVEN, Way.RIGHT, "R1 joins the two", "hot or cold")
RUNNING_RIGHT = Verdict("C1", Surety.COMPUTED, Way.RIGHT, "12 V across it", "running with the currents stated")
REVERSED = Verdict("C1", Surety.PROVEN, Way.REVERSED, "R1 joins the two", "hot or cold")
EITHER = Verdict("C1", Surety.PROVEN, Way.EITHER, "there is no DC", "hot or cold")
PAIR = Verdict("C1", Surety.PROVEN, Way.EITHER, "back to back", "hot or cold", partner="C2")
OPEN = Verdict("C1", Surety.UNPROVEN, Way.UNKNOWN, "D1 could reverse it", witness="D1")


@pytest.mark.parametrize(
    ("verdict", "seen", "expected"),
    [
        (PROVEN_RIGHT, Seen(100.0, 90.0, 110.0, 150.0), (Surety.PROVEN, Way.RIGHT)),
        # Less than a volt backwards does no harm, and rectifiers may drop as much.
        (PROVEN_RIGHT, Seen(-0.9, -1.4, 0.0, -0.9), (Surety.PROVEN, Way.RIGHT)),
        (PROVEN_RIGHT, Seen(-1.1, -1.2, -1.0), (Surety.UNPROVEN, Way.UNKNOWN)),
        (PROVEN_RIGHT, Seen(100.0, 90.0, 110.0, -1.1), (Surety.UNPROVEN, Way.UNKNOWN)),
        # One that speaks of the running set alone is not held against the cold one.
        (RUNNING_RIGHT, Seen(12.0, 11.0, 13.0, -5.0), (Surety.COMPUTED, Way.RIGHT)),
        (RUNNING_RIGHT, Seen(-12.0, -13.0, -11.0), (Surety.UNPROVEN, Way.UNKNOWN)),
        # Right on average, and reversed at the bottom of its ripple.
        (PROVEN_RIGHT, Seen(100.0, -1.6, 210.0, 150.0), (Surety.COMPUTED, Way.BOTH)),
        (PROVEN_RIGHT, Seen(100.0, -1.4, 210.0, 150.0), (Surety.PROVEN, Way.RIGHT)),
        (EITHER, Seen(0.0, -50.0, 50.0), (Surety.COMPUTED, Way.BOTH)),
        (OPEN, Seen(0.0, -50.0, 50.0), (Surety.COMPUTED, Way.BOTH)),
        (PAIR, Seen(0.0, -50.0, 50.0), (Surety.PROVEN, Way.EITHER)),
        (PAIR, Seen(-2.0, -50.0, 50.0), (Surety.UNPROVEN, Way.UNKNOWN)),
        (replace(REVERSED, partner="C2"), Seen(-0.9, -50.0, 49.0), (Surety.COMPUTED, Way.EITHER)),
        (replace(REVERSED, partner="C2"), Seen(-1.1, -50.0, 49.0), (Surety.PROVEN, Way.REVERSED)),
        (OPEN, Seen(-5.0, -50.0, 10.0), (Surety.COMPUTED, Way.BOTH)),
        (PROVEN_RIGHT, Seen(-5.0, -50.0, 10.0), (Surety.UNPROVEN, Way.UNKNOWN)),
        # Turning it round would not help, but it is backwards all the same.
        (REVERSED, Seen(-20.0, -50.0, 10.0), (Surety.PROVEN, Way.REVERSED)),
        (REVERSED, Seen(-0.5, -50.0, 49.0), (Surety.COMPUTED, Way.BOTH)),
        (REVERSED, Seen(20.0, 10.0, 30.0), (Surety.UNPROVEN, Way.UNKNOWN)),
        (REVERSED, Seen(-20.0, -30.0, -10.0, 1.1), (Surety.UNPROVEN, Way.UNKNOWN)),
        (EITHER, Seen(1.1, 1.0, 1.2), (Surety.UNPROVEN, Way.UNKNOWN)),
        (OPEN, Seen(100.0, 90.0, 110.0), (Surety.UNPROVEN, Way.UNKNOWN)),
    ],
)
def test_a_verdict_stands_as_far_as_its_row_bears_it_out(
    verdict: Verdict, seen: Seen, expected: tuple[Surety, Way]
) -> None:
    found = held_against(verdict, seen)
    assert (found.surety, found.way) == expected
    assert not contradicts(found, seen)


def test_what_was_taken_back_says_both_figures_and_proof() -> None:
    found = held_against(PROVEN_RIGHT, Seen(-12.3, -13.0, -11.0, 4.0))
    assert found.reason == (
        "-12.3 V are calculated across it (-13 to -11 V, 4 V cold), against the proven verdict (R1 joins the two): "
        "rely on neither"
    )


def test_without_figures_a_verdict_stands() -> None:
    assert held_against(PROVEN_RIGHT, None) is PROVEN_RIGHT


def test_readings_that_contradict_are_not_weighed_again() -> None:
    doubted = Verdict("C1", Surety.CONTRADICTED, Way.UNKNOWN, "the readings don't fit the circuit")
    assert held_against(doubted, Seen(0.0, -50.0, 50.0)) is doubted


def test_a_verdict_is_no_surer_than_in_the_worst_of_the_other_cases() -> None:
    assert agreed(PROVEN_RIGHT, [PROVEN_RIGHT, None]) is PROVEN_RIGHT
    assert agreed(PROVEN_RIGHT, [RUNNING_RIGHT]).surety is Surety.COMPUTED
    torn = agreed(PROVEN_RIGHT, [REVERSED], switches="S1")
    assert (torn.surety, torn.way, torn.reason) == (
        Surety.UNPROVEN, Way.UNKNOWN, "it depends on how S1 stand: write `drawn`",
    )  # fmt: skip
    missing = agreed(PROVEN_RIGHT, [OPEN], missing="R1: add its ohms")
    assert missing.reason == "it depends on what is not stated: R1: add its ohms"
    assert agreed(OPEN, [REVERSED]) is OPEN
