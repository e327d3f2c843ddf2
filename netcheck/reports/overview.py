"""What a run over many chassis shows: the reports of those with something to look at, then a line for each."""

from collections.abc import Iterator, Sequence

from netcheck.core.diagnostic import Grade
from netcheck.core.looked import Looked
from netcheck.reports import terminal
from netcheck.reports.excerpt import cells
from netcheck.reports.renderer import Style, counted, shown

__all__ = ["overview"]

_MOST_NAMED = 12  # chassis without a finding; more are counted


def overview(looked: Sequence[Looked], style: Style, *, whole: bool = False) -> str:
    """The text, the totals last; ``whole`` shows the report of every chassis, not only of those to look at."""
    reports = [terminal.render(one.report, style) for one in looked if whole or _is_to_look_at(one)]
    return "\n".join((*reports, "".join(f"{line}\n" for line in _table(looked, style))))


def _is_to_look_at(one: Looked) -> bool:
    return one.failed or any(d.grade is not Grade.NOTE for d in one.report.diagnostics)


def _table(looked: Sequence[Looked], style: Style) -> Iterator[str]:
    told = [one for one in looked if one.report.diagnostics or one.troubles]
    clean = [one for one in looked if not (one.report.diagnostics or one.troubles)]
    width = max((cells(one.name) for one in told), default=0)
    for one in told:
        states = ", ".join(one.states)
        yield shown(f"{one.name}{' ' * (width - cells(one.name))}  {_said(one)}  ({states})", style)
    if clean:
        names = ", ".join(one.name for one in clean) if len(clean) <= _MOST_NAMED else f"{len(clean)} chassis"
        yield shown(f"no findings: {names}", style)
    unchecked = sum(1 for one in looked if one.report.unchecked)
    if unchecked:
        yield f"NOT CHECKED: something in {unchecked} of {len(looked)} chassis; their reports say what, at the end"
    yield _total(looked)


def _said(one: Looked) -> str:
    return counted(one.report).partition(";")[0] + ("" if one.report.built else ", not built")


def _total(looked: Sequence[Looked]) -> str:
    figures = [(sum(one.report.count(grade) for one in looked), grade.value) for grade in Grade]
    words = [f"{number} {word}" for number, word in figures if number]
    accepted = sum(len(one.report.accepted) for one in looked)
    words += [f"{accepted} accepted"] if accepted else []
    return f"{len(looked)} chassis: {', '.join(words) or 'no findings'}"
