"""Findings in the light of when: still to do, still as found, found and mended."""

from collections.abc import Iterable
from dataclasses import replace

from netcheck.compare.words.describe import fitting
from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.report import Report

__all__ = ["TO_DO", "still_to_do", "told_apart"]

TO_DO = "still to do: "
_STILL = "still as found: "
_MENDED = "found and mended: "
_THEN = {"now": "as found"}

_MISSING = frozenset(
    {"missing-connection", "floating-ground", "part-missing", "loose-lead", "unused-part", "lonely-net"}
)


def still_to_do(found: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """What is missing in a state marked unfinished is work ahead, not a mistake; what is wrong stays wrong."""
    told = (
        replace(d, grade=Grade.NOTE, headline=fitting(TO_DO + d.headline)) if d.rule in _MISSING else d for d in found
    )
    return tuple(sorted(told, key=lambda d: d.order))


def told_apart(before: Report, overall: Report) -> Report:
    """One report of three states: the last one against the drawing, in the light of how the chassis was found.

    ``before`` compares the drawing with the chassis as found, ``overall`` with the chassis as it is now. What was
    found and is still so is said so, as gravely as ever; what was found and is no more is a NOTE, with nothing to do.
    """
    found = [d for d in before.diagnostics if d.grade is not Grade.NOTE]
    told = [_still(d) if any(_same(d, old) for old in found) else d for d in overall.diagnostics]
    wrong = {name for d in overall.diagnostics for name in _subjects(d)}
    mended = [_mended(d) for d in found if wrong.isdisjoint(_subjects(d))]
    return replace(overall, diagnostics=tuple(sorted((*told, *mended), key=lambda d: d.order)))


def _same(now: Diagnostic, then: Diagnostic) -> bool:
    """Whether two findings of two states are of one fault."""
    return now.rule == then.rule and not _subjects(now).isdisjoint(_subjects(then))


def _subjects(diagnostic: Diagnostic) -> frozenset[str]:
    """The leads that a finding is about; where it names none its parts, else its headline."""
    touched = diagnostic.touched
    return frozenset(touched.leads or touched.parts or (diagnostic.headline,))


def _still(diagnostic: Diagnostic) -> Diagnostic:
    return replace(diagnostic, headline=fitting(_STILL + diagnostic.headline))


def _mended(diagnostic: Diagnostic) -> Diagnostic:
    headline = fitting(_MENDED + diagnostic.headline)
    labels = tuple(replace(label, text=_THEN.get(label.text, label.text)) for label in diagnostic.labels)
    return replace(diagnostic, grade=Grade.NOTE, headline=headline, labels=labels, do="", mends=(), panel=None)
