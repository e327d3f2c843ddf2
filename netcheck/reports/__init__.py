"""Report to text: one module per format; a format knows no rule and no other format."""

from collections.abc import Mapping

from netcheck.reports import concise, json_document, terminal
from netcheck.reports.renderer import Renderer, Style, counted, shown

__all__ = ["FORMATS", "Renderer", "Style", "counted", "shown"]

FORMATS: Mapping[str, Renderer] = {
    "full": terminal.render,
    "concise": concise.render,
    "json": json_document.render,
}
