"""The report as one JSON document, for programs; ``version`` grows when a key changes its meaning or goes."""

from collections.abc import Iterator, Mapping
from pathlib import PurePosixPath

from netcheck.core.diagnostic import Diagnostic, Label, Severity
from netcheck.core.report import Allowed, Report
from netcheck.core.source import Place
from netcheck.core.visible import visible
from netcheck.reports.renderer import Style

__all__ = ["render"]


def render(report: Report, style: Style) -> str:
    """The document with a final newline; the same report gives the same bytes.

    Findings stand in their total order. ``places`` holds the main place first; lines and columns begin at 1, and
    ``end_column`` is the column after the last character. ``fingerprint`` stays the same while a finding moves to
    another line or is worded anew: it is a hash of the rule, of the leads, parts and nets touched (the texts
    underlined, where a finding touches none), and of the base names of the files; a second finding that is the
    same in all of these is counted into its own.
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
        "counts": {severity.value: report.count(severity) for severity in Severity} | {"allowed": len(report.allowed)},
        "diagnostics": list(_findings(report.diagnostics)),
        "allowed": list(_allowed(report.allowed)),
        "closing": report.closing,
    }
    return json.dumps(_safe(document), indent=2, ensure_ascii=not style.unicode) + "\n"


def _findings(diagnostics: tuple[Diagnostic, ...]) -> Iterator[dict[str, object]]:
    seen: dict[tuple[object, ...], int] = {}
    for diagnostic in sorted(diagnostics, key=lambda d: d.order):
        identity = _identity(diagnostic)
        seen[identity] = seen.get(identity, 0) + 1
        yield _finding(diagnostic, _hashed((*identity, seen[identity])))


def _allowed(allowed: tuple[Allowed, ...]) -> Iterator[dict[str, object]]:
    reasons = {id(one.diagnostic): one.reason for one in allowed}
    ordered = tuple(sorted((one.diagnostic for one in allowed), key=lambda d: d.order))
    for diagnostic, finding in zip(ordered, _findings(ordered), strict=True):
        yield finding | {"reason": reasons[id(diagnostic)]}


def _finding(diagnostic: Diagnostic, fingerprint: str) -> dict[str, object]:
    return {
        "rule": diagnostic.rule,
        "severity": diagnostic.severity.value,
        "headline": diagnostic.headline,
        "why": diagnostic.why,
        "do": diagnostic.do,
        "places": [_label(label) for label in diagnostic.labels],
        "leads": diagnostic.touched.leads,
        "parts": diagnostic.touched.parts,
        "nets": diagnostic.touched.nets,
        "fingerprint": fingerprint,
    }


def _label(label: Label) -> dict[str, object]:
    place = label.place
    end = Place(place.source, place.end, place.end)
    return {
        "file": place.source.name,
        "line": place.line,
        "column": place.column,
        "end_line": end.line,
        "end_column": end.column,
        "text": label.text,
    }


def _identity(diagnostic: Diagnostic) -> tuple[object, ...]:
    touched = diagnostic.touched
    names = (touched.leads, touched.parts, touched.nets)
    marked = () if any(names) else tuple(label.place.text for label in diagnostic.labels)
    files = tuple(PurePosixPath(label.place.source.name).name for label in diagnostic.labels)
    return (diagnostic.rule, *(tuple(sorted(group)) for group in names), marked, files)


def _hashed(identity: tuple[object, ...]) -> str:
    import hashlib  # only this format pays for it

    return hashlib.sha256(repr(identity).encode("utf-8", "backslashreplace")).hexdigest()[:16]


def _safe(value: object) -> object:
    """The value with every text made safe to print."""
    if isinstance(value, str):
        return visible(value)
    if isinstance(value, Mapping):
        return {key: _safe(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [_safe(item) for item in value]
    return value
