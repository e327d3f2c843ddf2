"""The commands for a repository of chassis, with its settings."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec.structs import replace

from netcheck.core.errors import UsageFault
from netcheck.core.report import Report
from netcheck.core.visible import visible
from netcheck.options import ANNOTATE, ENGINE, JSON, LINES, NARROW, PAPER, WATCH, Given, Option, command
from netcheck.system import screen
from netcheck.system.delivery import Asked, deliver, unbuilt

if TYPE_CHECKING:
    from netcheck.core.looked import Looked
    from netcheck.core.settings import Settings
    from netcheck.start.questions import Question

__all__ = ["COMMANDS"]

_MOST_TOLD = 12  # files written, by name


@command(
    "Look at every chassis that netcheck.toml names.",
    Given("names", "[CHASSIS]...", many=True, required=False, offers="chassis"),
    Option(("--settings",), "named", "The settings, else netcheck.toml here or in a folder above.", metavar="FILE"),
    Option(("--processes",), "processes", "How many at once; else as many as cores.", metavar="N", least=1),
    Option(("--schema",), "schema", "Print the JSON Schema of the settings, for editors."),
    asks=(LINES, JSON, ANNOTATE, ENGINE, PAPER, NARROW, WATCH),
    name="all",
)
def all_chassis(asked: Asked, names: tuple[str, ...], named: str | None, *, processes: int | None, schema: bool) -> int:
    """Look at every chassis that netcheck.toml names, or at those named here, and write what it asks for.

    The earliest state is checked, the latest compared with those before. -o 'reports/{chassis}.svg' writes a file for
    each chassis, a name without {chassis} one for all.
    """
    if schema:
        from importlib.resources import files

        screen.say((files("netcheck.settings") / "netcheck.schema.json").read_text(encoding="utf-8"))
        return 0
    from netcheck.settings.reader import settings
    from netcheck.system.settings_file import find_settings

    source, folder = find_settings(named)
    said, problems = settings(source)
    if said is not None:
        from netcheck.repository import misfits

        problems = tuple(misfits(said))
    if said is None or problems:
        report = Report("all", "", (source.name,), problems, built=False)
        return deliver(report, replace(asked, outputs=())) if asked.way else unbuilt(report, asked)
    return _looked_at(said, folder, names, asked, processes)


def _looked_at(said: "Settings", folder: Path, names: tuple[str, ...], asked: Asked, processes: int | None) -> int:
    from netcheck.core.settings import MARK
    from netcheck.repository import chosen, look, status, task_of, together, warm
    from netcheck.system.folders import from_here, room_for
    from netcheck.system.many import in_turn, with_progress

    tasks = [task_of(chassis, said, asked, folder) for chassis in chosen(said, names)]
    shared = tuple(path for path in asked.outputs if MARK not in str(path))
    # What goes into one file for all says all, so it is not written of a part.
    shared += () if names else tuple(from_here(folder / path) for path in said.shared_outputs)
    looked = [*with_progress(in_turn(look, tasks, processes, warm=warm), len(tasks))]
    if not asked.way:
        _show(looked, asked, whole=bool(names))
    for path in shared:
        room_for(path, folder)
    if shared or asked.way:
        deliver(together(looked, said), replace(asked, outputs=shared))
    screen.tell("".join(f"netcheck: {visible(line)}\n" for one in looked for line in one.troubles))
    return status(looked)


def _show(looked: "list[Looked]", asked: Asked, *, whole: bool) -> None:
    from netcheck.reports.overview import overview

    screen.say(overview(looked, screen.style(sys.stdout, asked.colour), whole=whole))
    written = [path for one in looked for path in one.written]
    if len(written) <= _MOST_TOLD:
        screen.say("".join(f"{visible(path)} written\n" for path in written))
    else:
        screen.say(f"{len(written)} files written\n")


@command(
    "Make a small repository to begin with.",
    Given("directory"),
    Option(("--title",), "title", "What the set is called; its folder is named after it.", metavar="TEXT"),
    Option(
        ("--kind",),
        "kind",
        "A table set on the line, a console with a transformer, a push-pull amplifier, a doubler, one can.",
        choices=("table", "console", "amplifier", "doubler", "can"),
    ),
    Option(("--rectifier",), "rectifier", "A tube or selenium.", choices=("tube", "dry")),
    Option(
        ("--can",),
        "can",
        "The filter can: on the chassis, on a wafer, or single capacitors.",
        choices=("grounded", "insulated", "single"),
    ),
    Option(("--minus",), "minus", "B- is the chassis, or is kept apart from it.", choices=("chassis", "apart")),
    Option(("--line",), "line", "The line voltage, as `117 V 60 Hz`.", metavar="VOLTS"),
    Option(("--install",), "install", "Where a service's pip gets netcheck, if not as here.", metavar="WHAT"),
)
def start(directory: str, install: str | None, **said: str | None) -> int:
    """Make a small repository to begin with: two lists with invented values, settings, checks at every change.

    On a terminal it asks for what the options leave open. No file that is there is replaced.
    """
    from netcheck.start.questions import answers
    from netcheck.start.texts import texts
    from netcheck.system.new_files import lay_out
    from netcheck.system.origin import requirement

    chassis = answers(said, _ask)
    made = texts(chassis, install or requirement())
    lay_out(Path(directory), made)
    screen.say(
        f"{visible(str(Path(directory)))}: {len(made)} files written. Every value in {chassis.name}/drawn.netck and"
        f" rewired.netck is invented:\nwrite your own over them. `netcheck all` in that folder looks at both.\n"
    )
    return 0


def _ask(question: "Question", usual: str) -> str:
    """A question to the terminal; without one the usual answer."""
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        return usual
    import click

    choices = question.choices or {}
    width = max(map(len, choices), default=0)
    screen.tell(f"\n{question.words}\n" + "".join(f"  {word:{width}}  {said}\n" for word, said in choices.items()))
    kind = click.Choice(tuple(choices)) if choices else str
    try:
        return str(click.prompt(question.name, usual, type=kind, show_choices=False, err=True))
    except click.Abort:
        raise KeyboardInterrupt from None


@command(
    "Write the page for whoever opens the set next.",
    Given("files", "ORIGINAL REWIRED", many=True),
    Option(("--readings",), "readings", "Readings of the bench sheet that were filled in.", metavar="FILE.csv"),
    asks=(),
)
def record(asked: Asked, files: tuple[str, ...], readings: str | None) -> int:
    """Write the page for whoever opens the set next: -o record.html.

    What was done and why, what was not looked at, findings with their pictures, the supply, the measuring plan or the
    readings, and a slip for the inside of the cabinet. One file that needs no other and no network.
    """
    from netcheck.records import record as recorded
    from netcheck.reports.record import record_page
    from netcheck.system.files import read, reader
    from netcheck.system.patience import patience

    if len(files) != 2:
        raise UsageFault("name two files: the original and the rewired one")
    if not asked.outputs:
        raise UsageFault("say where the page goes: `-o record.html`")
    original, rewired = map(read, files)
    with patience("writing it down"):
        given = read(readings) if readings else None
        report, found = recorded(original, rewired, read=reader(original, rewired), readings=given)
    if found is None:
        return unbuilt(report, asked)
    page = record_page(found)
    return deliver(report, asked, {".html": lambda _report, _style: page})


COMMANDS = (all_chassis, start, record)
