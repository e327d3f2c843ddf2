"""The command line: arguments to files, files through the api to a report, a report to what was asked for."""

import sys
from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

import click

from netcheck import __version__
from netcheck.cli_help import completion, man, netlists, rule_names
from netcheck.cli_repository import all_chassis, record, start
from netcheck.core.errors import NetcheckError, UsageFault
from netcheck.core.report import Report
from netcheck.core.visible import visible
from netcheck.options import ANNOTATE, ENGINE, JSON, LINES, NARROW, PAPER, WATCH, asks
from netcheck.reports import SHEETS, Style, shown
from netcheck.system import screen
from netcheck.system.delivery import CLEAN, FINDINGS, NOT_DONE, Asked, deliver, picture, unbuilt
from netcheck.system.patience import patience

if TYPE_CHECKING:
    from netcheck.core.sheet import Sheet
    from netcheck.model.graph import CircuitGraph
    from netcheck.model.places import PlaceListing

__all__ = ["main"]

INTERRUPTED = 130


def main(argv: Sequence[str] | None = None) -> int:
    """Runs one command and returns the exit status: 0 clean, 1 findings, 2 the job could not be done."""
    try:
        arguments = None if argv is None else list(argv)
        status = _commands.main(args=arguments, prog_name="netcheck", standalone_mode=False)
    except NetcheckError as fault:
        return _refuse(str(fault))
    except click.exceptions.NoArgsIsHelpError as fault:
        screen.tell(fault.format_message() + "\n")
        return NOT_DONE
    except click.ClickException as fault:
        return _refuse(_in_our_words(fault))
    except click.Abort:
        screen.tell("netcheck: stopped\n")
        return INTERRUPTED
    return status if isinstance(status, int) else CLEAN


@click.group(name="netcheck", context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, message="netcheck %(version)s")
def _commands() -> None:
    """Find the lead on the wrong lug before you plug the set in.

    Exit status: 0 nothing grave, 1 something found, 2 the job could not be done.
    """


_commands.add_command(all_chassis)
_commands.add_command(record)
_commands.add_command(start)
_commands.add_command(completion)
_commands.add_command(man)
_states = click.argument("files", nargs=-1, required=True, metavar="ORIGINAL [FOUND] REWIRED",
                         shell_complete=netlists)  # fmt: skip


@_commands.command(short_help="Look at one state of a set by itself.")
@click.argument("files", nargs=-1, required=True, metavar="FILE...", shell_complete=netlists)
@asks(LINES, JSON, ANNOTATE, WATCH)
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


@_commands.command(short_help="Tell every difference between the drawing and the work.")
@_states
@asks(LINES, JSON, ANNOTATE, ENGINE, PAPER, NARROW, WATCH)
def compare(asked: Asked, files: tuple[str, ...]) -> int:
    """Tell every difference between a set as drawn and the same set as rewired.

    With three files, drawn, found and rewired, what was wrong when the set was found and still is, and what the
    work has mended, are told apart from what the work did. Files may be .txt, .json, .md, .csv, .sarif, .xml (JUnit),
    .codequality.json, .svg, .png and .dot.
    """
    return deliver(_compared(files), asked, drawn=True)


@_commands.command(short_help="Draw one state from below, or what differs.")
@click.argument("files", nargs=-1, required=True, metavar="STATE | ORIGINAL [FOUND] REWIRED", shell_complete=netlists)
@click.option("--underside", is_flag=True, help="What is to be done lug by lug, on the places from below.")
@click.option("--whole", is_flag=True, help="The whole circuit with what is to be done in it; an engine lays it out.")
@asks(ENGINE, PAPER, NARROW, WATCH)
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


