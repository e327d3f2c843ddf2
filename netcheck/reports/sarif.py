"""The report as SARIF 2.1.0, the OASIS format of findings that code hosts and editors take in."""

from collections.abc import Iterable, Iterator, Mapping

from netcheck import __version__
from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.mend import lines
from netcheck.core.report import Report
from netcheck.core.visible import visible
from netcheck.reports.keys import keyed
from netcheck.reports.renderer import Style
from netcheck.reports.where import Where, wheres

__all__ = ["SCHEMA", "render"]

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
_LEVELS: Mapping[Grade, str] = {Grade.STOP: "error", Grade.LOOK: "warning", Grade.NOTE: "note"}


def render(report: Report, _: Style) -> str:
    """The log with one run. What is accepted is in it as suppressed, with the reason; columns are code points."""
    import json

    # The beginning is how netcheck knows a file of its own.
    log = {"$schema": SCHEMA, "version": "2.1.0", "runs": [_run(report)]}
    return json.dumps(log, indent=2, ensure_ascii=False) + "\n"


def _run(report: Report) -> dict[str, object]:
    reasons = {id(one.diagnostic): one.reason for one in report.accepted}
    accepted = sorted((one.diagnostic for one in report.accepted), key=lambda d: d.order)
    standing = [d for _, d in report.numbered]
    rules = sorted({d.rule for d in (*standing, *accepted)})
    return {
        "tool": {"driver": {"name": "netcheck", "version": __version__, "rules": [*map(_rule, rules)]}},
        "automationDetails": {"id": f"netcheck/{report.command}/{_uri('/'.join(report.files))}"},
        "invocations": [{"executionSuccessful": report.built, **_cautions(report)}],
        "columnKind": "unicodeCodePoints",
        "results": [
            *(one | {"properties": {"number": n, **_mend(d)}} for n, (one, d) in _numbered(standing, report)),
            *(one | _suppressed(reasons[id(d)]) for one, d in _results(accepted, report)),
        ],
    }


def _numbered(
    found: Iterable[Diagnostic], report: Report
) -> Iterator[tuple[int, tuple[dict[str, object], Diagnostic]]]:
    return enumerate(_results(found, report), 1)


def _results(found: Iterable[Diagnostic], report: Report) -> Iterator[tuple[dict[str, object], Diagnostic]]:
    for key, diagnostic in keyed(found):
        main, *others = wheres(diagnostic, report)
        yield (
            {
                "ruleId": diagnostic.rule,
                "level": _LEVELS[diagnostic.grade],
                "message": {"text": _message(diagnostic)},
                "locations": [_location(main)],
                "relatedLocations": [_location(other) | {"id": n} for n, other in enumerate(others, 1)],
                "partialFingerprints": {"netcheck/v1": key},
            },
            diagnostic,
        )


def _cautions(report: Report) -> dict[str, object]:
    """What keeps hands safe belongs to the whole run and to no line of it."""
    said = [{"level": "note", "message": {"text": _text(text)}} for text in report.cautions]
    return {"toolExecutionNotifications": said} if said else {}


def _rule(name: str) -> dict[str, object]:
    return {"id": name, "shortDescription": {"text": f"`netcheck why {name}` says what this is about"}}


def _message(diagnostic: Diagnostic) -> str:
    said = (("", diagnostic.headline), ("why: ", diagnostic.why), ("do: ", diagnostic.do))
    return "\n".join(f"{word}{_text(text)}" for word, text in said if text.strip())


def _text(text: str) -> str:
    """Words, of which none is taken for a link to one of the other places."""
    return visible(text).replace("](", "] (")


def _mend(diagnostic: Diagnostic) -> dict[str, object]:
    return {"mend": [visible(line) for line in lines(diagnostic.mends[0])]} if diagnostic.mends else {}


def _suppressed(reason: str) -> dict[str, object]:
    return {"suppressions": [{"kind": "inSource", "justification": visible(reason)}]}


def _location(at: Where) -> dict[str, object]:
    place: dict[str, object] = {
        "artifactLocation": {"uri": _uri(at.file)},
        "region": {
            "startLine": at.line,
            "startColumn": at.column,
            "endLine": at.to_line,
            "endColumn": at.to_column,
        },
    }
    told: dict[str, object] = {"message": {"text": _text(at.text)}} if at.text.strip() else {}
    return {"physicalLocation": place, **told}


def _uri(path: str) -> str:
    """A path as a reference; a whole one with its scheme, since it lies outside of what is looked at."""
    from urllib.parse import quote  # only a path that is written pays for it

    quoted = quote(path.encode("utf-8", "backslashreplace"), safe="/")
    return f"file://{quoted}" if quoted.startswith("/") else quoted
