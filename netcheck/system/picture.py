"""A sheet as a file's bytes: drawn here as SVG, by an engine as PNG, and marked as netcheck's own."""

from collections.abc import Sequence

from netcheck.core.report import Report
from netcheck.model.graph import CircuitGraph
from netcheck.model.places import PlaceListing
from netcheck.reports.drawing import PAPERS, DrawnPages, sheet, sheet_dot, sheet_svg, underside, whole_sheet
from netcheck.system.graphviz import find_engine
from netcheck.system.signature import sign

__all__ = ["place_picture", "sheet_picture", "whole_picture"]


def sheet_picture(report: Report, suffix: str, program: str | None, paper: str = "a4") -> bytes:
    """The sheet as ``.svg``, ``.png`` or ``.dot``; ``program`` is the drawing engine to use, else one is looked for.

    ``paper`` is ``a4``, ``letter`` or ``narrow``. Only a ``.png`` needs an engine.

    Raises:
        EnvironmentFault: if there is none where one is needed, or it fails.
    """
    return _bytes(sheet(report, PAPERS[paper]), report, suffix, program)


def place_picture(
    report: Report, listing: Sequence[PlaceListing], suffix: str, program: str | None, paper: str = "a4"
) -> bytes:
    """All places of one state from below, as `sheet_picture` has it."""
    return _bytes(underside(report, listing, PAPERS[paper]), report, suffix, program)


def whole_picture(
    report: Report, graph: CircuitGraph, suffix: str, program: str | None, paper: str = "poster"
) -> bytes:
    """The whole circuit with what is to be done in it, as `sheet_picture` has it; every kind needs an engine."""
    return _bytes(whole_sheet(report, graph, find_engine(program).layout, PAPERS[paper]), report, suffix, program)


def _bytes(made: DrawnPages, report: Report, suffix: str, program: str | None) -> bytes:
    if suffix == ".svg":
        return sign(sheet_svg(made, report).encode(), suffix)
    if suffix == ".dot":
        return sign(sheet_dot(made).encode(), suffix)
    return sign(find_engine(program).png(sheet_dot(made)), suffix)
