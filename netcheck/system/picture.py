"""The sheet of findings as a file's bytes: laid out, drawn by an engine, and marked as netcheck's own."""

from netcheck.core.errors import EnvironmentFault
from netcheck.core.report import Report
from netcheck.reports.drawing import sheet, sheet_svg, unplaced_sheet
from netcheck.system.graphviz import find_engine
from netcheck.system.signature import sign

__all__ = ["sheet_picture"]


def sheet_picture(report: Report, suffix: str, program: str | None) -> bytes:
    """The sheet as ``.svg``, ``.png`` or ``.dot``; ``program`` is the drawing engine to use, else one is looked for.

    A ``.dot`` needs no engine: without one, its pictures are left for the reader's engine to place.

    Raises:
        EnvironmentFault: if there is no engine, or it fails.
    """
    if suffix == ".dot":
        return sign(_dot(report, program).encode(), suffix)
    engine = find_engine(program)
    dot = sheet(report, engine.layout)
    return sign(engine.png(dot) if suffix == ".png" else sheet_svg(engine.svg(dot), report).encode(), suffix)


def _dot(report: Report, program: str | None) -> str:
    try:
        engine = find_engine(program)
    except EnvironmentFault:
        if program:
            raise
        return unplaced_sheet(report)
    return sheet(report, engine.layout)
