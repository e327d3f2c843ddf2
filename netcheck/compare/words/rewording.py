"""What is made of a finding after its rule has worded it: all of that is here, and ``comparison`` says when it is done.

A rule knows its own fault. That a second one stands beside it, that the original has it too, or that the work goes on,
it can't know.
"""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from msgspec.structs import replace

from netcheck.compare.words.describe import listed
from netcheck.compare.words.orders import UNORDERED
from netcheck.compare.words.past import in_the_past
from netcheck.core.diagnostic import About, Diagnostic, Grade
from netcheck.core.mend import Mend
from netcheck.engine.headline import fitting

if TYPE_CHECKING:
    from netcheck.core.panel import Panel

__all__ = [
    "TO_DO", "as_designed", "because", "beside", "burning", "drawn", "in_both", "mended", "reordered", "still_found",
    "to_do", "unordered", "until_then", "waiting",
]  # fmt: skip

TO_DO = "still to do: "
_STILL = "still as found: "
_MENDED = "found and mended: "
_THEN = {"now": "as found"}


def because(diagnostic: Diagnostic, reason: str) -> Diagnostic:
    """A finding with one more reason."""
    return replace(diagnostic, why="; ".join(filter(None, (diagnostic.why, reason))))


def until_then(diagnostic: Diagnostic, consequence: Diagnostic) -> Diagnostic:
    """A finding with what comes of it as long as it is not mended."""
    return because(diagnostic, f"until then, {consequence.headline}")


def burning(diagnostic: Diagnostic) -> Diagnostic:
    """A finding that is told first; one that is no STOP burns nothing."""
    return replace(diagnostic, burns=diagnostic.grade is Grade.STOP)


def drawn(diagnostic: Diagnostic, panel: "Panel") -> Diagnostic:
    """A finding with its picture; what its rule knows of values stays."""
    known = diagnostic.panel.values if diagnostic.panel else ()
    return replace(diagnostic, panel=replace(panel, values=panel.values or known))


def waiting(diagnostic: Diagnostic, shared: Iterable[str]) -> Diagnostic:
    """A finding whose order would get in the way of an earlier one's at the ``shared`` points."""
    order = f"first mend what is told above of {listed(sorted(shared))}, then run it again"
    return replace(diagnostic, do=order, mends=(), panel=None)


def unordered(diagnostic: Diagnostic) -> Diagnostic:
    """A finding without an order: all together they would not put the chassis right."""
    return replace(diagnostic, do=UNORDERED, mends=(), panel=None)


def reordered(diagnostic: Diagnostic, order: str, mends: tuple[Mend, ...]) -> Diagnostic:
    """A finding by those of its mends that an earlier order is not in the way of."""
    return replace(diagnostic, do=order, mends=mends)


def as_designed(diagnostic: Diagnostic) -> Diagnostic:
    """A finding about the line that the original has as well, and as gravely."""
    why = "the original is the same: the set was made that way"
    return replace(diagnostic, grade=Grade.NOTE, burns=False, why=why)


def beside(diagnostic: Diagnostic, original: str) -> Diagnostic:
    """A finding with what the original has in that place, before its own reason."""
    return replace(diagnostic, why=f"{original}; {diagnostic.why}")


def in_both(diagnostic: Diagnostic) -> Diagnostic:
    """What the original has too; a rating that it does not keep is its design, and no STOP of the hands."""
    rating = About.RATING in diagnostic.about
    grade = diagnostic.grade
    if rating and grade is Grade.STOP:
        grade = Grade.LOOK
    elif About.LOAD in diagnostic.about:
        grade = Grade.NOTE
    same = "the original's part was rated too low too" if rating else "the original is the same"
    brief = diagnostic.headline.partition(": ")[0]
    headline = fitting(*(f"in the original too: {words}" for words in (diagnostic.headline, brief)))
    return replace(diagnostic, grade=grade, headline=headline, why=f"{diagnostic.why}; {same}")


def to_do(diagnostic: Diagnostic) -> Diagnostic:
    """A finding about what is not done yet."""
    return replace(diagnostic, grade=Grade.NOTE, burns=False, headline=fitting(TO_DO + diagnostic.headline))


def still_found(diagnostic: Diagnostic) -> Diagnostic:
    """A finding that was there when the chassis came in."""
    return replace(diagnostic, headline=fitting(_STILL + diagnostic.headline))


def mended(diagnostic: Diagnostic) -> Diagnostic:
    """A finding of the chassis as it came in that is no more: nothing to do."""
    headline = fitting(_MENDED + in_the_past(diagnostic.headline))
    labels = tuple(replace(label, text=_THEN.get(label.text, label.text)) for label in diagnostic.labels)
    none = replace(diagnostic, grade=Grade.NOTE, burns=False, do="", mends=(), panel=None)
    return replace(none, headline=headline, labels=labels)
