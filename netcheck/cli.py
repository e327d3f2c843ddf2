"""The command line: arguments to files, files through the api to a report, a report to a text and an exit status."""

import atexit
import functools
import gc
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

import click

from netcheck import __version__
from netcheck.core.diagnostic import Severity
from netcheck.core.errors import NetcheckError, UsageFault
from netcheck.core.report import Report
from netcheck.core.visible import visible
from netcheck.reports import FORMATS, SHEETS, Style, counted, shown
from netcheck.system import screen

__all__ = ["main"]

CLEAN, FINDINGS, NOT_DONE, INTERRUPTED = 0, 1, 2, 130

_PICTURES = (".svg", ".png", ".dot")


@dataclass(frozen=True, slots=True)
class _Asked:
    """The options that every command with a report or a picture takes."""

    output: Path | None
    overwrite: bool
    fail_on: Severity
    colour: str


def main(argv: Sequence[str] | None = None) -> int:
    """Runs one command and returns the exit status: 0 clean, 1 findings, 2 the job could not be done."""
    if argv is None:
        # A process of its own is short and keeps what it reads: collecting garbage costs a tenth of its time.
        gc.disable()
        atexit.register(gc.freeze)  # nor is anything to be collected when it ends
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
        return INTERRUPTED
    return status if isinstance(status, int) else CLEAN


@click.group(name="netcheck", context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, message="netcheck %(version)s")
def _commands() -> None:
    """Find the lead on the wrong lug before the set meets the mains.

    Exit status: 0 nothing at the failing level, 1 findings, 2 the job could not be done.
    """


def _with_options(command: Callable[..., int]) -> Callable[..., int]:
    """Adds the options of ``_Asked`` to a command, which takes them as one value."""

    @click.option("-o", "--output", type=click.Path(path_type=Path), metavar="FILE", help="Write to a file.")
    @click.option("--overwrite", is_flag=True, help="Replace the file even if netcheck did not write it.")
    @click.option("--fail-on", type=click.Choice(("error", "warning")), default="error", show_default=True,
                  help="The least grave finding that makes the exit status 1.")  # fmt: skip
    @click.option("--color", type=click.Choice(("auto", "always", "never")), default="auto", show_default=True,
                  help="Colour the text; stronger than CLICOLOR_FORCE, FORCE_COLOR and NO_COLOR.")  # fmt: skip
    @functools.wraps(command)
    def run(output: Path | None, fail_on: str, color: str, *, overwrite: bool, **others: object) -> int:
        return command(_Asked(output, overwrite, Severity(fail_on), color), **others)

    return run


_states = click.argument("files", nargs=-1, required=True, metavar="ORIGINAL [FOUND] REWIRED")

_format = click.option(
    "--output-format", type=click.Choice(tuple(FORMATS)), default="full", show_default=True, help="How to report."
)


@_commands.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@_format
@_with_options
def check(asked: _Asked, output_format: str, files: tuple[str, ...]) -> int:
    """Look at one state of a set on its own, or at several, one by one."""
    from netcheck import api
    from netcheck.system.files import read, reader

    sources = tuple({source.name: source for source in map(read, files)}.values())
    find = reader(*sources)
    return _deliver(_joined([api.check(source, find) for source in sources]), output_format, asked)


@_commands.command()
@_states
@_format
@_with_options
def compare(asked: _Asked, output_format: str, files: tuple[str, ...]) -> int:
    """Tell every difference between a set as drawn and the same set as rewired.

    With three files, drawn, found and rewired, what was changed before the work is told apart from what the
    work changed.
    """
    return _deliver(_compared(files), output_format, asked)


@_commands.command()
@_states
@click.option(
    "--dot", metavar="PROGRAM", help="The drawing engine to use; else NETCHECK_DOT, else the one that is found."
)
@_with_options
def draw(asked: _Asked, files: tuple[str, ...], dot: str | None) -> int:
    """Draw the differences as a sheet of findings.

    The file's ending says the kind of picture: .svg, .png or .dot. Without -o the SVG goes to standard output.
    """
    suffix = asked.output.suffix.lower() if asked.output else ".svg"
    if suffix not in _PICTURES:
        raise UsageFault(f"`{asked.output}` ends in none of {', '.join(_PICTURES)}; the ending says what to draw")
    report = _compared(files)
    if not report.built:
        screen.tell(FORMATS["full"](report, screen.style(sys.stderr, asked.colour)))
        return NOT_DONE
    from netcheck.system.picture import sheet_picture

    _put(sheet_picture(report, suffix, dot), report, asked)
    return _status(report, asked.fail_on)


@_commands.command()
@click.argument("file")
@click.option(
    "--output-format", type=click.Choice(("full", "json")), default="full", show_default=True, help="How to list."
)
@_with_options
def lugs(asked: _Asked, output_format: str, file: str) -> int:
    """List what is soldered where, lug by lug, to hang over the bench."""
    from netcheck import api
    from netcheck.reports.lug_list import lug_document, lug_list
    from netcheck.system.files import read, reader

    source = read(file)
    report, places = api.lugs(source, reader(source))
    if not report.built:
        screen.tell(FORMATS["full"](report, screen.style(sys.stderr, asked.colour)))
        return NOT_DONE
    listed = lug_list if output_format == "full" else lug_document
    return _print(lambda style: listed(report, places, style), report, asked)


@_commands.command()
@click.argument("file")
@click.option("--swap", multiple=True, metavar="PART=silicon",
              help="Also tell what silicon for that rectifier does; may be given for several.")  # fmt: skip
