"""A sheet for the bench as a page to print, black on white, A4 or Letter, nothing below 9 points."""

import re
from collections.abc import Iterator
from html import escape
from itertools import pairwise

from netcheck.core.sheet import Column, Row, Sheet, Table
from netcheck.core.visible import visible
from netcheck.reports.renderer import Style

__all__ = ["sheet_page"]

_NAMED = re.compile("`([^`]*)`")
_SHORT = 10  # rows that are not parted over two pages
_STYLE = """
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 0 2mm; max-width: 190mm; color: #000; background: #fff;
  font: 10.5pt/1.35 Arial, Helvetica, sans-serif; }
h1 { font-size: 15pt; margin: 0 0 1mm; }
h2 { font-size: 12pt; margin: 6mm 0 1mm; break-after: avoid; }
p { margin: 0 0 1mm; }
.head { display: flex; flex-wrap: wrap; justify-content: space-between; gap: 2mm 5mm;
  border-bottom: 1.5pt solid #000; padding: 2mm 0; }
.head > div { min-width: 0; max-width: 100%; overflow-wrap: anywhere; }
.head > .line { align-self: end; font-size: 10pt; flex: 1; display: flex; gap: 3mm; min-width: 80mm; }
.line span { flex: 1; border-bottom: .75pt solid #000; min-width: 12mm; }
.caution { border: 1.5pt solid #000; padding: 2mm; margin: 3mm 0; }
.caution p { font-weight: bold; }
.before { margin: 2mm 0; }
table { border-collapse: collapse; width: 100%; }
thead { display: table-header-group; }
tr, .whole { break-inside: avoid; }
th { text-align: left; font-size: 9pt; font-weight: bold; border-bottom: 1pt solid #000; padding: .6mm 1.5mm .6mm 0; }
td { vertical-align: top; border-bottom: .5pt solid #999; padding: .7mm 1.5mm .7mm .5mm; overflow-wrap: anywhere; }
.tight { white-space: nowrap; }
.box { width: 6mm; }
.box span { display: block; width: 3.6mm; height: 3.6mm; border: 1pt solid #000; margin-top: .4mm; }
.blank { min-width: 22mm; width: 22mm; border-bottom: 1pt solid #000; }
.blank + td { padding-left: 3mm; }
.write { min-width: 60%; width: 75%; border-bottom: 1pt solid #000; height: 8mm; }
.lead td { font-weight: bold; border-bottom: 0; padding-top: 2.5mm; break-after: avoid; }
.name { font-size: 9pt; overflow-wrap: anywhere; }
@media screen and (max-width: 600px) {
  body { padding: 0 3mm 8mm; }
  .head > .line { min-width: 100%; }
  thead { display: none; }
  table, tbody, tr, td { display: block; }
  tr { position: relative; border-bottom: .75pt solid #000; padding: 1.5mm 0; }
  tr.boxed { padding-left: 8mm; }
  tr.lead { border-bottom: 0; padding: 3mm 0 0; }
  td { border: 0; padding: 0; }
  td:empty { display: none; }
  td.box { position: absolute; left: 0; top: 1.8mm; }
  td[data-name]::before { content: attr(data-name) ": "; font-size: 9pt; }
  .tight { display: inline-block; white-space: normal; margin-right: 4mm; }
  .blank, .blank:empty { display: inline-block; width: 45mm; padding-top: 1.5mm; border-bottom: .75pt dashed #000; }
  .blank + td { padding-left: 0; }
  .write, .write:empty { display: block; width: 100%; height: 12mm; border: 0; }
}
"""


def sheet_page(sheet: Sheet, _: Style) -> str:
    """The whole page in one file: no script, nothing fetched, every word of the user's escaped."""
    title = _text(f"{sheet.title} ({sheet.state})" if sheet.state else sheet.title)
    return "".join(
        (
            '<!DOCTYPE html>\n<!-- drawn by netcheck -->\n<html lang="en">\n<head>\n<meta charset="utf-8">\n',
            "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n",
            '<meta name="viewport" content="width=device-width, initial-scale=1">\n',
            f"<title>{title}: {_text(sheet.command)}</title>\n<style>{_page(sheet)}{_STYLE}</style>\n</head>\n<body>\n",
            f'<div class="head"><div><h1>{title}</h1>',
            f'<p class="name">netcheck {_text(sheet.command)}: {_text(", ".join(sheet.files))}</p></div>',
            '<div class="line">date <span></span> by <span></span></div></div>\n',
            _paragraphs("caution", sheet.cautions),
            _paragraphs("before", sheet.before),
            *(_table(table) for table in sheet.tables),
            _paragraphs("before", sheet.closing),
            "</body>\n</html>\n",
        )
    )


