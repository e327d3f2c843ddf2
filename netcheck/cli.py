"""The command line: arguments to files, files through the api to a report, a report to what was asked for."""

import sys
from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING, TypeVar

from netcheck.core.errors import NetcheckError, UsageFault
from netcheck.core.report import Report
from netcheck.core.visible import visible
from netcheck.options import (
    ANNOTATE,
    ENGINE,
    JSON,
    LINES,
    NARROW,
    PAPER,
    WATCH,
    Command,
    Given,
    Option,
    command,
    plain,
)  # fmt: skip
from netcheck.reports import SHEETS, Renderer, Style, shown
from netcheck.system import screen
from netcheck.system.delivery import CLEAN, FINDINGS, INTERRUPTED, NOT_DONE, Asked, deliver, picture, unbuilt
from netcheck.system.patience import patience

if TYPE_CHECKING:
    from netcheck.core.sheet import Sheet
    from netcheck.model.graph import CircuitGraph
    from netcheck.model.places import PlaceListing

__all__ = ["commands", "main"]

Subject = TypeVar("Subject")
Drawn = Callable[[Report, Subject, Style], str]


def main(argv: Sequence[str] | None = None) -> int:
    """Runs one command and returns the exit status: 0 clean, 1 findings, 2 the job could not be done."""
    words = sys.argv[1:] if argv is None else argv
    screen.open_what_is_closed()
    try:
        command = _named(words[0]) if words and sys.platform != "win32" else None  # there click fills in the wildcards
        found = plain(command, words[1:]) if command else None
        return command.run(**found) if command and found is not None else _by_click(argv)
    except NetcheckError as fault:
        return _refuse(str(fault))
    except KeyboardInterrupt:
        screen.tell("\nnetcheck: stopped\n")
        return INTERRUPTED


def _named(word: str) -> Command | None:
    """The command of that name; of the rarer ones more is loaded."""
    return _COMMANDS.get(word) or next((one for one in commands() if one.name == word), None)


def commands() -> tuple[Command, ...]:
    """All commands that a plain call may name."""
    from netcheck.cli_repository import COMMANDS

    return (*_COMMANDS.values(), *COMMANDS)


def _by_click(argv: Sequence[str] | None) -> int:
    from netcheck.by_click import called

    return called(commands(), argv)


_FILE = Given("file")
_FILES = Given("files", "FILE...", many=True)
_STATES = Given("files", "ORIGINAL [FOUND] REWIRED", many=True)


@command("Look at one state of a set by itself.", _FILES, asks=(LINES, JSON, ANNOTATE, WATCH))
def check(asked: Asked, files: tuple[str, ...]) -> int:
    """Look at one state of a set by itself, or at several, one by one."""
    from netcheck import api
    from netcheck.core.joined import joined
    from netcheck.system.files import read, reader

    sources = tuple({source.name: source for source in map(read, files)}.values())
    find = reader(*sources)
    with patience("looking"):
        report = joined([api.check(source, find) for source in sources])
    return deliver(report, asked)


@command(
    "Tell every difference between the drawing and the work.",
    _STATES,
    asks=(LINES, JSON, ANNOTATE, ENGINE, PAPER, NARROW, WATCH),
)
def compare(asked: Asked, files: tuple[str, ...]) -> int:
    """Tell every difference between a set as drawn and the same set as rewired.

    With three files, drawn, found and rewired, what was wrong when the set was found and still is, and what the
    work has mended, are told apart from what the work did. Files may be .txt, .json, .md, .csv, .sarif, .xml (JUnit),
    .codequality.json, .svg, .png and .dot.
    """
    return deliver(_compared(files), asked, drawn=True)


@command(
    "Draw one state from below, or what differs.",
    Given("files", "STATE | ORIGINAL [FOUND] REWIRED", many=True),
    Option(("--underside",), "underside", "What is to be done lug by lug, on the places from below."),
    Option(("--whole",), "whole", "The whole circuit with what is to be done in it; an engine lays it out."),
    asks=(ENGINE, PAPER, NARROW, WATCH),
)
def draw(asked: Asked, files: tuple[str, ...], *, underside: bool, whole: bool) -> int:
    """Draw one state from below, or the differences of two, into the files that -o names: .svg, .png or .dot."""
    if whole and underside:
        raise UsageFault("--whole and --underside are two pictures; ask for one of them")
    if len(files) == 1 and not whole:
        return picture(*_listed(files[0]), asked)
    if whole:
        return picture(*_whole(files), asked)
    report = _compared(files)
    return picture(report, _listed(files[-1])[1] if underside and report.built else None, asked)


@command(
    "List what is soldered where, lug by lug.",
    _FILE,
    Option(("--blank",), "blank", "Every lug with a line to write on, to note a chassis before it is typed."),
    asks=(JSON,),
)
def lugs(asked: Asked, file: str, *, blank: bool) -> int:
    """List what is soldered where, lug by lug, to hang over the bench."""
    if blank:
        from netcheck import sheets

        return _sheet(sheets.blank, (file,), asked)
    from netcheck.reports.lug_list import lug_document, lug_list

    report, places = _listed(file)
    if not report.built:
        return unbuilt(report, asked)
    return _told(report, places, asked, lug_list, lug_document)


