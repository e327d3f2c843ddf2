"""How commands are called, as data: what each is given and what it may be asked, and a plain call read by that.

click reads a call as well, from the same data (``by_click``), but costs half as much again as Python itself. It is left
to what is rare: help, completion, and every call with a mistake or an unusual spelling in it.
"""

import functools
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from msgspec import Struct

from netcheck.system.delivery import Asked

if TYPE_CHECKING:
    from pathlib import Path

__all__ = [
    "ANNOTATE", "ENGINE", "JSON", "LINES", "NARROW", "PAPER", "WATCH", "Command", "Given", "Option", "command", "plain",
]  # fmt: skip

Run = Callable[..., int]


class Given(Struct, frozen=True):
    """What a command is given without an option: one word or ``many``; ``offers`` names what a shell completes."""

    name: str
    metavar: str = ""
    many: bool = False
    required: bool = True
    offers: str = "netlists"


class Option(Struct, frozen=True):
    """An option by its spellings, and the parameter ``to`` which its value goes.

    One without ``metavar`` and ``choices`` is a flag, which may have something to say (``sets``). ``least`` makes
    its value a number.
    """

    flags: tuple[str, ...]
    to: str
    help: str
    metavar: str = ""
    choices: tuple[str, ...] = ()
    usual: str | None = None
    sets: str = ""
    multiple: bool = False
    least: int | None = None
    offers: str = ""

    @property
    def is_flag(self) -> bool:
        """Whether it takes no value."""
        return not (self.metavar or self.choices)

    @property
    def unsaid(self) -> object:
        """What its parameter is where the option is not used."""
        if self.multiple:
            return ()
        return False if self.is_flag and not self.sets else self.usual


class Command(Struct, frozen=True):
    """A command: its line in the list of all, what it is given, its options, and what runs it."""

    name: str
    short: str
    text: str
    given: Given
    options: tuple[Option, ...]
    run: Run


_ALWAYS = (
    Option(("-o", "--output"), "outputs", "Write to a file; its ending says the kind. May be given several times.",
           metavar="FILE", multiple=True, offers="netlists"),
    Option(("--overwrite",), "overwrite", "Replace the file even if netcheck did not write it."),
    Option(("--strict",), "strict", "Count the run as failed from LOOK on, not from STOP."),
    Option(("--color",), "color", "Colour the text; stronger than CLICOLOR_FORCE, FORCE_COLOR and NO_COLOR.",
           choices=("auto", "always", "never"), usual="auto"),
)  # fmt: skip
LINES = Option(("--lines",), "way", "Show one finding per line, for an editor to jump to.", sets="lines")
JSON = Option(("--json",), "way", "Show it as JSON, for programs.", sets=".json")
ANNOTATE = Option(("--annotate",), "annotate", choices=("github",),
                  help="Show what that service turns into annotations on the lines of a change.")  # fmt: skip
ENGINE = Option(("--engine",), "engine", "The engine that draws .png; else NETCHECK_ENGINE, else the one found.",
                metavar="PROGRAM")  # fmt: skip
PAPER = Option(("--paper",), "paper", "Pages, or one sheet as large as needed; --whole is one sheet unless told.",
               choices=("a4", "letter", "poster"))  # fmt: skip
WATCH = Option(("--watch",), "watch", "Look again whenever a list is saved, until Ctrl-C.")
NARROW = Option(("--narrow",), "narrow", "A picture in one column of 360 px, for a phone or tablet.")


def command(
    short: str, given: Given, *options: Option, asks: tuple[Option, ...] | None = None, name: str = ""
) -> Callable[[Run], Command]:
    """Makes a command of a function; with ``asks`` its first argument is all that a report is asked for."""

    def made(run: Run) -> Command:
        if asks is None:
            return Command(name or run.__name__, short, run.__doc__ or "", given, options, run)
        wanted = (*options, *_ALWAYS, *asks)
        return Command(name or run.__name__, short, run.__doc__ or "", given, wanted, functools.partial(_asked, run))

    return made


def _asked(run: Run, *, outputs: tuple[str, ...], color: str, overwrite: bool, strict: bool, **others: object) -> int:
    way, engine = others.pop("way", None), others.pop("engine", None)
    way = others.pop("annotate", None) or way
    paper = "narrow" if others.pop("narrow", False) else str(others.pop("paper", None) or "")
    others.pop("paper", None)
    paths = _paths(outputs) if outputs else ()
    asked = Asked(paths, overwrite, strict, color, str(way or ""), str(engine) if engine else None, paper)
    if others.pop("watch", False):
        return _watching(functools.partial(run, asked, **others), others)
    return run(asked, **others)


def _paths(outputs: tuple[str, ...]) -> "tuple[Path, ...]":
    from pathlib import Path

    return tuple(map(Path, outputs))


def _watching(run: Callable[[], int], others: Mapping[str, object]) -> int:
    from netcheck.system.watch import again_on_save

    named = others.get("files") or ()
    return again_on_save(run, [str(file) for file in named] if isinstance(named, tuple) else ())


def plain(command: Command, words: Sequence[str]) -> dict[str, Any] | None:
    """The parameters of a call as it is mostly written; None where click has to be asked what it means."""
    known = {flag: option for option in command.options for flag in option.flags}
    found: dict[str, Any] = {option.to: option.unsaid for option in command.options}
    said: set[str] = set()
    rest: list[str] = []
    coming = iter(words)
    for word in coming:
        if word and word[0] != "-":
            rest.append(word)
            continue
        option = known.get(word)
        value = None if option is None else _value(option, coming)
        if option is None or value is None or (option.to in said and not option.multiple):
            return None
        said.add(option.to)
        found[option.to] = (*found[option.to], value) if option.multiple else value
    return found if _placed(command.given, rest, found) else None


def _value(option: Option, coming: Iterator[str]) -> str | bool | None:
    if option.is_flag:
        return option.sets or True
    word = next(coming, "")
    plain = word and word[0] != "-" and option.least is None and word in (option.choices or (word,))
    return word if plain else None


def _placed(given: Given, rest: list[str], found: dict[str, Any]) -> bool:
    """Puts the words without an option where they belong; whether there are as many as there have to be."""
    found[given.name] = tuple(rest) if given.many else next(iter(rest), None)
    return bool(rest or not given.required) and (given.many or len(rest) < 2)
