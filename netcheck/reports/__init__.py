"""Report to text: one module per kind of file; a format knows no rule and no other format."""

from collections.abc import Callable, Mapping
from importlib import import_module
from typing import TYPE_CHECKING

from netcheck.reports.renderer import Renderer, Style, counted, shown

if TYPE_CHECKING:
    from netcheck.core.report import Report
    from netcheck.core.sheet import Sheet

__all__ = ["FORMATS", "PICTURES", "SCREENS", "SHEETS", "Renderer", "Style", "counted", "shown"]


def _of_report(module: str) -> Renderer:
    """The ``render`` of a module, which is imported only for a run that asks for its kind of file."""

    def render(report: "Report", style: Style) -> str:
        text: str = import_module(f"netcheck.reports.{module}").render(report, style)
        return text

    return render


def _of_sheet(module: str) -> Callable[["Sheet", Style], str]:
    """The function of a module that has its name, imported like that of a report."""

    def drawn_up(sheet: "Sheet", style: Style) -> str:
        text: str = getattr(import_module(f"netcheck.reports.{module}"), module)(sheet, style)
        return text

    return drawn_up


FORMATS: Mapping[str, Renderer] = {
    ".txt": _of_report("terminal"),
    ".json": _of_report("json_document"),
    ".md": _of_report("summary"),
    ".csv": _of_report("findings_csv"),
    ".sarif": _of_report("sarif"),
    ".xml": _of_report("junit"),
    ".codequality.json": _of_report("code_quality"),
}
"""What a report can be written as, by the ending of the file; the longest ending that fits says it."""

SCREENS: Mapping[str, Renderer] = {"lines": _of_report("lines"), "github": _of_report("annotations")}
"""What only the screen shows: what editors jump from, and what the runner of a code host turns into annotations."""

PICTURES = (".svg", ".png", ".dot")
"""The endings of what ``drawing`` makes, which a drawing engine has a hand in."""

SHEETS: Mapping[str, Callable[["Sheet", Style], str]] = {
    ".txt": _of_sheet("sheet_text"),
    ".html": _of_sheet("sheet_page"),
    ".csv": _of_sheet("sheet_csv"),
}
"""What a sheet for the bench can be written as, by the ending of the file."""
