"""Standard output: what it can show, and writing to it."""

import os
import sys
from collections.abc import Mapping
from typing import TextIO

from netcheck.core.errors import EnvironmentFault
from netcheck.reports.renderer import Style
from netcheck.system.files import reason

__all__ = ["open_what_is_closed", "say", "style", "tell", "unwritable"]

_NARROWEST = 40
_WIDE = 100  # columns where no terminal says its own
_SIGNS = "\N{OVERLINE}\N{MINUS SIGN}\N{HORIZONTAL ELLIPSIS}\N{GREEK CAPITAL LETTER OMEGA}\N{MICRO SIGN}"


def style(stream: TextIO, colour: str, environment: Mapping[str, str] = os.environ) -> Style:
    """What a stream can show; ``colour`` is ``auto``, ``always`` or ``never``, and ``auto`` asks the environment."""
    terminal = stream.isatty()
    return Style(
        colour=colour == "always" or (colour == "auto" and _coloured(environment, terminal=terminal)),
        unicode=_shows_signs(stream),
        width=_columns(stream) if terminal else _WIDE,
    )


def open_what_is_closed() -> None:
    """A run that is started with its output closed (``>&-``) speaks to nobody; its status still says what was found."""
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:
            setattr(sys, name, os.fdopen(os.open(os.devnull, os.O_WRONLY), "w", encoding="utf-8"))


def say(text: str) -> None:
    """Writes to standard output; that its reader went away is no fault of the run.

    Raises:
        EnvironmentFault: The machine doesn't let us, as where its disk is full.
    """
    try:
        _write(text)
    except BrokenPipeError:
        _hush()
    except OSError as error:
        raise unwritable(error) from None


def unwritable(error: OSError) -> EnvironmentFault:
    """The fault of an output that takes no more; what it has not taken is let go."""
    _hush()
    return EnvironmentFault(f"the output can't be written: {reason(error)}")


def tell(text: str) -> None:
    """Writes to standard error; with nobody to read it, or no room, nothing is to be done."""
    try:
        sys.stderr.write(text)
        sys.stderr.flush()
    except OSError:
        return


def _write(text: str) -> None:
    try:
        sys.stdout.write(text)
    except UnicodeEncodeError:
        encoding = sys.stdout.encoding
        sys.stdout.write(text.encode(encoding, "backslashreplace").decode(encoding))
    sys.stdout.flush()


def _coloured(environment: Mapping[str, str], *, terminal: bool) -> bool:
    """The strongest word decides: CLICOLOR_FORCE, then FORCE_COLOR, then NO_COLOR, then the terminal."""
    for name in ("CLICOLOR_FORCE", "FORCE_COLOR"):
        if environment.get(name, "") not in ("", "0"):
            return True
    return terminal and not environment.get("NO_COLOR") and environment.get("TERM") != "dumb"


def _shows_signs(stream: TextIO) -> bool:
    try:
        _SIGNS.encode(stream.encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True


def _columns(stream: TextIO) -> int:
    try:
        columns = os.get_terminal_size(stream.fileno()).columns
    except OSError:
        return _WIDE
    return max(columns, _NARROWEST) if columns else _WIDE


def _hush() -> None:
    """Lets the interpreter's last flush go nowhere, else it complains about the pipe at exit."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
    os.close(nowhere)
