"""Rules over a subject, to diagnostics."""

from collections.abc import Iterable

from netcheck.core.diagnostic import Diagnostic
from netcheck.engine.rule import Rule, Subject

__all__ = ["run"]


def run(rules: Iterable[Rule[Subject]], subject: Subject) -> tuple[Diagnostic, ...]:
    """Every finding of every rule under the rule's name, in the report's order."""
    found = (
        Diagnostic(
            rule.name,
            finding.severity or rule.severity,
            finding.headline,
            finding.labels,
            finding.why,
            finding.do,
            finding.touched,
            finding.panel,
        )
        for rule in rules
        for finding in rule.check(subject)
    )
    return tuple(sorted(found, key=lambda d: d.order))
