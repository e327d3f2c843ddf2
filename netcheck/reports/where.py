"""Where a finding is, in the figures that documents for other programs have."""

from dataclasses import dataclass

from netcheck.core.diagnostic import Diagnostic
from netcheck.core.report import Report
from netcheck.core.source import Place
from netcheck.core.visible import visible

__all__ = ["Where", "where", "wheres"]


@dataclass(frozen=True, slots=True)
class Where:
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
    end = Place(place.source, place.end, place.end)
    return Where(place.source.name, place.line, place.column, end.line, end.column, text)


def wheres(diagnostic: Diagnostic, report: Report) -> tuple[Where, ...]:
    """All places of a finding, the main one first; without any, the beginning of the last file."""
    found = tuple(where(label.place, label.text) for label in diagnostic.labels)
    return found or (Where(report.files[-1], 1, 1, 1, 1),)
