"""The tables of a sheet as one file for a spreadsheet, to fill in and read back."""

import csv
import io

from netcheck.core.sheet import Sheet
from netcheck.reports.renderer import Style
from netcheck.reports.spreadsheet import cell

__all__ = ["sheet_csv"]


def sheet_csv(sheet: Sheet, _: Style) -> str:
    """All tables under one heading row: every column that one of them has, a table's ``key`` last.

    The cautions come first, as rows of a table of that name.
    """
    names = list(dict.fromkeys(column.name for table in sheet.tables if table.rows for column in table.columns))
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow([*names, "table"])
    for text in sheet.cautions:
        writer.writerow([cell(text), *[""] * (len(names) - 1), "caution"])
    for table in sheet.tables:
        for row in table.rows:
            said = dict(zip((column.name for column in table.columns), row.cells, strict=True))
            writer.writerow([*(cell(said.get(name, "")) for name in names), table.key])
    return out.getvalue()
