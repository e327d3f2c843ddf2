"""The report as one JSON document, for programs; ``version`` grows when a key changes its meaning or goes."""

from collections.abc import Iterable, Iterator, Mapping

from msgspec.structs import asdict

from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.mend import lines
from netcheck.core.report import Accepted, Report
from netcheck.core.visible import visible
from netcheck.reports.keys import keyed
from netcheck.reports.renderer import Style
from netcheck.reports.where import where

__all__ = ["render"]


def render(report: Report, style: Style) -> str:
    """The document with a final newline; the same report gives the same bytes.

    Findings stand in their total order, with the numbers that they have everywhere. ``places`` holds the main place
    first; lines and columns begin at 1, and ``to_column`` is the column after the last character. ``key`` stays the
    same while a finding moves to another line or is worded anew (``keys``). ``mend`` is what undoes the fault, as
    lines that can be pasted into a work log that starts from the rewired file, and ``alternatives`` holds others
    that would do as well.
    """
    import json  # only this format pays for it

    document: dict[str, object] = {
        # First, because netcheck knows a file of its own by how it begins.
        "generator": "netcheck",
        "version": 1,
        "command": report.command,
        "title": report.title,
        "files": report.files,
        "built": report.built,
        "counts": {grade.value: report.count(grade) for grade in Grade} | {"accepted": len(report.accepted)},
        "findings": [{"number": n, **one} for n, one in enumerate(_findings(d for _, d in report.numbered), 1)],
        "accepted": list(_accepted(report.accepted)),
        "closing": report.closing,
        "cautions": report.cautions,
    }
    return json.dumps(_safe(document), indent=2, ensure_ascii=not style.unicode) + "\n"


def _findings(diagnostics: Iterable[Diagnostic]) -> Iterator[dict[str, object]]:
    return (_finding(diagnostic, key) for key, diagnostic in keyed(diagnostics))


def _accepted(accepted: tuple[Accepted, ...]) -> Iterator[dict[str, object]]:
    reasons = {id(one.diagnostic): one.reason for one in accepted}
    ordered = tuple(sorted((one.diagnostic for one in accepted), key=lambda d: d.order))
    for diagnostic, finding in zip(ordered, _findings(ordered), strict=True):
        yield finding | {"reason": reasons[id(diagnostic)]}


def _finding(diagnostic: Diagnostic, key: str) -> dict[str, object]:
    return {
        "rule": diagnostic.rule,
        "grade": diagnostic.grade.value,
        "headline": diagnostic.headline,
        "why": diagnostic.why,
        "do": diagnostic.do,
        "mend": lines(diagnostic.mends[0]) if diagnostic.mends else (),
        "alternatives": [lines(mend) for mend in diagnostic.mends[1:]],
        "places": [asdict(where(label.place, label.text)) for label in diagnostic.labels],
        "leads": diagnostic.touched.leads,
        "parts": diagnostic.touched.parts,
        "nets": diagnostic.touched.nets,
        "key": key,
    }


def _safe(value: object) -> object:
    """The value with every text made safe to print."""
    if isinstance(value, str):
        return visible(value)
    if isinstance(value, Mapping):
        return {key: _safe(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [_safe(item) for item in value]
    return value
