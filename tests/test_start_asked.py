"""The questions about a first chassis, as a terminal shows them and takes the answers."""

import re
import sys
from pathlib import Path

import pytest

from netcheck.cli import main
from netcheck.start.answers import Answers
from netcheck.start.texts import texts


@pytest.fixture
def _empty(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


class Terminal:
    """A terminal on which somebody types."""

    def __init__(self, *lines: str) -> None:
        self._lines = [f"{line}\n" for line in lines]

    def isatty(self) -> bool:
        return True

    def readline(self, *_: int) -> str:
        return self._lines.pop(0)

    def fileno(self) -> int:
        raise OSError


@pytest.mark.usefixtures("_empty")
@pytest.mark.parametrize(
    ("said", "typed", "wanted"),
    [
        (
            (),
            ("Old Mill 3", "table", "dry", "", "single", "110"),
            Answers("Old Mill 3", "table", "dry", "single", on_chassis=False, line="110 V 60 Hz"),
        ),
        (("--title", "X", "--minus", "chassis"), ("can", ""), Answers("X", "can", "tube", "grounded")),
        (("--title", "X"), ("consle", "console", "", "", "", ""), Answers("X")),
    ],
)
def test_a_terminal_is_asked_for_what_is_open(
    said: tuple[str, ...], typed: tuple[str, ...], wanted: Answers, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stdin", Terminal(*typed))
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    assert main(["start", "demo", *said, "--install", "netcheck"]) == 0
    for path, text in texts(wanted, "netcheck").items():
        assert Path("demo", path).read_text(encoding="utf-8") == text


ASKED = """
What is the set called?
title [My first set]:
What is it?
  table      a table set on the line, without a power transformer
  console    a console with a power transformer
  amplifier  an amplifier with two output tubes in push-pull
  doubler    a supply that doubles, behind a transformer
  can        one filter capacitor and what hangs on it
kind [console]:
What is its rectifier?
  tube  a tube
  dry   a dry one: selenium
rectifier [tube]:
Where is B-?
  chassis  B- is the chassis
  apart    B- is kept apart from the chassis
minus [apart]:
Which filter capacitors does it have?
  grounded   a can that is joined to the chassis
  insulated  a can on a wafer
  single     single capacitors, no can
can [insulated]:
What is the line voltage?
line [117 V 60 Hz]: """


@pytest.mark.usefixtures("_empty")
def test_each_question_says_what_may_be_answered_and_what_is_usual(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "stdin", Terminal("Old Mill 3", "table", "", "", "", ""))
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    assert main(["start", "demo", "--install", "netcheck"]) == 0
    assert re.sub(r" $", "", capsys.readouterr().err, flags=re.MULTILINE) == ASKED.rstrip(" ")
