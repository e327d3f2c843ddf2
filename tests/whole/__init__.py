"""Whole reports: chassis with more than one thing wrong, and every word, place and picture that is told of them.

A rule's own cases hold what it says; these hold what findings make of each other: what is told first, what waits,
what is not told at all, and what the last lines say. A file bears the name of the rule that tells most of it, or of the
module that works it out.
"""

import re
from collections.abc import Iterator
from pathlib import Path

from netcheck.core.diagnostic import Diagnostic
from tests.paper import compared, line_of
from tests.test_rules import FENCE, drawn, seen

__all__ = ["FOLDER", "cases", "said"]

FOLDER = Path(__file__).parent


def cases() -> Iterator[tuple[str, str, str, str, str]]:
    """File, title, original, rewired and what is said; a case is a heading of the second rank."""
    for path in sorted(FOLDER.glob("*.md")):
        head, *sections = re.split(r"^## ", path.read_text(encoding="utf-8"), flags=re.MULTILINE)
        assert head.startswith("# "), path.name
        for section in sections:
            title, _, body = section.partition("\n")
            blocks = dict(FENCE.findall(body))
            yield path.stem, title, blocks["original"], blocks["rewired"], blocks["said"]


def said(original: str, rewired: str) -> str:
    """The findings in the order in which they are told, each with all it has, and the last lines."""
    report = compared(original, rewired)
    told = "".join(map(_told, report.diagnostics))
    last = "".join(f": {line}{' (unchecked)' * (line in report.unchecked)}\n" for line in report.closing)
    return told + last


def _told(diagnostic: Diagnostic) -> str:
    mends = "".join(f"mend: {'; '.join(act.line for act in mend)}\n" for mend in diagnostic.mends)
    burns = "burns\n" * diagnostic.burns
    picture = drawn(diagnostic.panel) if diagnostic.panel is not None else ""
    rest = f"do: {diagnostic.do}\n{mends}{burns}{seen(diagnostic)}{picture}"
    return f"{line_of(diagnostic)}\n" + "".join(f"    {line.rstrip()}\n" for line in rest.splitlines())
