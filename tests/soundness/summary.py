"""The figures of a run, those of common supplies and of the classes together and apart."""

from tests.soundness.told import Told
from tests.soundness.truth import Tally
from tests.soundness.unsaid import Unsaid

__all__ = ["summary"]

UNTOLD = ("untold_reversal", "untold_at_first", "told_at_first")


def summary(claims: Tally, supplies: Told, classes: Told, unsaid: Unsaid) -> dict[str, float]:
    """What the long run promises: nothing violated, wrong, against its row or untold; nearly all decided."""
    every = (supplies, classes)
    whole = Told(errors=[error for each in every for error in each.errors])
    for name in ("supplies", "converged", "electrolytics", "decided", "wrong", "against_row", *UNTOLD):
        setattr(whole, name, sum(getattr(each, name) for each in every))
    return {
        **claims.summary(),
        "supplies": supplies.supplies,
        "class_supplies": classes.supplies,
        "wrong": whole.wrong,
        "against_row": whole.against_row,
        "untold_reversal": whole.untold_reversal + whole.untold_at_first,
        "told_at_first": whole.told_at_first,
        "reversed": supplies.reversed,
        "reversed_found": supplies.reversed_found,
        "decided": whole.share_decided,
        "supplies_decided": supplies.share_decided,
        "classes_decided": classes.share_decided,
        "converged": whole.share_converged,
        "netlists": unsaid.netlists,
        "unsaid_wrong": unsaid.wrong,
        "unsaid_invented": unsaid.invented,
        "unsaid_decided": unsaid.share_decided,
        **whole.figures(),
    }
