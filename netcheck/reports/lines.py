"""One line a finding, ``path:line:column: GRADE: message [rule]``, as editors' quickfix lists read it.

What is dangerous about the set comes last, so that an editor jumps to a finding first.
"""

from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.report import Report
from netcheck.reports.renderer import Style, shown
from netcheck.reports.where import cautioned

__all__ = ["render"]


def render(report: Report, style: Style) -> str:
    """The findings and the dangers of the set; nothing at all when there are none."""
    found = [_line(d, report) for _, d in report.numbered]
    dangers = [f"{at}: {Grade.NOTE.value}: {text} [caution]" for at, text in cautioned(report)]
    return "".join(shown(line, style) + "\n" for line in (*found, *dangers))


def _line(diagnostic: Diagnostic, report: Report) -> str:
    place = str(diagnostic.labels[0].place) if diagnostic.labels else f"{report.files[-1]}:1:1"
    return f"{place}: {diagnostic.grade.value}: {diagnostic.headline} [{diagnostic.rule}]"
