"""Writes what is drawn anew: ``python -m tests.pictures [FOLDER]``; with a folder, the pictures too, to look at."""

import sys
from pathlib import Path

from netcheck.core.panel import Panel
from netcheck.core.report import Report
from netcheck.reports.drawing import drawing_svg, drawn_panel, sheet_svg
from tests.pictures import FOLDER, made, pictures, sheets, titles

__all__ = ["main"]


def main() -> None:
    """The command."""
    names = [*titles()]
    for file, own in (
        ("panels.txt", [n for n in names if " in " in n]),
        ("sheets.txt", [n for n in names if " on " in n]),
    ):
        text = "".join(f"\n## {name}\n{made(name)}" for name in own)
        (FOLDER / file).write_text(text.lstrip("\n"), encoding="utf-8")
    for folder in map(Path, sys.argv[1:]):
        for name, panel, room in pictures():
            drawn = drawn_panel(panel, room)
            svg = drawing_svg(drawn.things, (drawn.width, drawn.height), Panel(), "p")
            (folder / f"{name}.svg").write_text(svg, encoding="utf-8")
        for name, pages in sheets():
            (folder / f"{name}.svg").write_text(sheet_svg(pages, Report("draw", name, (), ())), encoding="utf-8")


if __name__ == "__main__":
    main()
