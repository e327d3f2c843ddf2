"""The whole circuit with what is to be done in it: nets as cards, parts as boxes, laid out by a Graphviz engine."""

from netcheck.reports.drawing.whole.sheet import whole_sheet

__all__ = ["whole_sheet"]
