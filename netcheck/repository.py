"""Every chassis of a repository: its states as the settings name them, to a report and the files asked for.

A chassis is one report: its earliest state checked, the latest compared with the drawing and with what was found, a
plan that was followed checked by itself. Its numbers are the same in all files of its own; a file for all chassis is
numbered anew. What the settings accept is applied to that one report, so it needs a use in any of the runs.
"""

from collections.abc import Iterable, Iterator
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from netcheck import api
from netcheck.core.diagnostic import Diagnostic
from netcheck.core.errors import NetcheckError, UsageFault
from netcheck.core.joined import joined, of_one_set
from netcheck.core.looked import Looked
from netcheck.core.report import Report
from netcheck.core.settings import MARK, ChassisEntry, Output, Settings, StateFile
from netcheck.core.source import Source
from netcheck.engine.accept import apply_acceptances
from netcheck.reports import FORMATS, PICTURES
from netcheck.settings.reader import mistake
from netcheck.system.delivery import CLEAN, FINDINGS, NOT_DONE, Asked, made, refuse_other_endings
from netcheck.system.files import read, reader
from netcheck.system.folders import from_here, room_for
from netcheck.system.outputs import refuse_what_was_read, write

__all__ = ["Task", "chosen", "look", "misfits", "status", "task_of", "together", "warm"]

NAME = "all"
RECORD = ".html"
"""The ending of a record, which is of one chassis."""


class Task(Struct, frozen=True):
    """One chassis to look at, as it is handed to a process: ``strict`` makes LOOK fail, ``outputs`` are its files."""

    chassis: ChassisEntry
    strict: bool
    outputs: tuple[Path, ...]
    asked: Asked
    folder: Path


def task_of(chassis: ChassisEntry, settings: Settings, asked: Asked, folder: Path) -> Task:
    """What there is to do for a chassis; files of the settings lie in their folder, those of the call where it says."""
    named = (path for path in asked.outputs if MARK in str(path))
    own = (Path(str(path).replace(MARK, chassis.name)) for path in named)
    outputs = (*(from_here(folder / path) for path in settings.outputs_of(chassis)), *own)
    return Task(chassis, asked.strict or settings.strict_for(chassis), outputs, asked, folder)


def chosen(settings: Settings, names: tuple[str, ...]) -> tuple[ChassisEntry, ...]:
    """The chassis of these names, or all, in the order of the settings. Raises UsageFault for a name of none."""
    known = {chassis.name: chassis for chassis in settings.chassis}
    for name in names:
        if name not in known:
            from netcheck.model.messages import near

            hint = near(name, known) or f"the settings have {', '.join([*known][:12])}"
            raise UsageFault(f"there is no chassis `{name}`; {hint}")
    return tuple(chassis for name, chassis in known.items() if not names or name in names)


def misfits(settings: Settings) -> Iterator[Diagnostic]:
    """What the settings ask for that netcheck does not have: an ending, a rule."""
    rules = set(api.rule_names()) if any(chassis.accepted for chassis in settings.chassis) else set()
    yield from _endings(settings.outputs)
    for chassis in settings.chassis:
        yield from _endings(chassis.outputs)
        for one in chassis.accepted:
            if one.rule not in rules:
                from netcheck.model.messages import near

                hint = near(one.rule, rules) or "`netcheck why` lists the rules"
                yield mistake(one.place, f"there is no rule `{one.rule}`", hint)


def _endings(outputs: Iterable[Output]) -> Iterator[Diagnostic]:
    for output in outputs:
        known = tuple(FORMATS) if output.is_shared else (*FORMATS, RECORD, *PICTURES)
        try:
            refuse_other_endings([Path(output.path)], known)
        except UsageFault as fault:
            more = f"; pictures and records are of one chassis, with `{MARK}` in its path" if output.is_shared else ""
            yield mistake(output.place, f"{str(fault).partition(';')[0]}{more}")


def look(task: Task) -> Looked:
    """Looks at one chassis and writes its files; a file that is wrong is told in its report and hides no other."""
    report = replace(_report(task), strict=task.strict)
    states = tuple(one.state for one in task.chassis.states)
    written: list[str] = []
    troubles: list[str] = []
    for path in task.outputs if report.built else _texts(task.outputs):
        try:
            _put(path, report, task)
            written.append(str(path))
        except NetcheckError as fault:
            troubles.append(f"{task.chassis.name}: {fault}")
    return Looked(task.chassis.name, states, report, tuple(written), tuple(troubles))


