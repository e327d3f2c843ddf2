"""The findings as a table for a spreadsheet, a row each: cautions without a number first, what is accepted last."""

import csv
import io
from collections.abc import Iterator

from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.mend import lines
from netcheck.core.report import Report
from netcheck.reports.keys import keyed
from netcheck.reports.renderer import Style
from netcheck.reports.spreadsheet import cell
from netcheck.reports.where import wheres

__all__ = ["HEADING", "render"]

HEADING = (
    "number", "grade", "rule", "headline", "why", "do", "mend", "file", "line", "column", "other places", "parts",
    "leads", "nets", "key", "accepted because",
)  # fmt: skip
"""The first row, by which netcheck knows a table of its own."""


def render(report: Report, _: Style) -> str:
    """Names in one cell are parted by blanks, lines of a mend and places by semicolons."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(HEADING)
    writer.writerows(_rows(report))
    return out.getvalue()


def _rows(report: Report) -> Iterator[tuple[str, ...]]:
    for text in report.cautions:
        yield ("", Grade.NOTE.value, "caution", cell(text), *[""] * (len(HEADING) - 4))
    for number, (key, diagnostic) in enumerate(keyed(d for _, d in report.numbered), 1):
        yield (str(number), *_cells(diagnostic, report), key, "")
    reasons = {id(one.diagnostic): one.reason for one in report.accepted}
    accepted = sorted((one.diagnostic for one in report.accepted), key=lambda d: d.order)
    for key, diagnostic in keyed(accepted):
        yield ("", *_cells(diagnostic, report), key, cell(reasons[id(diagnostic)]))


def _cells(diagnostic: Diagnostic, report: Report) -> tuple[str, ...]:
    main, *others = wheres(diagnostic, report)
    touched = diagnostic.touched
    texts = (
        diagnostic.grade.value,
        diagnostic.rule,
        diagnostic.headline,
        diagnostic.why,
        diagnostic.do,
        "; ".join(lines(diagnostic.mends[0])) if diagnostic.mends else "",
        main.file,
        str(main.line),
        str(main.column),
        "; ".join(map(str, others)),
        " ".join(touched.parts),
        " ".join(touched.leads),
        " ".join(touched.nets),
    )
    return tuple(map(cell, texts))
