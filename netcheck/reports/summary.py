"""The report as Markdown for the page of a job or of a change: the verdict first, then a table of findings.

Only the signs that act in Markdown are escaped. A call of a person or a task (`@`, `#`), an address and a dollar are
parted by an empty remark, since code hosts look for them after the signs are read.
"""

import re
from collections.abc import Mapping

from netcheck.core.diagnostic import Diagnostic
from netcheck.core.report import Report
from netcheck.core.visible import visible
from netcheck.reports.renderer import Style, counted
from netcheck.reports.where import wheres

__all__ = ["render"]

# Signs that Markdown acts on inside of a line. Where a page calls people and tasks, links addresses or draws little
# pictures by what stands after a sign, a remark that shows nothing parts the two.
_ACTS = re.compile(r"[\\`*_\[\]|~]|[<>&$]|[@#]|:(?=[^\s\d])|/(?=/)|\bwww(?=\.)", re.IGNORECASE)
_TAGS: Mapping[str, str] = {"<": "&lt;", ">": "&gt;", "&": "&amp;", "$": "<span>$</span>"}
_NOTHING = "<!-- -->"


def render(report: Report, _: Style) -> str:
    """Every word of the files is text in it: none is a link, a picture, a name called or a tag."""
    blocks = [f"<!-- written by netcheck -->\n## {_text(report.title or ', '.join(report.files))}"]
    blocks.append(f"**{_text(counted(report))}**")
    if report.diagnostics:
        rows = (_row(number, diagnostic, report) for number, diagnostic in report.numbered)
        blocks.append("\n".join(("| | | finding | do | where |", "| ---: | --- | --- | --- | --- |", *rows)))
    blocks.extend("\n".join(lines) for lines in (_accepted(report), _sets(report), _points(report)) if lines)
    return "\n\n".join(blocks) + "\n"


def _sets(report: Report) -> list[str]:
    """A line for each of several sets that has anything to tell; the others are counted."""
    named = [(part.title or ", ".join(part.files), part) for part in report.parts if part.diagnostics]
    told = [f"- {_text(name)}: {_text(counted(part))}" for name, part in named]
    clean = sum(1 for part in report.parts if not part.diagnostics)
    return [*told, f"- no findings in {clean} of {len(report.parts)}"] if clean else told


def _row(number: int, diagnostic: Diagnostic, report: Report) -> str:
    rule = f"{_text(diagnostic.headline)} <sub>{_text(diagnostic.rule)}</sub>"
    places = "<br>".join(_text(f"{at.file}:{at.line}") for at in wheres(diagnostic, report))
    return f"| {number} | **{diagnostic.grade.value}** | {rule} | {_text(diagnostic.do)} | {places} |"


def _accepted(report: Report) -> list[str]:
    found = sorted(report.accepted, key=lambda one: one.diagnostic.order)
    return [f"- accepted: {_text(one.diagnostic.headline)} ({_text(one.reason)})" for one in found]


def _points(report: Report) -> list[str]:
    """What was looked at and what was not; of several sets it is long, so it is folded away."""
    lines = [f"- {_text(line)}" for line in report.last_words]
    if not report.parts:
        return lines
    looked = [f"- {_text(line)}" for line in report.closing]
    folded = ["<details><summary>What was looked at, and what was not</summary>", "", *looked, "", "</details>", ""]
    return [*folded, *lines[len(looked) :]]


def _text(text: str) -> str:
    return _ACTS.sub(_harmless, " ".join(visible(text).split()))


def _harmless(found: re.Match[str]) -> str:
    sign = found.group()
    if sign in _TAGS:
        return _TAGS[sign]
    return sign + _NOTHING if sign in "@#:/" or len(sign) > 1 else f"\\{sign}"
