"""The findings as a list of the kind that GitLab shows beside a merge request."""

from collections.abc import Iterator, Mapping

from netcheck.core.diagnostic import Grade
from netcheck.core.report import Report
from netcheck.core.visible import visible
from netcheck.reports.keys import keyed
from netcheck.reports.renderer import Style
from netcheck.reports.where import wheres

__all__ = ["render"]

_SEVERITIES: Mapping[Grade, str] = {Grade.STOP: "blocker", Grade.LOOK: "minor", Grade.NOTE: "info"}


def render(report: Report, _: Style) -> str:
    """What stands, without what is accepted: the service has no word for that."""
    import json

    return json.dumps([*_entries(report)], indent=2, ensure_ascii=False) + "\n"


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
            "location": {"path": visible(main.file), "lines": {"begin": main.line, "end": main.to_line}},
            "other_locations": [
                {"path": visible(at.file), "lines": {"begin": at.line, "end": at.to_line}} for at in others
            ],
        }
