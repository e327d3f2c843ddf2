"""The findings as a list of the kind that GitLab shows beside a merge request."""

from collections.abc import Iterator, Mapping

from netcheck.core.diagnostic import Grade
from netcheck.core.report import Report
from netcheck.core.visible import visible
from netcheck.reports.keys import caution_key, keyed
from netcheck.reports.renderer import Style
from netcheck.reports.where import Where, cautioned, wheres

__all__ = ["render"]

_SEVERITIES: Mapping[Grade, str] = {Grade.STOP: "blocker", Grade.LOOK: "minor", Grade.NOTE: "info"}


def render(report: Report, _: Style) -> str:
    """What stands and the dangers of the set, without what is accepted: the service has no word for that."""
    import json

    return json.dumps([*_entries(report), *_dangers(report)], indent=2, ensure_ascii=False) + "\n"


def _entries(report: Report) -> Iterator[dict[str, object]]:
    for key, diagnostic in keyed(d for _, d in report.numbered):
        main, *others = wheres(diagnostic, report)
        told = (diagnostic.headline, diagnostic.do)
        yield {
            "engine_name": "netcheck",  # first, because netcheck knows a file of its own by how it begins
            "type": "issue",
            "check_name": diagnostic.rule,
            "description": "; ".join(visible(text) for text in told if text.strip()),
            "severity": _SEVERITIES[diagnostic.grade],
            "fingerprint": key,
            "location": _location(main),
            "other_locations": [*map(_location, others)],
        }


def _dangers(report: Report) -> Iterator[dict[str, object]]:
    """Of no more weight than a note; the key is of the set, so that it is never new with a change of a line."""
    for at, text in cautioned(report):
        yield {
            "engine_name": "netcheck",
            "type": "issue",
            "check_name": "caution",
            "description": visible(text),
            "severity": _SEVERITIES[Grade.NOTE],
            "fingerprint": caution_key(at.file, text),
            "location": _location(at),
            "other_locations": [],
        }


def _location(at: Where) -> dict[str, object]:
    return {"path": visible(at.file), "lines": {"begin": at.line, "end": at.to_line}}
