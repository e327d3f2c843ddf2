"""What a run leaves behind: a text on the screen, files of the kinds that their endings say, an exit status."""

import sys
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.errors import UsageFault
from netcheck.core.report import Report
from netcheck.core.visible import visible
from netcheck.reports import FORMATS, PICTURES, SCREENS, Renderer, Style, counted
from netcheck.system import screen

if TYPE_CHECKING:
    from pathlib import Path

    from netcheck.model.graph import CircuitGraph
    from netcheck.model.places import PlaceListing

__all__ = [
    "CLEAN",
    "FINDINGS",
    "NOT_DONE",
    "Asked",
    "deliver",
    "made",
    "picture",
    "refuse_other_endings",
    "status",
    "unbuilt",
]

CLEAN, FINDINGS, NOT_DONE = 0, 1, 2
INTERRUPTED = 130  # as a shell has it: 128 and the number of the signal


class Asked(Struct, frozen=True):
    """What a command with a report is asked for, beside its own files.

    ``way`` is what the screen shows, the ending of a kind of file or a name of ``SCREENS``; ``engine`` is the
    drawing engine named; ``paper`` is what a picture is laid out for, empty where nothing is said.
    """

    outputs: "tuple[Path, ...]" = ()
    overwrite: bool = False
    strict: bool = False
    colour: str = "auto"
    way: str = ""
    engine: str | None = None
    paper: str = ""


def deliver(
    report: Report,
    asked: Asked,
    formats: Mapping[str, Renderer] = FORMATS,
    *,
    drawn: bool = False,
    outcome: str | None = None,
) -> int:
    """Shows the report or writes it to every file asked for, all made before the first is written.

    ``formats`` are the texts that the command has, and ``drawn`` says that it has pictures too. ``outcome`` is told of
    every file instead of the number of findings.

    Raises:
        UsageFault: A file's ending says nothing that the command makes.
        EnvironmentFault: A file can't be written, or there is no drawing engine for a picture.
    """
    known = (*formats, *(PICTURES if drawn else ()))
    refuse_other_endings(asked.outputs, known)
    report = replace(report, strict=asked.strict)
    kept = tuple(path for path in asked.outputs if report.built or _ending(path, known) in formats)
    if asked.way or not asked.outputs:
        render = SCREENS.get(asked.way) or formats[asked.way or ".txt"]
        screen.say(render(report, screen.style(sys.stdout, asked.colour)))
    elif kept != asked.outputs:
        unbuilt(report, asked)
    _write(
        [(path, made(report, path, asked, formats)) for path in kept],
        counted(report) if outcome is None else outcome,
        asked,
        report.files,
    )
    return status(report, asked)


def picture(report: Report, shown: "Sequence[PlaceListing] | CircuitGraph | None", asked: Asked) -> int:
    """Writes the sheet of findings to every file asked for.

    ``shown`` are the places of one state, to draw it from below, or the graph of a state, to draw all of the circuit.

    Raises:
        UsageFault: No file is named, or one whose ending is no picture's.
    """
    if not asked.outputs:
        raise UsageFault("say where the picture goes: `-o faulty.svg` (or .png, .dot)")
    refuse_other_endings(asked.outputs, PICTURES)
    if not report.built:
        return unbuilt(report, asked)
    if shown is None:
        return deliver(report, asked, {}, drawn=True)
    endings = [(path, _ending(path, PICTURES)) for path in asked.outputs]
    files = [(path, _drawn(report, shown, kind, asked)) for path, kind in endings]
    _write(files, counted(report) if report.diagnostics else "", asked, report.files)
    return status(report, asked)


def _drawn(report: Report, shown: "Sequence[PlaceListing] | CircuitGraph", kind: str, asked: Asked) -> bytes:
    from netcheck.system.picture import place_picture, whole_picture

    if isinstance(shown, Sequence):
        return place_picture(report, shown, kind, asked.engine, asked.paper or "a4")
    return whole_picture(report, shown, kind, asked.engine, asked.paper or "poster")


def unbuilt(report: Report, asked: Asked) -> int:
    """Tells why there is nothing to show."""
    screen.tell(FORMATS[".txt"](report, screen.style(sys.stderr, asked.colour)))
    return NOT_DONE


def status(report: Report, asked: Asked) -> int:
    """The exit status: STOP counts, and LOOK too where it is strict."""
    if not report.built:
        return NOT_DONE
    report = replace(report, strict=asked.strict)
    return FINDINGS if any(map(report.fails, report.diagnostics)) else CLEAN


def refuse_other_endings(outputs: "Iterable[Path]", known: tuple[str, ...]) -> None:
    """Raises UsageFault for the first file whose ending says nothing that is known."""
    for path in outputs:
        if not _ending(path, known):
            page = "; the page of a set is written by `netcheck record`" if _ending(path, (".html",)) else ""
            raise UsageFault(f"`{path}` ends in none of {', '.join(known)}; the ending says what to write{page}")


def _ending(path: "Path", known: Iterable[str]) -> str:
    """The longest known ending of a file's name; empty without one."""
    return max((one for one in known if path.name.lower().endswith(one)), key=len, default="")


def made(report: Report, path: "Path", asked: Asked, formats: Mapping[str, Renderer]) -> bytes:
    """The report as its file's ending says.

    Raises:
        EnvironmentFault: There is no drawing engine for a picture.
    """
    ending = _ending(path, (*formats, *PICTURES))
    if ending in formats:
        text = formats[ending](report, Style(colour=ending == ".txt" and asked.colour == "always"))
        return text.encode("utf-8", "backslashreplace")
    from netcheck.system.picture import sheet_picture

    return sheet_picture(report, ending, asked.engine, asked.paper or "a4")


def _write(made: "list[tuple[Path, bytes]]", outcome: str, asked: Asked, read: Iterable[str]) -> None:
    """Writes the files and says so, since the exit status may be 1 although all went well."""
    if not made:
        return
    from netcheck.system.outputs import refuse_what_was_read, write

    refuse_what_was_read((path for path, _ in made), read)
    say = screen.tell if asked.way else screen.say  # what a program reads stays alone on standard output
    for path, data in made:
        write(path, data, overwrite=asked.overwrite)
        say(f"{visible(str(path))} written{f': {outcome}' if outcome else ''}\n")
