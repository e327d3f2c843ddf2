"""What a report format receives."""

from dataclasses import dataclass

from netcheck.core.diagnostic import Diagnostic, Severity

__all__ = ["Allowed", "Report"]


@dataclass(frozen=True, slots=True)
class Allowed:
    """A finding that a declared allowance covers, with the reason given."""

    diagnostic: Diagnostic
    reason: str


@dataclass(frozen=True, slots=True)
class Report:
    """The outcome of one command over named files.

    ``closing`` lines say what was looked at and what was not, then the caution; ``built`` is False where the
    files could not be built, so that nothing was compared. ``title`` heads pictures and pages.
    """

    command: str
    title: str
    files: tuple[str, ...]
    diagnostics: tuple[Diagnostic, ...]
    allowed: tuple[Allowed, ...] = ()
    closing: tuple[str, ...] = ()
    built: bool = True

    def count(self, severity: Severity) -> int:
        """How many diagnostics of a severity there are."""
        return sum(1 for d in self.diagnostics if d.severity is severity)
