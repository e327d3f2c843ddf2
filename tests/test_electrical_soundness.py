"""A short run of proofs and verdicts against what runs; `python -m tests.soundness` is the long one."""

from tests.soundness.classes import CLASSES
from tests.soundness.summary import summary
from tests.soundness.told import of_classes, of_supplies
from tests.soundness.truth import tally
from tests.soundness.unsaid import of_netlists


def test_no_proven_claim_is_refuted_by_the_simulation() -> None:
    found = tally(claims=250, seed=20)
    assert found.violations == 0
    assert found.claims >= 250
    assert found.false_in_truth >= found.drawn / 10


def test_nothing_told_of_random_supplies_is_refuted_by_an_oracle_that_has_one_way_loads() -> None:
    claims, supplies, classes = tally(claims=1, seed=1), of_supplies(30, seed=20), of_classes(24, seed=4)
    found = summary(claims, supplies, classes, of_netlists(12, seed=1))
    assert (found["wrong"], found["against_row"], found["untold_reversal"]) == (0, 0, 0)
    assert (found["unsaid_wrong"], found["unsaid_invented"]) == (0, 0)
    assert found["unsaid_decided"] >= 0.9
    assert found["converged"] == 1.0
    assert found["decided"] >= 0.9
    assert found["figures_p99"] < 0.01
    assert found["reversed"] >= 0.1 * supplies.electrolytics
    assert found["reversed_found"] == supplies.reversed_decided > 0
    assert len(CLASSES) == 6
