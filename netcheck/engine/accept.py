"""What a file accepts, taken out of the findings; an acceptance that no finding needs is told."""

from collections.abc import Iterable

from netcheck.core.circuit import Acceptance
from netcheck.core.diagnostic import Diagnostic, Grade, Label
from netcheck.core.report import Accepted

__all__ = ["apply_acceptances"]

NEVER_ACCEPTED = frozenset({"not-compared", "unused-intent"})


def apply_acceptances(
    diagnostics: Iterable[Diagnostic],
    acceptances: tuple[Acceptance, ...],
    held: Iterable[Diagnostic] = (),
    elsewhere: frozenset[str] = frozenset(),
) -> tuple[tuple[Diagnostic, ...], tuple[Accepted, ...]]:
    """Splits findings into those that stand and those accepted; each acceptance with no use becomes a finding.

    What is ``held`` back uses an acceptance too; one for a rule that also speaks ``elsewhere`` may be meant for that.
    """
    standing: list[Diagnostic] = []
    accepted: list[Accepted] = []
    used: set[int] = set()
    for diagnostic in diagnostics:
        hit = next((n for n, a in enumerate(acceptances) if _permits(a, diagnostic)), None)
        if hit is None:
            standing.append(diagnostic)
        else:
            used.add(hit)
            accepted.append(Accepted(diagnostic, acceptances[hit].reason))
    waiting = tuple(held)
    unused = [
        _unused(a)
        for n, a in enumerate(acceptances)
        if n not in used and a.rule not in elsewhere and not any(_permits(a, d) for d in waiting)
    ]
    return tuple(sorted((*standing, *unused), key=lambda d: d.order)), tuple(accepted)


def _permits(acceptance: Acceptance, diagnostic: Diagnostic) -> bool:
    if acceptance.rule != diagnostic.rule or diagnostic.rule in NEVER_ACCEPTED:
        return False
    touched = diagnostic.touched
    return any(s in touched.leads or s in touched.parts or s in touched.nets for s in acceptance.subjects)


def _unused(acceptance: Acceptance) -> Diagnostic:
    subjects = " or ".join(acceptance.subjects)
    return Diagnostic(
        "unused-intent",
        Grade.LOOK,
        f"this line accepts nothing: no {acceptance.rule} finding names {subjects}",
        (Label(acceptance.place),),
        do="take the line out, or name the rule and the part of a finding",
    )
