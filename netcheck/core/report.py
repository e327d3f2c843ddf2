"""What a report format receives."""

from msgspec import Struct

from netcheck.core.diagnostic import Diagnostic, Grade

__all__ = ["Accepted", "Report"]


class Accepted(Struct, frozen=True):
    """A finding that a declared acceptance covers, with the reason given."""

    diagnostic: Diagnostic
    reason: str


class Report(Struct, frozen=True):
    """The outcome of one command over named files.

    ``closing`` lines say what was looked at and what was not, and ``cautions``, which keep hands safe, come after them,
    the general one last; ``unchecked`` are those closing lines that say what was not looked at. ``built`` is False
    where the files could not be built, so that nothing was compared. ``title`` heads pictures and pages. A run that
    is ``strict`` fails from LOOK on, not from STOP. ``parts`` are the reports that several sets have each.
    """

    command: str
    title: str
    files: tuple[str, ...]
    diagnostics: tuple[Diagnostic, ...]
    accepted: tuple[Accepted, ...] = ()
    closing: tuple[str, ...] = ()
    built: bool = True
    unchecked: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    strict: bool = False
    parts: tuple["Report", ...] = ()

    @property
    def last_words(self) -> tuple[str, ...]:
        """What stands below the findings."""
        return (*self.closing, *self.cautions)

    @property
    def numbered(self) -> tuple[tuple[int, Diagnostic], ...]:
        """The findings in the order in which all are told, each with the number that it has everywhere."""
        return tuple(enumerate(sorted(self.diagnostics, key=lambda d: d.order), 1))

    def count(self, grade: Grade) -> int:
        """How many diagnostics of a grade there are."""
        return sum(1 for d in self.diagnostics if d.grade is grade)

    def fails(self, diagnostic: Diagnostic) -> bool:
        """Whether this finding makes the run fail."""
        return diagnostic.grade.rank <= self.strict
