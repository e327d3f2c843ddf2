"""For connections alone, swapping the two files turns missing into extra and extra into missing."""

from random import Random

import pytest

from netcheck.core.diagnostic import Diagnostic
from tests.paper import circuit
from tests.swapped import EXTRA, MISSING, STATES, Both, Swapped, both_ways, mirrored, swapped_trial

PARTS = """
resistor R1 470k
resistor R2 10k
resistor R3 47k
capacitor C1 .02 mfd 400 V
electrolytic C2 8 mfd 450 V
strip SP1 4 lugs foot 1
"""

AS_DRAWN = (
    "net grid: R1.1, C1.1, R2.1",
    "net plate: C1.2, R3.1",
    "net B+: R3.2, C2+",
    "net ground: chassis, R1.2, C2-, R2.2",
)

SINGLE = {
    "a lead hangs free": (
        ("net grid: R1.1, C1.1, R2.1", "net plate: C1.2, R3.1", "net B+: R3.2, C2+", "net ground: chassis, R1.2, R2.2"),
        "missing",
    ),
    "a net fell in two": (
        ("net grid: R1.1, C1.1", "at SP1.2: R2.1", "net plate: C1.2, R3.1", "net B+: R3.2, C2+", AS_DRAWN[3]),
        "missing",
    ),
    "a group floats": (
        (*AS_DRAWN[:3], "net ground: chassis, R1.2", "at SP1.3: C2-, R2.2"),
        "missing",
    ),
    "a wire too many": ((*AS_DRAWN, "wire C1.1 to C1.2 red"), "extra"),
    "B+ on a foot": ((*AS_DRAWN, "at SP1.1: R3.2"), "extra"),
}  # fmt: skip

BOTH_AT_ONCE = (
    "net grid: R1.1, C1.1, R2.1", "net plate: C1.2, R3.1", "wire C1.1 to R3.1 blue", "net B+: R3.2, C2+",
    "net ground: chassis, R1.2, R2.2",
)  # fmt: skip

MOVED = (*AS_DRAWN[:2], "net B+: C2+", "at SP1.1: R3.2", AS_DRAWN[3])


def _both(lines: tuple[str, ...]) -> Both:
    return both_ways(circuit(PARTS + "\n".join(AS_DRAWN) + "\n"), circuit(PARTS + "\n".join(lines) + "\n"))


@pytest.mark.parametrize(("lines", "word"), SINGLE.values(), ids=SINGLE)
def test_one_joint_reads_the_same_from_both_ends(lines: tuple[str, ...], word: str) -> None:
    trial = Swapped("on paper", "drawn", {"missing": MISSING, "extra": EXTRA}[word][0], "", _both(lines))
    assert trial.both.words == ([word], mirrored([word]))
    assert trial.holds


def test_two_joints_are_both_turned() -> None:
    both = _both(BOTH_AT_ONCE)
    assert both.words == (["extra", "missing"], ["extra", "missing"])
    assert both.sides[0] == both.sides[1]


def test_a_lead_on_the_wrong_net_is_so_from_both_ends() -> None:
    """Neither missing nor extra: nothing is turned, and the measure says that it does not hold."""
    trial = Swapped("on paper", "drawn", MISSING[0], "", _both(MOVED))
    assert trial.both.words == (["lead-on-wrong-net"], ["lead-on-wrong-net"])
    assert not trial.holds


def test_the_measure_can_fail() -> None:
    """The same finding in both ways, or another pair of groups, is no mirror."""
    both = _both(SINGLE["a wire too many"][0])
    kind = EXTRA[0]
    assert Swapped("", "", kind, "", both).holds
    unturned: tuple[Diagnostic, ...] = both.forward
    assert not Swapped("", "", kind, "", Both(unturned, unturned, both.sides)).holds
    assert not Swapped("", "", kind, "", Both(both.forward, both.backward, (both.sides[0], frozenset()))).holds
    assert not Swapped("", "", MISSING[0], "", both).holds


@pytest.mark.parametrize("kind", [*MISSING, *EXTRA])
def test_every_sample_reads_the_same_from_both_ends(kind: str) -> None:
    rng = Random(sum(map(ord, kind)))  # noqa: S311 - trials are repeated from a seed
    trials = [swapped_trial(sample, state, kind, rng) for sample, state in STATES]
    drawn = [trial for trial in trials if trial is not None]
    assert {trial.sample for trial in drawn} >= {"harrow-point", "skerry", "marram", "sallow-street"}
    assert [(t.sample, t.state, t.what, t.both.words) for t in drawn if not t.holds] == []
