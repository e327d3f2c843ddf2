"""Report to text: one module per kind of file; a format knows no rule and no other format."""

from collections.abc import Callable, Mapping

from netcheck.core.sheet import Sheet
from netcheck.reports import (
    annotations,
    code_quality,
    findings_csv,
    json_document,
    junit,
    lines,
    sarif,
    sheet_csv,
    sheet_page,
    sheet_text,
    summary,
    terminal,
)  # fmt: skip
from netcheck.reports.renderer import Renderer, Style, counted, shown

__all__ = ["FORMATS", "PICTURES", "SCREENS", "SHEETS", "Renderer", "Style", "counted", "shown"]

FORMATS: Mapping[str, Renderer] = {
    ".txt": terminal.render,
    ".json": json_document.render,
    ".md": summary.render,
    ".csv": findings_csv.render,
    ".sarif": sarif.render,
    ".xml": junit.render,
    ".codequality.json": code_quality.render,
}
"""What a report can be written as, by the ending of the file; the longest ending that fits says it."""

SCREENS: Mapping[str, Renderer] = {"lines": lines.render, "github": annotations.render}
"""What only the screen shows: what editors jump from, and what the runner of a code host turns into annotations."""

PICTURES = (".svg", ".png", ".dot")
"""The endings of what ``drawing`` makes, which a drawing engine has a hand in."""

SHEETS: Mapping[str, Callable[[Sheet, Style], str]] = {
    ".txt": sheet_text.sheet_text,
    ".html": sheet_page.sheet_page,
    ".csv": sheet_csv.sheet_csv,
}
"""What a sheet for the bench can be written as, by the ending of the file."""
