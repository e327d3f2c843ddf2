"""Standard output: colour, signs and width as the terminal and the environment say."""

import io
import os
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest

from netcheck.core.errors import EnvironmentFault
from netcheck.system import screen


class Terminal(io.TextIOWrapper):
    """A stream that says it is a terminal."""

    def __init__(self, encoding: str = "utf-8") -> None:
        super().__init__(io.BytesIO(), encoding=encoding)

    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(
    ("flag", "environment", "terminal", "coloured"),
    [
        ("auto", {}, True, True),
        ("auto", {}, False, False),
        ("auto", {"TERM": "dumb"}, True, False),
        ("auto", {"NO_COLOR": "1"}, True, False),
        ("auto", {"NO_COLOR": ""}, True, True),
        ("auto", {"FORCE_COLOR": "1"}, False, True),
        ("auto", {"FORCE_COLOR": "0"}, False, False),
        ("auto", {"NO_COLOR": "1", "FORCE_COLOR": "1"}, False, True),
        ("auto", {"NO_COLOR": "1", "CLICOLOR_FORCE": "1"}, False, True),
        ("auto", {"CLICOLOR_FORCE": "0", "NO_COLOR": "1"}, True, False),
        ("always", {"NO_COLOR": "1"}, False, True),
        ("never", {"CLICOLOR_FORCE": "1", "FORCE_COLOR": "1"}, True, False),
    ],
)
def test_colour(flag: str, environment: Mapping[str, str], *, terminal: bool, coloured: bool) -> None:
    stream = Terminal() if terminal else io.StringIO()
    assert screen.style(stream, flag, environment).colour is coloured


@pytest.mark.parametrize(("encoding", "unicode"), [("utf-8", True), ("ascii", False), ("latin-1", False)])
def test_signs(encoding: str, *, unicode: bool) -> None:
    assert screen.style(Terminal(encoding), "auto", {}).unicode is unicode


def test_width_is_100_where_no_terminal_says_its_own() -> None:
    assert screen.style(io.StringIO(), "auto", {"COLUMNS": "61"}).width == 100
    assert screen.style(Terminal(), "auto", {}).width == 100


@pytest.mark.parametrize(("columns", "width"), [(132, 132), (12, 40), (0, 100)])
def test_width_of_a_terminal(monkeypatch: pytest.MonkeyPatch, columns: int, width: int) -> None:
    monkeypatch.setattr(Terminal, "fileno", lambda _: 1)
    monkeypatch.setattr(os, "get_terminal_size", lambda _: os.terminal_size((columns, 24)))
    assert screen.style(Terminal(), "auto", {}).width == width


def test_a_reader_that_went_away_is_no_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    """As with ``netcheck ... | head``: the pipe is broken, then and at the last flush."""
    reading, writing = os.pipe()
    os.close(reading)
    with os.fdopen(writing, "w", encoding="utf-8") as stream:
        monkeypatch.setattr(sys, "stdout", stream)
        screen.say("one line\n")
        screen.say("and another\n")


def test_nobody_need_read_what_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    class Gone(io.StringIO):
        def write(self, _: str) -> int:
            raise BrokenPipeError

    monkeypatch.setattr(sys, "stderr", Gone())
    screen.tell("waiting\n")


def test_a_sign_that_the_screen_has_not_is_shown_by_its_number(monkeypatch: pytest.MonkeyPatch) -> None:
    written = io.BytesIO()
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(written, encoding="ascii", write_through=True))
    screen.say("10 \u03a9 on B+\n")
    assert written.getvalue().decode() == "10 \\u03a9 on B+\n".replace("\n", os.linesep)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a device that takes nothing, ever, is only had on Linux")
def test_what_an_output_does_not_take_is_told_and_let_go(monkeypatch: pytest.MonkeyPatch) -> None:
    with Path("/dev/full").open("w", encoding="utf-8") as stream:
        monkeypatch.setattr(sys, "stdout", stream)
        with pytest.raises(EnvironmentFault, match=r"^the output can't be written: no space left on device$"):
            screen.say("one line\n")
        stream.flush()  # as the interpreter does at its end


def test_an_output_that_is_closed_takes_any_sign(monkeypatch: pytest.MonkeyPatch) -> None:
    before = sys.stderr
    monkeypatch.setattr(sys, "stdout", None)
    screen.open_what_is_closed()
    assert sys.stderr is before
    with sys.stdout:
        screen.say("10 \u03a9 on B+\n")
