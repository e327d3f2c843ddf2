"""Findings in the light of when: still to do, before the work, by the work."""

from collections.abc import Iterable
from dataclasses import replace

from netcheck.compare.words.describe import fitting
from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.report import Report

__all__ = ["TO_DO", "still_to_do", "told_apart"]

TO_DO = "still to do: "
_BEFORE = "before the work: "
_RESTORED = "back as drawn: "

_MISSING = frozenset(
    {"missing-connection", "floating-ground", "part-missing", "loose-lead", "unused-part", "lonely-net"}
)
_MILDER = {Grade.STOP: Grade.LOOK, Grade.LOOK: Grade.NOTE, Grade.NOTE: Grade.NOTE}


def still_to_do(found: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """What is missing in a state marked unfinished is work ahead, not a mistake; what is wrong stays wrong."""
    told = (
        replace(d, grade=Grade.NOTE, headline=fitting(TO_DO + d.headline)) if d.rule in _MISSING else d for d in found
    )
    return tuple(sorted(told, key=lambda d: d.order))


def told_apart(before: Report, now: Report, overall: Report, computed: Iterable[Diagnostic] = ()) -> Report:
    """One report of three states.

    What was changed before the work is one step milder: it is the chassis as it came, to be known or mended. What
    the work changed back to the drawing is a NOTE. Everything else of the work stands as it is, and so does what is
    ``computed`` of the last state, whatever made it so.
    """
    remaining = {name for d in overall.diagnostics for name in (*d.touched.leads, *d.touched.parts)}
    # What the set was made with, and still has, is noted of the work alone.
    noted = {(d.rule, d.headline) for d in now.diagnostics if d.grade is Grade.NOTE}
    earlier = [d for d in before.diagnostics if d.rule != "not-compared" and (d.rule, d.headline) not in noted]
    told = [_as(d, _BEFORE, _MILDER[d.grade]) for d in earlier]
    standing = frozenset(computed)
    for diagnostic in now.diagnostics:
        if diagnostic in standing:
            told.append(diagnostic)
            continue
        touched = (*diagnostic.touched.leads, *diagnostic.touched.parts)
        restored = bool(touched) and remaining.isdisjoint(touched)
        if restored and diagnostic.rule == "unused-intent":
            continue  # it replaces what the drawing has and the chassis, as found, had lost
        told.append(_as(diagnostic, _RESTORED, Grade.NOTE) if restored else diagnostic)
    return replace(
        now,
        diagnostics=tuple(sorted(told, key=lambda d: d.order)),
        accepted=(*before.accepted, *now.accepted),
    )


def _as(diagnostic: Diagnostic, words: str, grade: Grade) -> Diagnostic:
    return replace(diagnostic, grade=grade, headline=fitting(words + diagnostic.headline))
