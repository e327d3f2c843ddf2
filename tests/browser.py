"""The record in a headless browser: what is focused lights up its marks, and no name of a list runs as a script.

The sheets for hands are measured in it as well (`tests/browser_sheets.py`).

``python -m tests.browser`` needs Chromium on the PATH, which no package for development brings.
"""

import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from netcheck.reports.record import record_page
from tests.browser_sheets import measuring, pages
from tests.test_record import hostile
from tests.test_reports_formats import HARM, compared

NAMES = ("chromium", "chromium-browser", "google-chrome")
ACTS = ("<script>document.title='ran'</script>", '"><img src=x onerror="document.title=\'ran\'">', *HARM)


def dom(page: Path) -> str:
    """The page as the browser has it once its script has run; the title as well."""
    browser = next((found for name in NAMES if (found := shutil.which(name))), None)
    if browser is None:
        sys.exit(f"none of {', '.join(NAMES)} is on the PATH")
    argv = [browser, "--headless", "--no-sandbox", "--disable-gpu", "--virtual-time-budget=2000", "--dump-dom"]
    ran = subprocess.run([*argv, page.as_uri()], capture_output=True, text=True, check=True, timeout=120)
    return ran.stdout


def tied(folder: Path) -> bool:
    """Whether the first order, focused, lights up itself and its marks, by the page's own script."""
    from netcheck.core.record import Record
    from netcheck.core.sheet import Sheet

    sheet = Sheet("job", "t", "rewired", ("a",), ())
    text = record_page(Record(compared(), "rewired", (), sheet, sheet))
    page = folder / "tied.html"
    page.write_text(text.replace('<li tabindex="0"', '<li autofocus tabindex="0"', 1), encoding="utf-8")
    shown = dom(page)
    return 'class="lit"' in shown and shown.count('class="lit-mark"') >= 2


def quiet(folder: Path, text: str) -> bool:
    """Whether a name that means harm is shown and does nothing."""
    page = folder / "hostile.html"
    page.write_bytes(record_page(hostile(text)).encode("utf-8", "backslashreplace"))
    shown = dom(page)
    return "<title>ran" not in shown and shown.count("<script") == 1


def too_wide(folder: Path) -> list[str]:
    """What the browser says of sheets for hands that are wider than their page."""
    page = folder / "sheets.html"
    page.write_text(measuring(pages()), encoding="utf-8")
    found = re.search(r"<title>[1-9][0-9]* measured: (.*)</title>", dom(page))
    return ["the sheets were not measured"] if found is None else [found[1]] if found[1] else []


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as scratch:
        failed = [] if tied(Path(scratch)) else ["focus lights up nothing"]
        failed += [ascii(text) for text in ACTS if not quiet(Path(scratch), text)]
        failed += too_wide(Path(scratch))
    said = f"{len(ACTS)} names, one focus and the sheets for hands in the browser"
    sys.stdout.write(f"{said}: {len(failed)} failed {failed or ''}\n")
    sys.exit(bool(failed))
