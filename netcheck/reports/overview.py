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
    untold = [] if whole else [one for one in looked if not _is_to_look_at(one)]
    dangers = [shown(line, style) for line in _dangers(untold, general=not reports)]
    lines = (*_table(looked, style), *dangers, _total(looked))
    return "\n".join((*reports, "".join(f"{line}\n" for line in lines)))


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
        yield shown(f"no findings: {_named([one.name for one in clean])}", style)
    unchecked = sum(1 for one in looked if one.report.unchecked)
    if unchecked:
        yield f"NOT CHECKED: something in {unchecked} of {len(looked)} chassis; their reports say what, at the end"


def _dangers(untold: Sequence[Looked], *, general: bool) -> Iterator[str]:
    """The cautions of those whose reports are not shown, each once with the chassis that it is for.

    ``general`` asks for the one of every set too, which no report above has said.
    """
    owners: dict[str, list[str]] = {}
    for one in untold:
        for text in one.report.cautions if general else one.report.cautions[:-1]:
            owners.setdefault(text, []).append(one.name)
    for text, names in sorted(owners.items(), key=lambda said: len(said[1])):
        yield text if len(names) == len(untold) else f"{_named(names)}: {text}"


def _named(names: Sequence[str]) -> str:
    return ", ".join(names) if len(names) <= _MOST_NAMED else f"{len(names)} chassis"


def _said(one: Looked) -> str:
    return counted(one.report).partition(";")[0] + ("" if one.report.built else ", not built")


def _total(looked: Sequence[Looked]) -> str:
    figures = [(sum(one.report.count(grade) for one in looked), grade.value) for grade in Grade]
    words = [f"{number} {word}" for number, word in figures if number]
    accepted = sum(len(one.report.accepted) for one in looked)
    words += [f"{accepted} accepted"] if accepted else []
    return f"{len(looked)} chassis: {', '.join(words) or 'no findings'}"