@command(
    "Work out volts, ripple, heat and discharge.",
    _FILE,
    Option(("--swap",), "swap", "Also tell what silicon in that rectifier's place does. May be given several times.",
           metavar="PART=silicon", multiple=True),
    asks=(JSON,),
)  # fmt: skip
def supply(asked: Asked, file: str, swap: tuple[str, ...]) -> int:
    """Work out what the power supply does: volts running and cold, ripple, heat, discharge."""
    from netcheck import api
    from netcheck.reports.supply_document import supply_document
    from netcheck.reports.supply_table import supply_table
    from netcheck.system.files import read, reader

    source = read(file)
    with patience("working it out"):
        report, table = api.supply(source, reader(source), *swap)
    if table is None:
        return unbuilt(report, asked)
    return _told(report, table, asked, supply_table, supply_document)


def _told(report: Report, subject: Subject, asked: Asked, text: Drawn[Subject], document: Drawn[Subject]) -> int:
    """Prints something of a state that is no list of findings, or writes it."""

    def of(drawn: Drawn[Subject]) -> Renderer:
        return lambda report, style: drawn(report, subject, style)

    return deliver(report, asked, {".txt": of(text), ".json": of(document)})


@command(
    "Plan what to measure, and explain what was read.",
    Given("files", "[BEFORE] FILE", many=True),
    Option(("--readings",), "readings", "Readings that were filled in; tell what explains them.", metavar="FILE.csv"),
    Option(("--tubes-in",), "tubes_in", "The tubes are in their sockets, cold."),
    asks=(),
)
def bench(asked: Asked, files: tuple[str, ...], readings: str | None, *, tubes_in: bool) -> int:
    """Plan what to measure on the cold chassis, each reading with what to expect.

    With two files, only what the work between them touched. -o plan.html is to print, plan.csv to fill in.
    """
    from netcheck import sheets
    from netcheck.system.files import read

    return _sheet(sheets.bench, files, asked, readings=read(readings) if readings else None, tubes_in=tubes_in)


@command("Tell what to unsolder, fit and solder, lug by lug.", Given("files", "ORIGINAL REWIRED", many=True), asks=())
def job(asked: Asked, files: tuple[str, ...]) -> int:
    """Tell what to unsolder, fit and solder between two states, lug by lug, with boxes to tick."""
    from netcheck import sheets

    return _sheet(sheets.job, files, asked)


@command("Tell what to order, and what it has to be rated for.", Given("file", "REWIRED"), asks=())
def buy(asked: Asked, file: str) -> int:
    """Tell what to order: each new part, what it has to be rated for, the next size made."""
    from netcheck import sheets

    return _sheet(sheets.buy, (file,), asked)


def _sheet(
    pipeline: Callable[..., tuple[Report, "Sheet | None"]], files: tuple[str, ...], asked: Asked, **options: object
) -> int:
    """Prints a sheet for the bench, or writes it in the way that each file's ending says."""
    from netcheck.system.files import read, reader

    sources = [read(file) for file in files]
    with patience("working it out"):
        report, sheet = pipeline(*sources, read=reader(*sources), **options)
    if sheet is None:
        return unbuilt(report, asked)
    formats = {ending: partial(_drawn_up, sheet, ending) for ending in SHEETS}
    # A sheet has no findings to count: what readings come to is its first line.
    status = deliver(report, asked, formats, outcome=" ".join(sheet.before) if sheet.failed else "")
    return FINDINGS if sheet.failed else status


def _drawn_up(sheet: "Sheet", ending: str, _: Report, style: Style) -> str:
    return SHEETS[ending](sheet, style)


@command("Print what a rule says and why.", Given("rule", required=False, offers="rules"))
def why(rule: str | None) -> int:
    """Print what a rule says and why; `why language` is the whole language; without RULE, all names."""
    from netcheck import api
    from netcheck.reports.manual_page import manual_page

    style = screen.style(sys.stdout, "never")
    text = manual_page(api.why(rule), style.width) if rule else "\n".join(api.rule_names())
    screen.say("".join(f"{shown(line, style)}\n" for line in text.strip("\n").split("\n")))
    return CLEAN


def _listed(file: str) -> "tuple[Report, tuple[PlaceListing, ...]]":
    from netcheck import api
    from netcheck.system.files import read, reader

    source = read(file)
    return api.lugs(source, reader(source))


def _whole(files: tuple[str, ...]) -> "tuple[Report, CircuitGraph | None]":
    """The comparison, or the look at one state, and the circuit of the last state."""
    from netcheck import api
    from netcheck.system.files import read, reader

    report = _compared(files) if len(files) > 1 else api.check(read(files[0]), reader(read(files[0])))
    return report, api.circuit_of(read(files[-1]), reader(*map(read, files))) if report.built else None


def _compared(files: tuple[str, ...]) -> Report:
    from netcheck import api
    from netcheck.system.files import read, reader

    if len(files) not in (2, 3):
        raise UsageFault("name two files, the original and the rewired one, or three: drawn, found, rewired")
    sources = [read(file) for file in files]
    find = reader(*sources)
    with patience("comparing"):
        if len(sources) == 3:
            return api.compare_three(sources[0], sources[1], sources[2], find)
        return api.compare(sources[0], sources[1], find)


def _refuse(message: str) -> int:
    screen.tell("".join(f"netcheck: {visible(line)}\n" for line in message.splitlines()))
    return NOT_DONE


_COMMANDS = {one.name: one for one in (check, compare, draw, lugs, supply, bench, job, buy, why)}
