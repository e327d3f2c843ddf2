"""Allowances applied to diagnostics; those that permit nothing are told."""

from collections.abc import Iterable

from netcheck.core.circuit import Allowance
from netcheck.core.diagnostic import Diagnostic, Label, Severity
from netcheck.core.report import Allowed

__all__ = ["apply_allowances"]

NEVER_ALLOWED = frozenset({"not-compared", "unused-intent"})


def apply_allowances(
    diagnostics: Iterable[Diagnostic],
    allowances: tuple[Allowance, ...],
    held: Iterable[Diagnostic] = (),
    elsewhere: frozenset[str] = frozenset(),
) -> tuple[tuple[Diagnostic, ...], tuple[Allowed, ...]]:
    """Splits findings into those that stand and those permitted; each allowance with no use becomes a finding.

    What is ``held`` back uses an allowance too; one for a rule that also speaks ``elsewhere`` may be meant for that.
    """
    standing: list[Diagnostic] = []
    allowed: list[Allowed] = []
    used: set[int] = set()
    for diagnostic in diagnostics:
        hit = next((n for n, a in enumerate(allowances) if _permits(a, diagnostic)), None)
        if hit is None:
            standing.append(diagnostic)
        else:
            used.add(hit)
            allowed.append(Allowed(diagnostic, allowances[hit].reason))
    waiting = tuple(held)
    unused = [
        _unused(a)
        for n, a in enumerate(allowances)
        if n not in used and a.rule not in elsewhere and not any(_permits(a, d) for d in waiting)
    ]
    return tuple(sorted((*standing, *unused), key=lambda d: d.order)), tuple(allowed)


def _permits(allowance: Allowance, diagnostic: Diagnostic) -> bool:
    if allowance.rule != diagnostic.rule or diagnostic.rule in NEVER_ALLOWED:
        return False
    touched = diagnostic.touched
    return any(s in touched.leads or s in touched.parts or s in touched.nets for s in allowance.subjects)


def _unused(allowance: Allowance) -> Diagnostic:
    subjects = ", ".join(f"`{s}`" for s in allowance.subjects)
    return Diagnostic(
        "unused-intent",
        Severity.WARNING,
        f"nothing of the kind {allowance.rule} is found on {subjects}, so nothing is allowed",
        (Label(allowance.place),),
        do="take the line away, or name the rule and the subject of the finding",
    )
