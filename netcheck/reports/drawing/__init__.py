"""The picture of a comparison: a sheet of findings, each with the places and parts that its mend names.

Everything is placed here and written as SVG; the same sheet can be handed to a Graphviz engine as a graph whose
places are settled.
"""

from netcheck.reports.drawing.dot import sheet_dot
from netcheck.reports.drawing.panel import drawn_panel
from netcheck.reports.drawing.paper import A4, LETTER, NARROW, PAPERS, POSTER, Paper
from netcheck.reports.drawing.sentences import panel_told
from netcheck.reports.drawing.sheet import DrawnPages, sheet
from netcheck.reports.drawing.svg import drawing_svg, sheet_svg
from netcheck.reports.drawing.underside import underside
from netcheck.reports.drawing.whole import whole_sheet

__all__ = [
    "A4",
    "LETTER",
    "NARROW",
    "PAPERS",
    "POSTER",
    "DrawnPages",
    "Paper",
    "drawing_svg",
    "drawn_panel",
    "panel_told",
    "sheet",
    "sheet_dot",
    "sheet_svg",
    "underside",
    "whole_sheet",
]  # fmt: skip
