"""What is set in a process of its own before anything is imported, and what is left as it was."""

import atexit
import gc
import os
import sys
from collections.abc import Callable
from importlib.abc import Loader, MetaPathFinder
from importlib.machinery import ModuleSpec
from types import ModuleType

import pytest

from netcheck.__main__ import main


class Set:
    """What a run has set: how much garbage may gather, and what is done at the end."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, command: Callable[[], int]) -> None:
        self.gathered: list[tuple[int, ...]] = []
        self.at_the_end: list[object] = []
        monkeypatch.setattr(gc, "set_threshold", lambda *counts: self.gathered.append(counts))
        monkeypatch.setattr(atexit, "register", self.at_the_end.append)
        monkeypatch.setattr("netcheck.cli.main", command)


def test_what_a_run_makes_is_hardly_swept_and_what_is_old_never(monkeypatch: pytest.MonkeyPatch) -> None:
    """Python sweeps at every few thousand; a set of 500 parts makes a hundred thousand objects, and keeps them all."""
    found = Set(monkeypatch, lambda: 7)
    assert main() == 7
    ((young, *old),) = found.gathered
    assert 100_000 < young < 1_000_000
    assert min(old) > 100_000
    assert found.at_the_end == [gc.freeze]


@pytest.mark.parametrize(("before", "after"), [(None, "1"), ("4", "4")])
def test_threads_are_one_unless_somebody_says_otherwise(
    before: str | None, after: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("OPENBLAS_NUM_THREADS", before or "")
    if before is None:
        monkeypatch.delenv("OPENBLAS_NUM_THREADS")
    Set(monkeypatch, lambda: 0)
    main()
    assert os.environ["OPENBLAS_NUM_THREADS"] == after


def test_an_interrupt_before_the_command_runs_is_one_line(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def command() -> int:
        raise KeyboardInterrupt

    Set(monkeypatch, command)
    assert main() == 130  # 128 and the number of the signal, as shells have it
    assert capsys.readouterr().err == "netcheck: stopped\n"


class Seen(MetaPathFinder, Loader):
    """Imports nothing for msgspec, and notes whether it could have had the module that it asks for first."""

    def __init__(self) -> None:
        self.could: list[object] = []

    def find_spec(self, fullname: str, *_: object, **__: object) -> ModuleSpec | None:
        return ModuleSpec(fullname, self) if fullname == "msgspec" else None

    def create_module(self, spec: ModuleSpec) -> ModuleType:
        self.could.append(sys.modules.get("typing_extensions", "to be looked for"))
        return ModuleType(spec.name)

    def exec_module(self, module: ModuleType) -> None:
        """Nothing is in it."""


@pytest.mark.parametrize("loaded", [False, True])
def test_records_are_loaded_without_what_they_do_not_need(loaded: bool, monkeypatch: pytest.MonkeyPatch) -> None:  # noqa: FBT001
    """Unless it is there already; afterwards it can be imported as ever."""
    other = ModuleType("typing_extensions")
    monkeypatch.setitem(sys.modules, "typing_extensions", other)
    if not loaded:
        monkeypatch.delitem(sys.modules, "typing_extensions")
    monkeypatch.delitem(sys.modules, "msgspec")
    seen = Seen()
    monkeypatch.setattr(sys, "meta_path", [seen, *sys.meta_path])
    Set(monkeypatch, lambda: 0)
    main()
    assert seen.could == [other if loaded else None]
    assert sys.modules.get("typing_extensions", "to be looked for") == (other if loaded else "to be looked for")
