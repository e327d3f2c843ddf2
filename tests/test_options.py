"""A plain call is read without click, and means what click reads in it; every other call is left to click."""

import signal

import click
import pytest
from hypothesis import given
from hypothesis import strategies as st

from netcheck.by_click import as_click, called
from netcheck.cli import commands
from netcheck.options import Command, Given, plain

WORDS = (
    "a.netck",
    "b.netck",
    "",
    "-",
    "--",
    "github",
    "always",
    "a4",
    "x=1",
    "3",
    "-x",
    "--js",
    "--nope",
    "--help",
    "-h",
)


def words_of(command: Command) -> st.SearchStrategy[list[str]]:
    """Files, options of the command with and without their values, and what is none of these."""
    flags = [flag for option in command.options for flag in option.flags]
    valued = [(flag, value) for option in command.options if not option.is_flag for flag in option.flags
              for value in (*option.choices, "a.netck", "-o", "7")]  # fmt: skip
    pieces = [["a.netck"], *([flag] for flag in flags), *map(list, valued), *([f"{flag}=x"] for flag in flags)]
    mostly = st.lists(st.sampled_from(pieces), max_size=5)
    odd = st.lists(st.sampled_from([[word] for word in WORDS]), max_size=1)
    return st.tuples(mostly, odd, mostly).map(
        lambda parts: [word for part in parts for piece in part for word in piece]
    )


def by_click(command: Command, words: list[str]) -> dict[str, object] | None:
    """What click makes of the words; None where it refuses them."""
    try:
        return as_click(command).make_context(command.name, list(words)).params
    except (click.ClickException, click.exceptions.Exit):
        return None


CALLS = st.sampled_from(commands()).flatmap(lambda one: st.tuples(st.just(one), words_of(one)))


@given(CALLS)
def test_what_is_plain_means_what_click_reads(call: tuple[Command, list[str]]) -> None:
    command, words = call
    read = plain(command, words)
    if read is not None:
        assert read == by_click(command, words)


def test_calls_as_they_are_mostly_written_are_plain() -> None:
    by_name = {one.name: one for one in commands()}
    for line in (
        "check a", "check a b --lines", "compare a b -o x.svg -o y.json --overwrite --strict --color never",
        "compare a b c --annotate github", "draw --whole --paper letter a", "supply a --swap V1=silicon --json", "why",
        "why loose-lead", "all --settings x", "bench --tubes-in --readings r.csv a",
    ):  # fmt: skip
        name, *words = line.split()
        found = plain(by_name[name], words)
        assert found is not None, line
        assert found == by_click(by_name[name], words)


def test_a_call_that_click_reads_can_be_stopped_too(capsys: pytest.CaptureFixture[str]) -> None:
    def stopped(**_: object) -> int:
        raise KeyboardInterrupt

    waiting = Command("wait", "Wait.", "Wait.", Given("file"), (), stopped)
    assert called([waiting], ["wait", "a.netck"]) == 128 + signal.SIGINT
    assert capsys.readouterr().err.strip() == "netcheck: stopped"
