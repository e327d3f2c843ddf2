"""The options that commands share, taken as one value."""

import functools
from collections.abc import Callable, Mapping
from pathlib import Path

import click

from netcheck.system.delivery import Asked

__all__ = ["ANNOTATE", "ENGINE", "JSON", "LINES", "NARROW", "PAPER", "WATCH", "asks"]

Command = Callable[..., int]

_ALWAYS = (
    click.option("-o", "--output", "outputs", multiple=True, type=click.Path(path_type=Path), metavar="FILE",
                 help="Write to a file; its ending says the kind. May be given several times."),
    click.option("--overwrite", is_flag=True, help="Replace the file even if netcheck did not write it."),
    click.option("--strict", is_flag=True, help="Count the run as failed from LOOK on, not from STOP."),
    click.option("--color", type=click.Choice(("auto", "always", "never")), default="auto", show_default=True,
                 help="Colour the text; stronger than CLICOLOR_FORCE, FORCE_COLOR and NO_COLOR."),
)  # fmt: skip
LINES = click.option("--lines", "way", flag_value="lines", help="Show one finding per line, for an editor to jump to.")
JSON = click.option("--json", "way", flag_value=".json", help="Show it as JSON, for programs.")
ANNOTATE = click.option("--annotate", type=click.Choice(("github",)),
                         help="Show what that service turns into annotations on the lines of a change.")  # fmt: skip
ENGINE = click.option("--engine", metavar="PROGRAM",
                       help="The engine that draws .png; else NETCHECK_ENGINE, else the one found.")  # fmt: skip
PAPER = click.option("--paper", type=click.Choice(("a4", "letter", "poster")),
                      help="Pages, or one sheet as large as needed; --whole is one sheet unless told.")  # fmt: skip
WATCH = click.option("--watch", is_flag=True, help="Look again whenever a list is saved, until Ctrl-C.")
NARROW = click.option("--narrow", is_flag=True, help="A picture in one column of 360 px, for a phone or tablet.")


def asks(*more: Callable[[Command], Command]) -> Callable[[Command], Command]:
    """Adds options to a command, which takes what they ask for as one value."""

    def decorated(command: Command) -> Command:
        @functools.wraps(command)
        def run(outputs: tuple[Path, ...], color: str, *, overwrite: bool, strict: bool, **others: object) -> int:
            way, engine = others.pop("way", None), others.pop("engine", None)
            way = others.pop("annotate", None) or way
            paper = "narrow" if others.pop("narrow", False) else str(others.pop("paper", None) or "")
            others.pop("paper", None)
            asked = Asked(outputs, overwrite, strict, color, str(way or ""), str(engine) if engine else None, paper)
            if others.pop("watch", False):
                return _watching(functools.partial(command, asked, **others), others)
            return command(asked, **others)

        asking: Command = run
        options: tuple[Callable[[Command], Command], ...] = (*_ALWAYS, *more)
        for option in reversed(options):
            asking = option(asking)
        return asking

    return decorated


def _watching(run: Callable[[], int], others: Mapping[str, object]) -> int:
    from netcheck.system.watch import again_on_save

    named = others.get("files") or ()
    return again_on_save(run, [str(file) for file in named] if isinstance(named, tuple) else ())
