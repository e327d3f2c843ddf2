"""What a file accepts, taken out of the findings; an acceptance that no finding needs is told."""

from collections.abc import Iterable, Iterator, Mapping

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
    first = _first_by_subject(acceptances)
    standing: list[Diagnostic] = []
    accepted: list[Accepted] = []
    used: set[int] = set()
    for diagnostic in diagnostics:
        hit = min((first[key] for key in _keys(diagnostic) if key in first), default=None)
        if hit is None:
            standing.append(diagnostic)
        else:
            used.add(hit)
            accepted.append(Accepted(diagnostic, acceptances[hit].reason))
    waiting = {key for diagnostic in held for key in _keys(diagnostic)}
    unused = [
        _unused(a)
        for n, a in enumerate(acceptances)
        if n not in used and a.rule not in elsewhere and waiting.isdisjoint((a.rule, s) for s in a.subjects)
    ]
    return tuple(sorted((*standing, *unused), key=lambda d: d.order)), tuple(accepted)


def _first_by_subject(acceptances: tuple[Acceptance, ...]) -> Mapping[tuple[str, str], int]:
    """The first acceptance for each rule and what it is accepted of."""
    found: dict[tuple[str, str], int] = {}
    for number, acceptance in enumerate(acceptances):
        for subject in acceptance.subjects:
            found.setdefault((acceptance.rule, subject), number)
    return found


def _keys(diagnostic: Diagnostic) -> Iterator[tuple[str, str]]:
    """Its rule with each thing that it names; none where the rule is never accepted."""
    touched = diagnostic.touched
    if diagnostic.rule not in NEVER_ACCEPTED:
        yield from ((diagnostic.rule, name) for name in (*touched.leads, *touched.parts, *touched.nets))


def _unused(acceptance: Acceptance) -> Diagnostic:
    subjects = " or ".join(acceptance.subjects)
    return Diagnostic(
        "unused-intent",
        Grade.LOOK,
        f"this line accepts nothing: no {acceptance.rule} finding names {subjects}",
        (Label(acceptance.place),),
        do="take the line out, or name the rule and the part of a finding",
    )
