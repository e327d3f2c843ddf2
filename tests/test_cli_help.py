"""What helps to call the commands: completion, the page for man, looking again on save, a word where it takes long."""

import os
import re
import shutil
import subprocess
import sys
import time
from pathlib import Path

import click
import pytest

from netcheck import api
from netcheck.cli import main
from netcheck.cli_help import chassis_names
from netcheck.core.errors import UsageFault
from netcheck.reports.man_page import Entry, man_page
from netcheck.system import many
from netcheck.system.watch import again_on_save

ROOT = Path(__file__).parents[1]
SHELLS = ("bash", "zsh", "fish")


@pytest.fixture(autouse=True)
def _folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def completed(*words: str) -> list[str]:
    """What is offered for the last word, as bash asks for it."""
    typed = {"COMP_WORDS": " ".join(("netcheck", *words)), "COMP_CWORD": str(len(words))}
    environment = os.environ | typed | {"_NETCHECK_COMPLETE": "bash_complete"}
    ran = subprocess.run(
        [sys.executable, "-c", "from netcheck.cli import main; main()"],
        env=environment | {"PYTHONPATH": str(ROOT)}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert ran.stderr == ""
    return ran.stdout.split()


def test_rules_chassis_options_and_files_are_completed() -> None:
    Path("netcheck.toml").write_text('[chassis.skerry]\ndrawn = "x"\n[chassis.marram]\ndrawn = "y"\n')
    assert completed("why", "floating-g") == ["plain,floating-ground"]
    assert completed("all", "sk") == ["plain,skerry"]
    assert completed("compare", "lists/or") == ["file,lists/or"]
    assert completed("compare", "--wat") == ["plain,--watch"]
    assert completed("compare", "-o", "x") == ["file,x"]
    Path("netcheck.toml").write_text("broken")
    assert completed("all", "sk") == []
    assert "plain,compare" in completed("comp")


@pytest.mark.parametrize("shell", SHELLS)
def test_a_shell_is_told_whom_to_ask(shell: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["completion", shell]) == 0
    script = capsys.readouterr().out
    assert f"_NETCHECK_COMPLETE={shell}_complete" in script
    if shell == "bash":
        read = subprocess.run(
            [shutil.which("bash") or "", "-n"], input=script, capture_output=True, text=True, check=False
        )
        assert (read.returncode, read.stderr) == (0, "")


def test_the_page_for_man_has_every_command_and_option(capsys: pytest.CaptureFixture[str]) -> None:
    main(["--help"])
    names = re.findall(r"^  (\w+)  ", capsys.readouterr().out.partition("Commands:")[2], flags=re.MULTILINE)
    options = set()
    for name in names:
        main([name, "--help"])
        options |= set(re.findall(r"  (--[a-z-]+)", capsys.readouterr().out))
    assert main(["man"]) == 0
    page = capsys.readouterr().out
    assert page.startswith('.TH NETCHECK 1 "" "netcheck ')
    assert re.findall(r"^\.SS netcheck (\w+)", page, re.MULTILINE) == names
    assert len(options) > 20
    assert {option for option in options if option.replace("-", "\\-") not in page} == set()
    macros = {line.split()[0] for line in page.splitlines() if line.startswith((".", "'"))}
    assert macros == {".TH", ".SH", ".SS", ".PP", ".TP", ".B", ".I", ".nf", ".fi"}


WRITES = "check compare draw supply bench job buy lugs all record"
OPTIONS = {
    "-o, --output FILE": (WRITES, "Write to a file; its ending says the kind. May be given several times."),
    "--overwrite": (WRITES, "Replace the file even if netcheck did not write it."),
    "--strict": (WRITES, "Count the run as failed from LOOK on, not from STOP."),
    "--color [auto|always|never]": (
        WRITES, "Colour the text; stronger than CLICOLOR_FORCE, FORCE_COLOR and NO_COLOR. [default: auto]"),
    "--lines": ("check compare all", "Show one finding per line, for an editor to jump to."),
    "--json": ("check compare lugs supply all", "Show it as JSON, for programs."),
    "--annotate [github]": (
        "check compare all", "Show what that service turns into annotations on the lines of a change."),
    "--engine PROGRAM": (
        "compare draw all", "The engine that draws .png; else NETCHECK_ENGINE, else the one found."),
    "--paper [a4|letter|poster]": (
        "compare draw all", "Pages, or one sheet as large as needed; --whole is one sheet unless told."),
    "--narrow": ("compare draw all", "A picture in one column of 360 px, for a phone or tablet."),
    "--watch": ("check compare draw all", "Look again whenever a list is saved, until Ctrl-C."),
}  # fmt: skip


def test_every_command_says_of_its_options_what_they_are_for(capsys: pytest.CaptureFixture[str]) -> None:
    main(["--help"])
    names = re.findall(r"^  (\w+)  ", capsys.readouterr().out.partition("Commands:")[2], flags=re.MULTILINE)
    for name in names:
        main([name, "--help"])
        said = " ".join(capsys.readouterr().out.partition("Options:")[2].split())
        for option, (commands, words) in OPTIONS.items():
            assert (f"{option} {words} -" in said) is (name in commands.split()), (name, option)


def test_a_line_to_copy_is_not_broken(capsys: pytest.CaptureFixture[str]) -> None:
    line = "netcheck completion bash > ~/.local/share/bash-completion/completions/netcheck"
    main(["completion", "--help"])
    assert line in [shown.strip() for shown in capsys.readouterr().out.splitlines()]
    main(["man"])
    page = capsys.readouterr().out
    assert f"\n.nf\nFor bash:\n  {line}\n.fi\n" in page.replace("\\-", "-")
    assert "\b" not in page


def test_no_word_of_a_help_is_a_macro() -> None:
    page = man_page("1", ".SH a\\b", [Entry(".x", "'y", (("-o", ".z"),))])
    assert "\\&.SH a\\eb\n" in page
    assert "\n\\&'y\n.TP\n.B \\-o\n\\&.z\n" in page


class Clock:
    """Pauses that save files, one after the other, and then interrupt."""

    def __init__(self, *texts: str) -> None:
        self._texts = list(texts)

    def __call__(self, _: float) -> None:
        if not self._texts:
            raise KeyboardInterrupt
        Path("a.netck").write_text(self._texts.pop(0))


def test_it_looks_again_when_a_list_is_saved(capsys: pytest.CaptureFixture[str]) -> None:
    Path("a.netck").write_text("one")
    Path("beside.netck").write_text("as it was")
    seen: list[str] = []

    def run() -> int:
        seen.append(Path("a.netck").read_text())
        if seen[-1] == "three":
            raise UsageFault("not now")
        return len(seen)

    assert again_on_save(run, ["a.netck"], Clock("two!", "three", "fours")) == 4
    assert seen == ["one", "two!", "three", "fours"]
    err = capsys.readouterr().err
    assert err.count("---- a.netck\n") == 3
    assert "netcheck: not now\n" in err


def test_a_new_list_beside_is_seen_and_other_files_are_not() -> None:
    Path(".venv").mkdir()
    Path("sub").mkdir()
    pauses = iter([Path("notes.txt"), Path(".venv/x.netck"), Path("sub/b.netck"), None])
    counted: list[int] = []

    def pause(_: float) -> None:
        new = next(pauses)
        if new is None:
            raise KeyboardInterrupt
        counted.append(len(runs))
        new.write_text("x")

    runs: list[int] = []

    def run() -> int:
        runs.append(0)
        return 0

    again_on_save(run, ["a.netck"], pause)
    assert counted == [1, 1, 1]
    assert len(runs) == 2


def test_a_list_that_is_away_for_a_moment_is_no_fault() -> None:
    """An editor that saves by renaming; here a link that leads nowhere yet."""
    Path("a.netck").symlink_to("b.txt")
    texts = iter(["one", None])

    def pause(_: float) -> None:
        text = next(texts)
        if text is None:
            raise KeyboardInterrupt
        Path("b.txt").write_text(text)

    runs: list[bool] = []

    def run() -> int:
        runs.append(Path("a.netck").exists())
        return len(runs)

    assert again_on_save(run, ["a.netck"], pause) == 2
    assert runs == [False, True]


def test_watch_ends_with_the_status_of_the_last_run(monkeypatch: pytest.MonkeyPatch) -> None:
    for file in ("original", "faulty"):
        shutil.copy(ROOT / f"samples/one-can/{file}.netck", f"{file}.netck")

    def interrupt(_: float) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(time, "sleep", interrupt)
    monkeypatch.setattr("netcheck.system.watch.again_on_save.__defaults__", (interrupt,))
    assert main(["compare", "original.netck", "faulty.netck", "--watch", "--lines"]) == 1
    assert main(["check", "original.netck", "--watch", "--lines"]) == 0


def test_completion_knows_every_rule() -> None:
    from netcheck.cli_help import rule_names

    context = click.Context(click.Command("why"))
    parameter = click.Argument(["rule"])
    assert [one.value for one in rule_names(context, parameter, "")] == list(api.rule_names())


def test_chassis_are_completed_from_the_settings_that_are_named_and_none_from_settings_with_a_mistake() -> None:
    parameter = click.Argument(["names"])

    def offered(typed: str, **named: str) -> list[str]:
        context = click.Context(click.Command("all"))
        context.params.update(named)
        return [one.value for one in chassis_names(context, parameter, typed)]

    assert offered("") == []
    Path("netcheck.toml").write_text('[chassis.skerry]\ndrawn = "x"\n[chassis.marram]\ndrawn = "y"\n')
    Path("other.toml").write_text('[chassis.sallow]\ndrawn = "x"\n')
    assert offered("") == ["skerry", "marram"]
    assert offered("sk") == ["skerry"]
    assert offered("s", named="other.toml") == ["sallow"]
    Path("netcheck.toml").write_text("[chassis.skerry]\ndrawing = 1\n")
    assert offered("") == []


def test_a_hidden_command_is_not_on_the_page_for_man(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    from netcheck.cli_help import completion

    monkeypatch.setattr(completion, "hidden", True)
    assert main(["man"]) == 0
    page = capsys.readouterr().out
    assert ".SS netcheck completion" not in page
    assert ".SS netcheck man" in page


def test_progress_is_told_on_a_terminal_after_a_moment(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    patient = many.PATIENCE
    monkeypatch.setattr(many, "PATIENCE", -1.0)
    assert list(many.with_progress(iter("abc"), 3)) == ["a", "b", "c"]
    assert capsys.readouterr().err == ""  # no terminal
    monkeypatch.setattr(many, "PATIENCE", patient)
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    assert list(many.with_progress(iter("abc"), 3)) == ["a", "b", "c"]
    assert capsys.readouterr().err == ""
    monkeypatch.setattr(many, "PATIENCE", -1.0)
    assert list(many.with_progress(iter("abc"), 3)) == ["a", "b", "c"]
    assert capsys.readouterr().err == "\r1 of 3\r2 of 3\r3 of 3\r\033[K"


def test_the_list_of_commands_cuts_no_sentence(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--help"]) == 0
    listed = capsys.readouterr().out.partition("Commands:")[2].splitlines()
    assert len(listed) > 12
    assert [line for line in listed if line.strip() and not line.endswith(".")] == []
    assert "..." not in "".join(listed)
