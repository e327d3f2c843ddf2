"""Every sheet for hands of the samples in a headless browser: at no width is anything wider than its page.

A browser that prints a page wider than the paper makes all of it smaller, and nine points are nine no more.
"""

from collections.abc import Iterable, Iterator
from html import escape
from pathlib import Path

from netcheck import sheets
from netcheck.core.sheet import Sheet
from netcheck.core.source import Source
from netcheck.reports import SHEETS
from netcheck.reports.renderer import Style
from netcheck.system.files import read, reader

__all__ = ["measuring", "pages"]

SAMPLES = Path(__file__).parents[1] / "samples"
# Pixels: a narrow screen, A4 and Letter less the margins at the edges (12 mm each, 96 pixels to the inch), a wide one.
WIDTHS = (360, round((210 - 24) / 25.4 * 96), round((216 - 24) / 25.4 * 96), 1200)
_MEASURES = """<script>
addEventListener("load", () => {
  const wide = [...document.querySelectorAll("iframe")]
    .map((one) => [one.title, one.contentDocument.documentElement.scrollWidth, one.width])
    .filter(([, needs, has]) => needs > has).map(([name, needs, has]) => `${name} at ${has} needs ${needs}`);
  document.title = `${document.querySelectorAll("iframe").length} measured: ${wide.join(", ")}`;
});
</script>"""


def pages() -> Iterator[tuple[str, str]]:
    """Each sheet of each sample by its name, as a page."""
    for folder in sorted(SAMPLES.iterdir()):
        for word, sheet in _sheets(folder):
            if sheet is not None:
                yield f"{folder.name}-{word}", SHEETS[".html"](sheet, Style())


def _sheets(folder: Path) -> Iterator[tuple[str, Sheet | None]]:
    first, last = (read(folder / f"{state}.netck") for state in ("original", "rewired"))
    files = reader(last)
    planned = sheets.bench(last, read=files)[1]
    yield "bench", planned
    if planned is not None:
        yield "explain", sheets.bench(last, read=files, readings=_everything_off(planned))[1]
    yield "job", sheets.job(first, last, read=files)[1]
    yield "buy", sheets.buy(last, read=files)[1]
    yield "blank", sheets.blank(last, read=files)[1]


def _everything_off(planned: Sheet) -> Source:
    """The sheet filled in with a meter that is broken: no beep, and a volt wherever volts are."""
    rows = [
        (row.cells[names.index("red")], row.cells[names.index("black")], table.key)
        for table in planned.tables
        for names in [[column.name for column in table.columns]]
        if "red" in names
        for row in table.rows[:3]
    ]
    lines = (
        f"{red.split()[0]},{black.split()[0]},{'1 V' if key == 'volts' else '33 k'},{key}" for red, black, key in rows
    )
    return Source("readings.csv", "\n".join(("red,black,reading,table", *lines)))


def measuring(page: Iterable[tuple[str, str]]) -> str:
    """One page with every sheet in a frame of every width; its title tells which are too narrow for their sheets."""
    frames = (
        f'<iframe title="{name}" width="{width}" height="400" srcdoc="{escape(text)}"></iframe>\n'
        for name, text in page
        for width in WIDTHS
    )
    return f"<!DOCTYPE html><title></title>{_MEASURES}\n<style>iframe {{ border: 0 }}</style>\n{''.join(frames)}"
