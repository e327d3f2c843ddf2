"""The report as JUnit XML, which build services show as tests: a finding is one that failed, passed or was skipped.

STOP fails (with `--strict` LOOK too), what is accepted is skipped with its reason, a NOTE passes and prints itself. A
report on files that could not be built has errors, not failures.
"""

from collections.abc import Iterator
from html import escape

from netcheck.core.diagnostic import Diagnostic
from netcheck.core.mend import lines
from netcheck.core.report import Accepted, Report
from netcheck.core.visible import visible
from netcheck.reports.renderer import Style, counted
from netcheck.reports.where import wheres

__all__ = ["render"]


def render(report: Report, _: Style) -> str:
    """A suite for each set, without times, so that the same report gives the same bytes.

    What makes the run fail is a failure, an error where nothing could be compared; what is accepted is skipped with
    its reason; all else passes and is said in what the test printed.
    """
    suites = "".join(map(_suite, report.parts or (report,)))
    head = '<?xml version="1.0" encoding="UTF-8"?>\n<!-- drawn by netcheck -->\n'
    return f"{head}<testsuites>\n{suites}</testsuites>\n"


def _suite(report: Report) -> str:
    standing = [d for _, d in report.numbered]
    failed = sum(1 for d in standing if report.fails(d))
    cases = [*(_case(d, report) for d in standing), *(_skipped(one) for one in _ordered(report.accepted))]
    cases = cases or [_testcase(report.command, f"nothing found in {', '.join(report.files)}", "")]
    figures = (
        f'tests="{len(cases)}" failures="{failed * report.built}" errors="{failed * (not report.built)}"'
        f' skipped="{len(report.accepted)}"'
    )
    name = _text(f"netcheck {report.command}: {', '.join(report.files)}")
    told = _lines("\n".join((*report.last_words, counted(report))))
    return f'<testsuite name="{name}" {figures}>\n{"".join(cases)}<system-out>{told}</system-out>\n</testsuite>\n'


def _ordered(accepted: tuple[Accepted, ...]) -> list[Accepted]:
    return sorted(accepted, key=lambda one: one.diagnostic.order)


def _case(diagnostic: Diagnostic, report: Report) -> str:
    said = _lines("\n".join(_said(diagnostic, report)))
    if not report.fails(diagnostic):
        return _testcase(diagnostic.rule, diagnostic.headline, f"<system-out>{said}</system-out>")
    word = "failure" if report.built else "error"
    head = f'{word} type="{diagnostic.grade.value}" message="{_text(diagnostic.headline)}"'
    return _testcase(diagnostic.rule, diagnostic.headline, f"<{head}>{said}</{word}>")


def _skipped(one: Accepted) -> str:
    found = one.diagnostic
    return _testcase(found.rule, found.headline, f'<skipped message="{_text(one.reason)}"/>')


def _testcase(rule: str, name: str, inner: str) -> str:
    return f'<testcase classname="{_text(rule)}" name="{_text(name)}">{inner}</testcase>\n'


def _said(diagnostic: Diagnostic, report: Report) -> Iterator[str]:
    yield f"{diagnostic.grade.value}: {diagnostic.headline}"
    for at in wheres(diagnostic, report):
        yield f"{at}: {at.text}" if at.text.strip() else str(at)
    if diagnostic.why:
        yield f"why: {diagnostic.why}"
    if diagnostic.do:
        yield f"do: {diagnostic.do}"
    if diagnostic.mends:
        yield from ("as lines of a work log:", *lines(diagnostic.mends[0]))


def _lines(text: str) -> str:
    return "\n".join(map(_text, text.split("\n")))


def _text(text: str) -> str:
    return escape(visible(text), quote=True)
