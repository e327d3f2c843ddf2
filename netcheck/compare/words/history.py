"""Findings in the light of when: still to do, still as found, found and mended."""

from collections.abc import Iterable

from msgspec.structs import replace

from netcheck.compare.words.rewording import mended, still_found, to_do
from netcheck.core.diagnostic import About, Diagnostic, Grade
from netcheck.core.report import Report

__all__ = ["still_to_do", "told_apart"]


def still_to_do(found: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """What is missing in a state marked unfinished is work ahead, not a mistake; what is wrong stays wrong."""
    told = (to_do(d) if About.NOT_DONE in d.about else d for d in found)
    return tuple(sorted(told, key=lambda d: d.order))


def told_apart(before: Report, overall: Report) -> Report:
    """One report of three states: the last one against the drawing, in the light of how the chassis was found.

    ``before`` compares the drawing with the chassis as found, ``overall`` with the chassis as it is now. What was
    found and is still so is said so, as gravely as ever; what was found and is no more is a NOTE, with nothing to do.
    """
    found = [d for d in before.diagnostics if d.grade is not Grade.NOTE]
    told = [still_found(d) if any(_same(d, old) for old in found) else d for d in overall.diagnostics]
    wrong = {name for d in overall.diagnostics for name in _subjects(d)}
    gone = [mended(d) for d in found if wrong.isdisjoint(_subjects(d))]
    return replace(overall, diagnostics=tuple(sorted((*told, *gone), key=lambda d: d.order)))


def _same(now: Diagnostic, then: Diagnostic) -> bool:
    """Whether two findings of two states are of one fault."""
    return now.rule == then.rule and not _subjects(now).isdisjoint(_subjects(then))


def _subjects(diagnostic: Diagnostic) -> frozenset[str]:
    """The leads that a finding is about; where it names none its parts, else its headline."""
    touched = diagnostic.touched
    return frozenset(touched.leads or touched.parts or (diagnostic.headline,))
