"""The pages of what keeps a netlist from being read, as they were read last."""

from pathlib import Path

from netcheck.api import why
from netcheck.engine.mistakes import PAGES
from netcheck.reports.manual_page import MOST, manual_page


def test_they_are_printed_as_they_were_read_last() -> None:
    """Pages stand below their names; after a change put ``netcheck why NAME`` there and read it."""
    last = (Path(__file__).parent / "pages" / "mistakes.txt").read_text(encoding="utf-8")
    assert "\n".join(f"== {name}\n{manual_page(why(name), MOST).rstrip()}\n" for name in PAGES) == last
