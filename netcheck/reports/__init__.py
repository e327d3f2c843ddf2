"""Report to text: one module per kind of file; a format knows no rule and no other format."""

from collections.abc import Callable, Mapping

from netcheck.core.sheet import Sheet
from netcheck.reports import json_document, lines, sheet_csv, sheet_page, sheet_text, terminal
from netcheck.reports.renderer import Renderer, Style, counted, shown

__all__ = ["FORMATS", "LINES", "PICTURES", "SHEETS", "Renderer", "Style", "counted", "shown"]

FORMATS: Mapping[str, Renderer] = {
    ".txt": terminal.render,
    ".json": json_document.render,
}
"""What a report can be written as, by the ending of the file."""

LINES: Renderer = lines.render
"""What editors jump from; for the screen only."""

PICTURES = (".svg", ".png", ".dot")
"""The endings of what ``drawing`` makes, which a drawing engine has a hand in."""

SHEETS: Mapping[str, Callable[[Sheet, Style], str]] = {
    ".txt": sheet_text.sheet_text,
    ".html": sheet_page.sheet_page,
    ".csv": sheet_csv.sheet_csv,
}
"""What a sheet for the bench can be written as, by the ending of the file."""
