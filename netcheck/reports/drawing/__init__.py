"""The picture of a comparison: a sheet of findings, each a small graph of the places and the part concerned.

Nothing here runs a program: what a drawing engine has to lay out is handed to a function that the caller gives.
"""

from netcheck.reports.drawing.panel import panel_dot
from netcheck.reports.drawing.sheet import placed_panel, sheet
from netcheck.reports.drawing.svg import panel_svg, sheet_svg
from netcheck.reports.drawing.telling import told
from netcheck.reports.drawing.unplaced import unplaced_sheet

__all__ = ["panel_dot", "panel_svg", "placed_panel", "sheet", "sheet_svg", "told", "unplaced_sheet"]
