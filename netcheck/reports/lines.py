"""One line a finding, ``path:line:column: GRADE: message [rule]``, as editors' quickfix lists read it."""

from netcheck.core.diagnostic import Diagnostic
from netcheck.core.report import Report
from netcheck.reports.renderer import Style, shown

__all__ = ["render"]


def render(report: Report, style: Style) -> str:
    """The findings alone; nothing at all when there are none."""
    return "".join(shown(_line(d, report), style) + "\n" for _, d in report.numbered)


def _line(diagnostic: Diagnostic, report: Report) -> str:
    place = str(diagnostic.labels[0].place) if diagnostic.labels else f"{report.files[-1]}:1:1"
    return f"{place}: {diagnostic.grade.value}: {diagnostic.headline} [{diagnostic.rule}]"
