"""A short run of the static engine against the steady-state engine; `python -m tests.soundness` is the long one."""

from tests.soundness.classes import CLASSES
from tests.soundness.told import told
from tests.soundness.truth import Tally, tally


def test_no_proven_claim_and_no_verdict_is_refuted_by_the_simulation() -> None:
    found = tally(claims=250, supplies=60, seed=20)
    assert (found.violations, found.wrong) == (0, 0)
    assert found.claims >= 250
    assert found.false_in_truth >= found.drawn / 10
    assert found.converged == found.supplies == 60
    # Every tripler's load hangs on alternating current; computed verdicts are the classes' affair.
    assert found.decided >= 0.85 * found.electrolytics
    assert found.reversed >= 0.1 * found.electrolytics
    assert found.reversed_found == found.reversed_decided > 0


def test_the_summary_has_what_the_long_run_promises() -> None:
    assert list(Tally().summary()) == [
        "claims", "violations", "false_in_truth", "supplies", "wrong", "reversed", "reversed_found", "decided",
        "converged",
    ]  # fmt: skip


def test_the_classes_that_once_were_told_wrongly_agree_with_an_oracle_that_has_one_way_loads() -> None:
    found = told(supplies=24, seed=4).summary()
    assert found["class_converged"] == 1.0
    assert (found["class_wrong"], found["against_row"], found["untold_reversal"]) == (0, 0, 0)
    assert found["class_decided"] >= 0.85
    assert found["figures_p99"] < 0.01
    assert len(CLASSES) == 6