def _texts(paths: tuple[Path, ...]) -> tuple[Path, ...]:
    """The files that are written of a netlist that can't be built: neither pictures nor records."""
    return tuple(path for path in paths if not path.name.lower().endswith((*PICTURES, RECORD)))


def _put(path: Path, report: Report, task: Task) -> None:
    formats = {**FORMATS, RECORD: lambda report, _: _record(report, task)}
    data = made(report, path, task.asked, formats)
    room_for(path, task.folder)
    refuse_what_was_read((path,), report.files)
    write(path, data, overwrite=task.asked.overwrite)


def _record(report: Report, task: Task) -> str:
    """The page of the record, of the chassis's first state and its last."""
    states = task.chassis.states
    if len(states) == 1:
        raise UsageFault(f"a record ({RECORD}) is of two states, and only `{states[0].state}` is named")
    from netcheck.records import record
    from netcheck.reports.record import record_page

    first, last = (read(from_here(task.folder / one.path)) for one in (states[0], states[-1]))
    _, found = record(first, last, read=reader(first, last), report=report)
    if found is None:
        raise UsageFault("one of the two states of the record can't be built")
    return record_page(found)


def _report(task: Task) -> Report:
    chassis = task.chassis
    command = f"{NAME} {chassis.name}"
    sources: list[Source] = []
    wrong: list[Diagnostic] = []
    for one in chassis.states:
        try:
            sources.append(read(from_here(task.folder / one.path)))
        except NetcheckError as fault:
            wrong.append(mistake(one.place, str(fault)))
    if not wrong:
        try:
            return _accepting(of_one_set([*_runs(chassis.states, sources)], command), chassis)
        except UsageFault as fault:
            wrong.append(mistake(chassis.place, str(fault)))
    names = tuple(one.path for one in chassis.states)
    return Report(command, chassis.name, names, tuple(wrong), built=False)


def _runs(states: tuple[StateFile, ...], sources: list[Source]) -> Iterator[Report]:
    """The earliest state by itself, a plan that was followed by itself too, then the latest against those before."""
    find = reader(*sources)
    yield api.check(sources[0], find)
    named = {one.state: source for one, source in zip(states, sources, strict=True)}
    *before, last = [state for state in named if state != "planned" or "rewired" not in named]
    if "planned" in named and last != "planned" and before:
        yield api.check(named["planned"], find)
    chain = [named[state] for state in before]
    if len(chain) == 2:
        yield api.compare_three(chain[0], chain[1], named[last], find)
    elif chain:
        yield api.compare(chain[0], named[last], find)
    elif "planned" in named and last != "planned":
        yield api.compare(named["planned"], named[last], find)


def _accepting(report: Report, chassis: ChassisEntry) -> Report:
    """The report less what the settings accept; what accepts nothing is told, at its line of the settings."""
    if not report.built or not chassis.accepted:
        return report
    standing, accepted = apply_acceptances(report.diagnostics, chassis.accepted)
    return replace(report, diagnostics=standing, accepted=(*report.accepted, *accepted))


def warm() -> None:
    """Loads what every chassis needs, so that processes that copy this one have it."""
    drawn, rewired = (Source(f"{state}.netck", f"state {state}\nresistor R1 1k\n") for state in ("drawn", "rewired"))
    api.compare(drawn, rewired, lambda _asking, _written: drawn)


def together(looked: Iterable[Looked], settings: Settings) -> Report:
    """Everything in one report, for a file or a screen that takes in all chassis at once."""
    all_of_them = [*looked]
    whole = joined([one.report for one in all_of_them], [one.name for one in all_of_them])
    parts = tuple(one.report for one in all_of_them)
    return replace(whole, command=NAME, title=f"{len(parts)} chassis of {settings.source.name}", parts=parts)


def status(looked: Iterable[Looked]) -> int:
    """The one exit status of all: the gravest."""
    ends = {NOT_DONE if one.troubles or not one.report.built else FINDINGS for one in looked if one.failed}
    return max(ends, default=CLEAN)