@click.option(
    "--output-format", type=click.Choice(("full", "json")), default="full", show_default=True, help="How to print."
)
@_with_options
def supply(asked: _Asked, output_format: str, file: str, swap: tuple[str, ...]) -> int:
    """Tell what the power supply does: volts running and cold, ripple, heat, discharge."""
    from netcheck import api
    from netcheck.reports.supply_document import supply_document
    from netcheck.reports.supply_table import supply_table
    from netcheck.system.files import read, reader

    source = read(file)
    report, table = api.supply(source, reader(source), *swap)
    if table is None:
        screen.tell(FORMATS["full"](report, screen.style(sys.stderr, asked.colour)))
        return NOT_DONE
    printed = supply_table if output_format == "full" else supply_document
    return _print(lambda style: printed(report, table, style), report, asked)


@_commands.command()
@click.argument("files", nargs=-1, required=True, metavar="[BEFORE] FILE")
@click.option("--tubes-in", is_flag=True, help="The tubes are in their sockets, cold.")
@_with_options
def bench(asked: _Asked, files: tuple[str, ...], *, tubes_in: bool) -> int:
    """Plan what to measure on the cold chassis, each reading with what to expect.

    With two files, only what the work between them touched. -o plan.html is to print, plan.csv to fill in.
    """
    return _sheet("bench", files, asked, tubes_in=tubes_in)


def _sheet(command: str, files: tuple[str, ...], asked: _Asked, **options: bool) -> int:
    """Prints a sheet for the bench, or writes it in the way that the file's ending says."""
    from netcheck import api
    from netcheck.system.files import read, reader

    suffix = asked.output.suffix.lower() if asked.output else ".txt"
    if suffix not in SHEETS:
        raise UsageFault(f"`{asked.output}` ends in none of {', '.join(SHEETS)}; the ending says what to write")
    sources = [read(file) for file in files]
    report, sheet = getattr(api, command)(*sources, read=reader(*sources), **options)
    if sheet is None:
        screen.tell(FORMATS["full"](report, screen.style(sys.stderr, asked.colour)))
        return NOT_DONE
    return _print(lambda style: SHEETS[suffix](sheet, style), report, asked)


def _print(text: Callable[[Style], str], report: Report, asked: _Asked) -> int:
    """Says a text as the screen can show it, or writes it to the file that is asked for."""
    if asked.output is None:
        screen.say(text(screen.style(sys.stdout, asked.colour)))
    else:
        _put(text(Style()).encode("utf-8", "backslashreplace"), report, asked)
    return _status(report, asked.fail_on)


@_commands.command()
@click.argument("rule", required=False)
def explain(rule: str | None) -> int:
    """Print the manual page of a rule; without RULE, the names of all rules."""
    from netcheck import api

    text = api.explain(rule) if rule else "\n".join(api.rule_names())
    style = screen.style(sys.stdout, "never")
    screen.say("".join(f"{shown(line, style)}\n" for line in text.strip("\n").split("\n")))
    return CLEAN


def _compared(files: tuple[str, ...]) -> Report:
    from netcheck import api
    from netcheck.system.files import read, reader

    if len(files) not in (2, 3):
        raise UsageFault("name two files, the original and the rewired one, or three: drawn, found, rewired")
    sources = [read(file) for file in files]
    find = reader(*sources)
    if len(sources) == 3:
        return api.compare_three(sources[0], sources[1], sources[2], find)
    return api.compare(sources[0], sources[1], find)


def _joined(reports: list[Report]) -> Report:
    """The reports on several files as one; what two of them say of a shared file is said once."""
    first, *others = reports
    if not others:
        return first
    return Report(
        first.command,
        first.title,
        tuple(name for report in reports for name in report.files),
        tuple(sorted(dict.fromkeys(d for report in reports for d in report.diagnostics), key=lambda d: d.order)),
        tuple(dict.fromkeys(allowed for report in reports for allowed in report.allowed)),
        tuple(dict.fromkeys(line for report in reports for line in report.closing)),
        all(report.built for report in reports),
    )


def _deliver(report: Report, output_format: str, asked: _Asked) -> int:
    if asked.output is None:
        screen.say(FORMATS[output_format](report, screen.style(sys.stdout, asked.colour)))
    else:
        text = FORMATS[output_format](report, Style(colour=asked.colour == "always"))
        _put(text.encode("utf-8", "backslashreplace"), report, asked)
    return _status(report, asked.fail_on)


def _put(data: bytes, report: Report, asked: _Asked) -> None:
    """Writes the file and says so, since the exit status may be 1 although all went well."""
    from netcheck.system.files import write

    if asked.output is None:
        screen.say(data.decode())
        return
    write(asked.output, data, overwrite=asked.overwrite)
    screen.say(f"{visible(str(asked.output))} written: {counted(report)}\n")


def _status(report: Report, fail_on: Severity) -> int:
    if not report.built:
        return NOT_DONE
    return FINDINGS if any(d.severity.rank <= fail_on.rank for d in report.diagnostics) else CLEAN


def _refuse(message: str) -> int:
    screen.tell("".join(f"netcheck: {visible(line)}\n" for line in message.splitlines()))
    return NOT_DONE


def _in_our_words(fault: click.ClickException) -> str:
    said = fault.format_message().rstrip(".")
    context = getattr(fault, "ctx", None)
    where = context.command_path if context else "netcheck"
    return f"{said[:1].lower()}{said[1:]}; `{where} --help` shows how it is called"
