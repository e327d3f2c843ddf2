"""Where a finding is, in the figures that documents for other programs have."""

from collections.abc import Iterator

from msgspec import Struct

from netcheck.core.diagnostic import Diagnostic
from netcheck.core.report import Report
from netcheck.core.source import Place
from netcheck.core.visible import visible

__all__ = ["Where", "cautioned", "where", "wheres"]


class Where(Struct, frozen=True):
    """A stretch of a file and what stands there; lines and columns begin at 1, ``to_column`` is the one after."""

    file: str
    line: int
    column: int
    to_line: int
    to_column: int
    text: str = ""

    def __str__(self) -> str:
        """The beginning as editors read it."""
        return f"{visible(self.file)}:{self.line}:{self.column}"


def where(place: Place, text: str = "") -> Where:
    """The figures of a place."""
    end = place.source.between(place.end, place.end)
    return Where(place.source.name, place.line, place.column, end.line, end.column, text)


def wheres(diagnostic: Diagnostic, report: Report) -> tuple[Where, ...]:
    """All places of a finding, the main one first; without any, the beginning of the last file."""
    found = tuple(where(label.place, label.text) for label in diagnostic.labels)
    return found or (_beginning(report),)


def cautioned(report: Report) -> Iterator[tuple[Where, str]]:
    """What is dangerous about each set, at the beginning of its last file; what is said of every set is left out."""
    for one in report.parts or (report,):
        for text in one.cautions[:-1]:
            yield _beginning(one), text


def _beginning(report: Report) -> Where:
    return Where(report.files[-1], 1, 1, 1, 1)
