import os
import stat
import sys
import sysconfig
from pathlib import Path

import pytest

from netcheck.core.errors import EnvironmentFault
from netcheck.system.graphviz import TIME_LIMIT, VARIABLE, Engine, find_engine

# The stand-ins are found and started as a drawing engine is, by their own name, which Windows does for no script.
# Everywhere else, and in CI, nothing here is skipped.
needs_shell = pytest.mark.skipif(sys.platform == "win32", reason="Windows starts no file by its first line")

GOOD = 'graph f1 {\n\ta [label=a]\n\tb [label=b]\n\ta -- b [label="a -- b"]\n\ta -- b [style=invis]\n}\n'
NO_PACKAGE = "netcheck.system.graphviz._installed"


def program(folder: Path, name: str, script: str) -> str:
    path = folder / name
    path.write_text(f"#!/bin/sh\n{script}\n")
    path.chmod(path.stat().st_mode | stat.S_IXUSR)
    return str(path)


def same_file(command: str, path: Path) -> bool:
    return Path(command).samefile(path)


def test_the_packages_program_is_found_with_an_empty_path(tmp_path: Path) -> None:
    engine = find_engine(None, {"PATH": str(tmp_path)})
    assert Path(engine.command).parent == Path(sysconfig.get_path("scripts"))
    assert Path(engine.command).stem == "graphviz-pure"
    assert engine.time_limit == TIME_LIMIT == 20