@_commands.command(short_help="List what is soldered where, lug by lug.")
@click.argument("file", shell_complete=netlists)
@click.option("--blank", is_flag=True, help="Every lug with a line to write on, to note a chassis before it is typed.")
@asks(JSON)
def lugs(asked: Asked, file: str, *, blank: bool) -> int:
    """List what is soldered where, lug by lug, to hang over the bench."""
    if blank:
        return _sheet("blank", (file,), asked)
    from netcheck.reports.lug_list import lug_document, lug_list

    report, places = _listed(file)
    if not report.built:
        return unbuilt(report, asked)
    return deliver(
        report,
        asked,
        {
            ".txt": lambda report, style: lug_list(report, places, style),
            ".json": lambda report, style: lug_document(report, places, style),
        },
    )


@_commands.command(short_help="Work out volts, ripple, heat and discharge.")
@click.argument("file", shell_complete=netlists)
@click.option("--swap", multiple=True, metavar="PART=silicon",
              help="Also tell what silicon in that rectifier's place does. May be given several times.")  # fmt: skip
@asks(JSON)
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
    return deliver(
        report,
        asked,
        {
            ".txt": lambda report, style: supply_table(report, table, style),
            ".json": lambda report, style: supply_document(report, table, style),
        },
    )


@_commands.command(short_help="Plan what to measure, and explain what was read.")
@click.argument("files", nargs=-1, required=True, metavar="[BEFORE] FILE", shell_complete=netlists)
@click.option("--readings", metavar="FILE.csv", help="Readings that were filled in; tell what explains them.")
@click.option("--tubes-in", is_flag=True, help="The tubes are in their sockets, cold.")
@asks()
def bench(asked: Asked, files: tuple[str, ...], readings: str | None, *, tubes_in: bool) -> int:
    """Plan what to measure on the cold chassis, each reading with what to expect.

    With two files, only what the work between them touched. -o plan.html is to print, plan.csv to fill in.
    """
    from netcheck.system.files import read

    return _sheet("bench", files, asked, readings=read(readings) if readings else None, tubes_in=tubes_in)


@_commands.command(short_help="Tell what to unsolder, fit and solder, lug by lug.")
@click.argument("files", nargs=-1, required=True, metavar="ORIGINAL REWIRED", shell_complete=netlists)
@asks()
def job(asked: Asked, files: tuple[str, ...]) -> int:
    """Tell what to unsolder, fit and solder between two states, lug by lug, with boxes to tick."""
    return _sheet("job", files, asked)


@_commands.command(short_help="Tell what to order, and what it has to be rated for.")
@click.argument("file", metavar="REWIRED", shell_complete=netlists)
@asks()
def buy(asked: Asked, file: str) -> int:
    """Tell what to order: each new part, what it has to be rated for, the next size made."""
    return _sheet("buy", (file,), asked)


def _sheet(command: str, files: tuple[str, ...], asked: Asked, **options: object) -> int:
    """Prints a sheet for the bench, or writes it in the way that each file's ending says."""
    from netcheck import sheets
    from netcheck.system.files import read, reader

    sources = [read(file) for file in files]
    with patience("working it out"):
        report, sheet = getattr(sheets, command)(*sources, read=reader(*sources), **options)
    if sheet is None:
        return unbuilt(report, asked)
    formats = {ending: partial(_drawn_up, sheet, ending) for ending in SHEETS}
    # A sheet has no findings to count: what readings come to is its first line.
    status = deliver(report, asked, formats, outcome=" ".join(sheet.before) if sheet.failed else "")
    return FINDINGS if sheet.failed else status


def _drawn_up(sheet: "Sheet", ending: str, _: Report, style: Style) -> str:
    return SHEETS[ending](sheet, style)


@_commands.command(short_help="Print what a rule says and why.")
@click.argument("rule", required=False, shell_complete=rule_names)
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


def _in_our_words(fault: click.ClickException) -> str:
    said = fault.format_message().rstrip(".")
    context = getattr(fault, "ctx", None)
    where = context.command_path if context else "netcheck"
    return f"{said[:1].lower()}{said[1:]}; `{where} --help` shows how it is called"
