"""Rules over a subject, to diagnostics."""

from collections.abc import Iterable

from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.engine.rule import Listed, Rule, Subject

__all__ = ["run", "told_by"]


def run(table: Iterable[Listed[Subject]], subject: Subject) -> tuple[Diagnostic, ...]:
    """Every finding of the rules in a table whose matter a subject has."""
    return told_by((listed.rule for listed in table if listed.where(subject)), subject)


def told_by(rules: Iterable[Rule[Subject]], subject: Subject) -> tuple[Diagnostic, ...]:
    """Every finding of every rule under the rule's name, in the report's order."""
    found = (
        Diagnostic(
            rule.name,
            finding.grade or rule.grade,
            finding.headline,
            finding.labels,
            why=finding.why,
            do=finding.do,
            touched=finding.touched,
            panel=finding.panel,
            mends=finding.mends,
            burns=rule.burns and (finding.grade or rule.grade) is Grade.STOP,
            about=rule.about,
        )
        for rule in rules
        for finding in rule.check(subject)
    )
    return tuple(sorted(found, key=lambda d: d.order))
