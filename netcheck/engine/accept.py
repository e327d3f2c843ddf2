"""What a file accepts, taken out of the findings; an acceptance that no finding needs is told."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence

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
    by_subject = _by_subject(acceptances)
    standing: list[Diagnostic] = []
    accepted: list[Accepted] = []
    used: set[int] = set()
    for diagnostic in diagnostics:
        hits = sorted({number for key in _keys(diagnostic) for number in by_subject.get(key, ())})
        if not hits:
            standing.append(diagnostic)
        else:
            used.update(_first_of_each_file(hits, acceptances))
            accepted.append(Accepted(diagnostic, acceptances[hits[0]].reason))
    waiting = {key for diagnostic in held for key in _keys(diagnostic)}
    unused = [
        _unused(a)
        for n, a in enumerate(acceptances)
        if n not in used and a.rule not in elsewhere and waiting.isdisjoint((a.rule, s) for s in a.subjects)
    ]
    return tuple(sorted((*standing, *unused), key=lambda d: d.order)), tuple(accepted)


def _by_subject(acceptances: tuple[Acceptance, ...]) -> Mapping[tuple[str, str], Sequence[int]]:
    """The acceptances for each rule and what it is accepted of."""
    found: defaultdict[tuple[str, str], list[int]] = defaultdict(list)
    for number, acceptance in enumerate(acceptances):
        for subject in acceptance.subjects:
            found[acceptance.rule, subject].append(number)
    return found


def _first_of_each_file(hits: Iterable[int], acceptances: tuple[Acceptance, ...]) -> Iterable[int]:
    """A work log says again what its drawing accepts: a comparison wants that of the log, `check` of the drawing."""
    found: dict[str, int] = {}
    for number in hits:
        found.setdefault(acceptances[number].place.source.name, number)
    return found.values()


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
