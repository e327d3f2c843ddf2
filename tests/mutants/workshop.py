"""A copy of the project in which one module at a time is changed, and the tests that run there."""

import os
import shutil
import socket
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Self

from tests.mutants.ready import Try, Watch
from tests.mutants.watched import Watched, noted

__all__ = ["Outcome", "Workshop"]

ROOT = Path(__file__).parents[2]
_KEPT_OUT = shutil.ignore_patterns(".*", "__pycache__", "*.pyc")
_BUSY = 20  # on a busy machine a second of processor takes so many
_PYTEST = ("-B", "-m", "pytest", "-q", "-n", "0", "-p", "no:cacheprovider", "--hypothesis-seed=0", "--tb=line")


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a run of tests came to: whether one turned red, and which, or what else ended it."""

    red: bool
    what: str


class Workshop:
    """One copy, with a process that has collected the tests. The installed project is hidden behind it."""

    def __init__(self, folder: Path, files: Sequence[str]) -> None:
        self.folder = folder
        folder.mkdir()
        for entry in ROOT.iterdir():
            if entry.name.startswith("."):
                continue
            target = folder / entry.name
            if entry.is_dir():
                shutil.copytree(entry, target, ignore=_KEPT_OUT)
            else:
                shutil.copy(entry, target)
        self._environment = {**os.environ, "PYTHONPATH": str(folder), "PYTHONDONTWRITEBYTECODE": "1"}
        here, there = socket.socketpair()
        command = [sys.executable, *_PYTEST, "-p", "tests.mutants.ready", *files]
        environment = {**self._environment, "NETCHECK_READY": str(there.fileno())}
        self._log = (folder / "log").open("w+", encoding="utf-8")
        self._process = subprocess.Popen(
            command, cwd=folder, env=environment, stdout=self._log, stderr=self._log, pass_fds=(there.fileno(),)
        )
        there.close()
        self._orders = Connection(here.detach())
        self._collected = False

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        """Ends the process that waits."""
        self._orders.close()
        self._process.wait()
        self._log.close()

    def watched(self) -> Watched:
        """Runs the tests of the sound project once and notes what each runs."""
        files = sorted(path.relative_to(ROOT).as_posix() for path in (ROOT / "netcheck").rglob("*.py"))
        found = self._ordered(Watch(files))
        if not isinstance(found, dict) or not found:
            raise SystemExit(f"no test of the sound project was watched: {found}\n{self._said()}")
        return noted(found)

    def tried(self, order: Try) -> Outcome:
        """Carries out an order; what is cold, or can't be exchanged in a process that runs, in a process of its own."""
        self._wait()
        path = self.folder / order.module
        path.write_text(order.text, encoding="utf-8")
        try:
            told = None if order.cold else self._ordered(order)
            return self._cold(order) if told is None else _outcome(str(told), len(order.tests))
        finally:
            path.write_text(order.sound, encoding="utf-8")

    def _wait(self) -> None:
        """Until the tests are collected: a change on the disk before that would be imported for good."""
        if not self._collected:
            self._received()
            self._collected = True

    def _ordered(self, order: Try | Watch) -> object:
        self._wait()
        self._orders.send(order)
        return self._received()

    def _received(self) -> object:
        try:
            return self._orders.recv()
        except (EOFError, ConnectionResetError) as error:
            raise SystemExit(f"the tests do not wait any more:\n{self._said()}") from error

    def _said(self) -> str:
        return (self.folder / "log").read_text(encoding="utf-8")[-2000:]

    def _cold(self, order: Try) -> Outcome:
        chosen = self.folder / "chosen.txt"
        chosen.write_text("\n".join(order.tests), encoding="utf-8")
        files = dict.fromkeys(test.partition("::")[0] for test in order.tests)
        try:
            run = subprocess.run(
                [sys.executable, *_PYTEST, "-p", "tests.mutants.chosen", "-x", *files],
                cwd=self.folder, env={**self._environment, "NETCHECK_CHOSEN": str(chosen)}, capture_output=True,
                text=True, check=False, timeout=_BUSY * order.seconds,
            )  # fmt: skip
        except subprocess.TimeoutExpired:
            return Outcome(red=True, what="no end within its time")
        return _cold_outcome(run, len(order.tests))


def _outcome(told: str, count: int) -> Outcome:
    return Outcome(red=True, what=told) if told else Outcome(red=False, what=f"{count} tests green")


def _cold_outcome(run: subprocess.CompletedProcess[str], count: int) -> Outcome:
    failed = [line.partition(" ")[2] for line in run.stdout.splitlines() if line.startswith(("FAILED", "ERROR"))]
    if failed:
        return Outcome(red=True, what=failed[0].partition(" - ")[0])
    if run.returncode == 0:
        return Outcome(red=False, what=f"{count} tests green")
    return Outcome(red=True, what=(run.stdout + run.stderr).strip().splitlines()[-1][:120])
