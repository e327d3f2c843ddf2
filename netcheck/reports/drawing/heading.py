"""The words above and below a sheet's pictures: its title, the count, the cautions, what is not drawn."""

from dataclasses import dataclass

from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.panel import Panel
from netcheck.core.report import Report
from netcheck.reports.drawing.lettering import spoken
from netcheck.reports.renderer import counted

__all__ = ["MOST_PANELS", "Heading", "heading", "numbered", "rest"]

MOST_PANELS = 24
MOST_HEADLINES = 12
MARKS_SAID = "Dashed: make this joint. Double or thick line: undo this one."
CAUTION = "Before touching anything: unplug the set, discharge every filter capacitor, measure."


@dataclass(frozen=True, slots=True)
class Heading:
    """The title and the lines under it."""

    title: str
    lines: tuple[str, ...]


def numbered(report: Report) -> tuple[tuple[tuple[int, Diagnostic, Panel], ...], int]:
    """The findings to draw with their numbers in the report, and how many more have a picture."""
    drawn = [(i, d, d.panel) for i, d in report.numbered if d.panel is not None]
    return tuple(drawn[:MOST_PANELS]), max(0, len(drawn) - MOST_PANELS)


def heading(report: Report, *, drawn: bool) -> Heading:
    """The words above the pictures; without one, the outcome and what was not compared."""
    count = f"{counted(report)}."
    if drawn:
        return Heading(report.title, (f"{count} {MARKS_SAID}", CAUTION))
    headlines = [f"{i}: {spoken(d.headline, d.touched.nets)}" for i, d in report.numbered]
    if len(headlines) > MOST_HEADLINES:
        headlines = [*headlines[:MOST_HEADLINES], f"and {len(headlines) - MOST_HEADLINES} more"]
    grave = report.count(Grade.STOP) + report.count(Grade.LOOK)
    outcome = ["No difference"] if report.built and not grave else []
    said = [] if outcome and not report.diagnostics else [spoken(count)]
    return Heading(report.title, (*outcome, *said, *headlines, *report.closing))


def rest(report: Report, more: int) -> tuple[str, ...]:
    """What stands below the pictures: how many there are no room for, and which findings have none."""
    shown, _ = numbered(report)
    plain = [str(i) for i, d in report.numbered if d.panel is None]
    lines = []
    if more:
        lines.append(f"and {more} more finding{'' if more == 1 else 's'}, drawn in the report")
    if plain and shown:
        lines.append(f"Without a picture, told in the report: {', '.join(plain)}.")
    return tuple(lines)
