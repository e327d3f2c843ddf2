"""Standard output: colour, signs and width as the terminal and the environment say."""

import io
import os
from collections.abc import Mapping

import pytest

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