@needs_shell
def test_the_order_is_flag_then_variable_then_package_then_path(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    flag, variable, dot = (program(tmp_path, name, "exit 0") for name in ("flag", "variable", "dot"))
    everything = {VARIABLE: variable, "PATH": str(tmp_path)}
    assert find_engine(flag, everything).command == flag
    assert find_engine(None, everything).command == variable
    assert find_engine("dot", everything).command == dot
    assert Path(find_engine(None, {"PATH": str(tmp_path)}).command).stem == "graphviz-pure"
    monkeypatch.setattr(NO_PACKAGE, lambda: None)
    assert find_engine(None, {"PATH": str(tmp_path)}).command == dot
    assert find_engine(None, {VARIABLE: "", "PATH": str(tmp_path)}).command == dot


@needs_shell
def test_what_is_installed_for_one_user_alone_is_found_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    own = tmp_path / "own"
    own.mkdir()
    command = program(own, "graphviz-pure", "exit 0")
    users = sysconfig.get_preferred_scheme("user")
    monkeypatch.setattr(sysconfig, "get_path", lambda _, scheme: str(own if scheme == users else tmp_path))
    assert find_engine(None, {"PATH": ""}).command == command


@needs_shell
def test_no_name_of_an_engine_acts_on_the_terminal(tmp_path: Path) -> None:
    with pytest.raises(EnvironmentFault, match=r"^`<U\+001B>\[2J`, named by --engine, is not"):
        find_engine("\x1b[2J", {"PATH": str(tmp_path)})
    with pytest.raises(EnvironmentFault, match=r"drawing engine `[^`]*<U\+001B>\[2J` wrote nothing$"):
        Engine(program(tmp_path, "\x1b[2J", "cat >/dev/null")).layout(GOOD)


@needs_shell
def test_this_processs_environment_serves_unless_another_is_given(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    variable = program(tmp_path, "engine", "exit 0")
    monkeypatch.setenv(VARIABLE, variable)
    assert find_engine().command == variable


@pytest.mark.parametrize(
    ("explicit", "environment", "named"),
    [("/nowhere/dot", {}, "--engine"), (None, {VARIABLE: "/nowhere/dot"}, VARIABLE)],
)
def test_a_named_engine_that_is_not_there_is_never_replaced(
    explicit: str | None, environment: dict[str, str], named: str
) -> None:
    with pytest.raises(EnvironmentFault, match=f"`/nowhere/dot`, named by {named}, is not a program"):
        find_engine(explicit, environment)


def test_without_any_engine_the_message_says_how_to_get_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(NO_PACKAGE, lambda: None)
    with pytest.raises(EnvironmentFault) as caught:
        find_engine(None, {"PATH": str(tmp_path)})
    for word in (
        "no drawing engine",
        "pip install graphviz-pure",
        "--engine PATH",
        VARIABLE,
        "need none as .svg and .dot",
    ):
        assert word in str(caught.value)


@needs_shell
def test_a_program_of_the_current_directory_is_not_run_by_its_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    program(tmp_path, "dot", "exit 0")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(NO_PACKAGE, lambda: None)
    with pytest.raises(EnvironmentFault, match="no drawing engine"):
        find_engine(None, {"PATH": os.curdir})
    assert same_file(find_engine("./dot", {"PATH": ""}).command, tmp_path / "dot")


def test_the_engine_answers_in_three_formats() -> None:
    engine = find_engine(None, {})
    assert '"bb"' in engine.layout(GOOD)
    assert engine.svg(GOOD).count("<path") == 1
    assert engine.png(GOOD).startswith(b"\x89PNG")


def test_an_invisible_line_is_not_missed() -> None:
    engine = find_engine(None, {})
    assert engine.svg('graph x {\n\ta -- b [style=invis]\n\ta -- b [label="style=invis"]\n}\n')


@pytest.mark.parametrize(
    ("source", "message"),
    [
        ("graph {", "failed with exit status"),
        # The engine draws this node empty and writes the picture.
        ("graph { a [label=<<FONT></FONT>>] }", "failed with exit status"),
        # A node without a place: the engine leaves its lines out.
        ("graph x {\n\tgraph [layout=nop2]\n\ta\n\tb\n\ta -- b\n}\n", "the drawing engine"),
    ],
)
def test_what_the_engine_only_half_draws_is_a_fault(source: str, message: str) -> None:
    with pytest.raises(EnvironmentFault, match=message):
        find_engine(None, {}).svg(source)


@needs_shell
@pytest.mark.parametrize(
    ("script", "message"),
    [
        ("cat >/dev/null; echo oops >&2; exit 3", "failed with exit status 3: oops"),
        ("cat >/dev/null; exit 1", "failed with exit status 1$"),
        ("cat >/dev/null; echo '<svg/>'; echo 'a warning' >&2", "exit status 0: a warning"),
        ("cat >/dev/null; printf '\\033[2J' >&2", "exit status 0: <U\\+001B>"),
        ("cat >/dev/null; printf 'x%.0s' $(seq 500) >&2", "status 0: x{200}$"),
        ("cat >/dev/null", "wrote nothing"),
        ("exit 0", "wrote nothing"),
        ("cat >/dev/null; printf '\\377'", "not UTF-8"),
        ("cat >/dev/null; echo '<svg></svg>'", "drew 0 of 1 lines"),
    ],
)
def test_a_failing_engine_is_a_fault_with_its_own_words(tmp_path: Path, script: str, message: str) -> None:
    engine = Engine(program(tmp_path, "engine", script))
    with pytest.raises(EnvironmentFault, match=message):
        engine.svg(GOOD)


@needs_shell
@pytest.mark.parametrize(
    ("answer", "message"),
    [
        ("{}", "drew 0 of 1 lines"),
        ('{"edges": [{}]}', "drew 0 of 1 lines"),  # a line without a place
        ('{"edges": [{"pos": "e", "style": "invis"}]}', "drew 0 of 1 lines"),
        ("[]", "not JSON"),
        ("x", "not JSON"),
    ],
)
def test_a_png_is_only_trusted_after_its_lines_were_counted(tmp_path: Path, answer: str, message: str) -> None:
    engine = Engine(program(tmp_path, "engine", f"cat >/dev/null; echo '{answer}'"))
    with pytest.raises(EnvironmentFault, match=message):
        engine.png(GOOD)


@needs_shell
def test_an_engine_that_does_not_end_is_stopped(tmp_path: Path) -> None:
    engine = Engine(program(tmp_path, "engine", "exec sleep 60"), time_limit=0.2)
    with pytest.raises(EnvironmentFault, match=r"did not end within 0\.2 s"):
        engine.layout(GOOD)


def test_a_file_that_is_no_program_is_a_fault(tmp_path: Path) -> None:
    with pytest.raises(EnvironmentFault, match="can't be run"):
        Engine(str(tmp_path)).layout(GOOD)
