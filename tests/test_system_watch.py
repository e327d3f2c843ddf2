"""Looking again: what is saved near the files is seen, and nothing else."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from netcheck.core.errors import UsageFault
from netcheck.system.watch import PAUSE, again_on_save


@pytest.fixture(autouse=True)
def _folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "a.netck").write_text("state found\n")
    (tmp_path / "sets").mkdir()
    (tmp_path / ".old").mkdir()


def _later(name: str) -> None:
    """Saved again with as many bytes; a file system may tell its times by the second."""
    said = Path(name).stat()
    os.utime(name, ns=(said.st_atime_ns, said.st_mtime_ns + 2_000_000_000))


SEEN: dict[str, tuple[Callable[[], object], str]] = {
    "a new netlist in a folder below": (lambda: Path("sets/b.netck").touch(), "b.netck"),
    "other bytes": (lambda: Path("a.netck").write_text("state rewired\n"), "a.netck"),
    "as many bytes": (lambda: _later("a.netck"), "a.netck"),
    "the settings": (lambda: Path("netcheck.toml").touch(), "netcheck.toml"),
    "a netlist taken away": (lambda: Path("a.netck").unlink(), "a.netck"),
    "two at once": (lambda: [Path(name).write_text("") for name in ("sets/b.netck", "c.netck")], "c.netck, b.netck"),
    "a name that would act on the terminal": (lambda: Path("\x1b[2J.netck").touch(), "<U+001B>[2J.netck"),
}
UNSEEN: dict[str, Callable[[], object]] = {
    "a report": lambda: Path("report.txt").touch(),
    "a folder that hides": lambda: Path(".old/a.netck").touch(),
    "nothing": lambda: None,
}


def watched(acts: list[Callable[[], object]], statuses: list[int]) -> int:
    """A watch in whose pauses somebody acts, and who ends it after the last."""
    left = [*acts]

    def pause(seconds: float) -> None:
        assert seconds == PAUSE
        if not left:
            raise KeyboardInterrupt
        left.pop(0)()

    return again_on_save(lambda: statuses.pop(0), ["a.netck"], pause)


@pytest.mark.parametrize("case", SEEN)
def test_what_is_saved_is_looked_at_again_and_named(case: str, capsys: pytest.CaptureFixture[str]) -> None:
    act, named = SEEN[case]
    assert watched([act], [1, 0]) == 0
    waiting = "waiting for a file to be saved; Ctrl-C ends\n"
    assert capsys.readouterr().err == f"{waiting}\n---- {named}\n\n{waiting}"


@pytest.mark.parametrize("case", UNSEEN)
def test_what_is_no_netlist_of_the_work_is_not(case: str) -> None:
    assert watched([UNSEEN[case]], [1]) == 1


def test_a_run_that_can_not_be_done_is_told_and_the_next_save_waited_for(capsys: pytest.CaptureFixture[str]) -> None:
    def run() -> int:
        raise UsageFault("there is no part `\x1b[2J`\nsay another")

    def pause(_: float) -> None:
        raise KeyboardInterrupt

    assert again_on_save(run, ["a.netck"], pause) == 2
    told = "netcheck: there is no part `<U+001B>[2J`\nnetcheck: say another\n"
    assert capsys.readouterr().err == f"{told}waiting for a file to be saved; Ctrl-C ends\n"
