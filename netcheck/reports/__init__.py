"""Report to text: one module per format; a format knows no rule and no other format."""

from collections.abc import Callable, Mapping

from netcheck.core.sheet import Sheet
from netcheck.reports import concise, json_document, sheet_csv, sheet_page, sheet_text, terminal
from netcheck.reports.renderer import Renderer, Style, counted, shown

__all__ = ["FORMATS", "SHEETS", "Renderer", "Style", "counted", "shown"]

FORMATS: Mapping[str, Renderer] = {
    "full": terminal.render,
    "concise": concise.render,
    "json": json_document.render,
}

# By the ending of the file that a sheet is written to.
SHEETS: Mapping[str, Callable[[Sheet, Style], str]] = {
    ".txt": sheet_text.sheet_text,
    ".html": sheet_page.sheet_page,
    ".csv": sheet_csv.sheet_csv,
}