def _page(sheet: Sheet) -> str:
    """The set, its state and the page's number at the edge of every printed page; A4 and Letter alike."""
    state = f" ({sheet.state})" if sheet.state else ""
    name = _running(f"{sheet.title}{state}: {sheet.command}")
    return (
        "@page { margin: 16mm 12mm 14mm; "
        f'@top-left {{ content: "{name}"; font: 9pt Arial, Helvetica, sans-serif; }} '
        '@top-right { content: "date ____________  page " counter(page) " of " counter(pages); '
        "font: 9pt Arial, Helvetica, sans-serif; } } "
        '@page :first { @top-right { content: "page " counter(page) " of " counter(pages); } }'
    )


def _paragraphs(name: str, texts: tuple[str, ...]) -> str:
    inner = "".join(f"<p>{_worded(text)}</p>" for text in texts)
    return f'<div class="{name}">{inner}</div>\n' if inner else ""


def _table(table: Table) -> str:
    head = f"<h2>{_text(table.heading)}</h2>\n{_paragraphs('before', table.before)}"
    if not table.rows:
        return head
    names = "".join(f"<th>{_text(column.name)}</th>" for column in table.columns)
    box = '<th class="box"></th>' if table.boxes else ""
    body = "".join(_body(rows, table) for rows in _together(table.rows))
    named = any(column.name for column in table.columns)
    columns = f"<thead><tr>{box}{names}</tr></thead>" if named else ""
    whole = ' class="whole"' if len(table.rows) <= _SHORT else ""
    return f"<section{whole}>{head}<table>{columns}{body}</table></section>\n"


def _together(rows: tuple[Row, ...]) -> Iterator[tuple[Row, ...]]:
    """The rows under each lead, and those before the first one."""
    starts = [at for at, row in enumerate(rows) if row.lead or at == 0]
    for start, end in pairwise((*starts, len(rows))):
        yield rows[start:end]


def _body(rows: tuple[Row, ...], table: Table) -> str:
    """What stands under one lead, a lug's joints: not parted over two pages, where the lug's name would be missing."""
    whole = ' class="whole"' if rows[0].lead and len(rows) <= _SHORT else ""
    return f"<tbody{whole}>\n{''.join(line for row in rows for line in _row(row, table))}</tbody>"


def _row(row: Row, table: Table) -> Iterator[str]:
    if row.lead:
        yield f'<tr class="lead"><td colspan="{len(table.columns) + table.boxes}">{_text(row.lead)}</td></tr>\n'
    box = '<td class="box"><span></span></td>' if table.boxes else ""
    boxed = ' class="boxed"' if table.boxes else ""
    cells = "".join(_cell(cell, column) for cell, column in zip(row.cells, table.columns, strict=True))
    yield f"<tr{boxed}>{box}{cells}</tr>\n"


def _cell(text: str, column: Column) -> str:
    """A cell that keeps its column's name, for a screen too narrow for columns."""
    name = f' data-name="{_text(column.name)}"' if column.name else ""
    return f'<td class="{_class(column)}"{name}>{_text(text)}</td>'


def _class(column: Column) -> str:
    if column.blank:
        return "write" if column.wide else "blank"
    return "" if column.wide else "tight"


def _running(text: str) -> str:
    """A text for the top of every printed page, as a style sheet's string: every sign by its number."""
    return "".join(f"\\{ord(sign):06x}" for sign in visible(text))


def _text(text: str) -> str:
    return escape(visible(text), quote=True)


def _worded(text: str) -> str:
    """A sentence; what the file calls something stands out."""
    return _NAMED.sub(r"<b>\1</b>", _text(text))
