"""A copy of the project in which one module at a time is changed, and the tests that run there."""

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from tests.mutants.watched import Watched, of_records

__all__ = ["Outcome", "Workshop"]

ROOT = Path(__file__).parents[2]
_KEPT_OUT = shutil.ignore_patterns(".*", "__pycache__", "*.pyc")


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a run of tests came to: whether one turned red, and which, or what else ended it."""

    red: bool
    what: str


class Workshop:
    """One copy. The installed project is hidden behind it, and no compiled module outlives a change."""

    def __init__(self, folder: Path) -> None:
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

    def watched(self, room: str, files: Sequence[str], jobs: int) -> Watched:
        """Runs the tests of the sound project once and notes what each runs of a folder of netcheck."""
        record = self.folder / "watched"
        told = {"NETCHECK_WATCH": str(self.folder / "netcheck" / room), "NETCHECK_WATCHED": str(record)}
        run = self._pytest([*files, "-n", str(jobs if jobs > 1 else 0)], told, 7200)
        paths = sorted(self.folder.glob("watched*.json"))
        found = of_records((json.loads(path.read_text(encoding="utf-8")) for path in paths), f"{self.folder}{os.sep}")
        for path in paths:
            path.unlink()
        if not found.seconds:
            said = "no end within its time" if run is None else (run.stdout + run.stderr)[-2000:]
            raise SystemExit(f"no test of the sound project runs netcheck/{room}:\n{said}")
        return found

    def tried(self, module: str, text: str, tests: Sequence[str], seconds: float) -> Outcome:
        """Runs tests in their order, until one is red, with a module's text replaced; longer than that is red too."""
        path = self.folder / module
        sound = path.read_text(encoding="utf-8")
        chosen = self.folder / "chosen.txt"
        chosen.write_text("\n".join(tests), encoding="utf-8")
        files = dict.fromkeys(test.partition("::")[0] for test in tests)
        path.write_text(text, encoding="utf-8")
        try:
            run = self._pytest([*files, "-n", "0", "-x"], {"NETCHECK_CHOSEN": str(chosen)}, seconds)
        finally:
            path.write_text(sound, encoding="utf-8")
        return _outcome(run, len(tests))

    def _pytest(
        self, words: Sequence[str], told: Mapping[str, str], seconds: float
    ) -> subprocess.CompletedProcess[str] | None:
        command = [
            sys.executable, "-B", "-m", "pytest", "-q", "-p", "tests.mutants.watch", "-p", "no:cacheprovider",
            "--hypothesis-seed=0", "--tb=line", *words,
        ]  # fmt: skip
        environment = {**os.environ, "PYTHONPATH": str(self.folder), "PYTHONDONTWRITEBYTECODE": "1", **told}
        try:
            return subprocess.run(
                command, cwd=self.folder, env=environment, capture_output=True, text=True, check=False, timeout=seconds
            )
        except subprocess.TimeoutExpired:
            return None


def _outcome(run: subprocess.CompletedProcess[str] | None, count: int) -> Outcome:
    if run is None:
        return Outcome(red=True, what="no end within its time")
    failed = [line.partition(" ")[2] for line in run.stdout.splitlines() if line.startswith(("FAILED", "ERROR"))]
    if failed:
        return Outcome(red=True, what=failed[0].partition(" - ")[0])
    if run.returncode == 0:
        return Outcome(red=False, what=f"{count} tests green")
    return Outcome(red=True, what=(run.stdout + run.stderr).strip().splitlines()[-1][:120])
