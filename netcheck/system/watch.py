"""Looking again whenever a netlist is saved."""

import gc
import os
import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path

from netcheck.core.errors import NetcheckError
from netcheck.core.visible import visible
from netcheck.system import screen
from netcheck.system.files import roots

__all__ = ["PAUSE", "again_on_save"]

PAUSE = 0.4
"""Seconds between two looks at the files' times."""

_WATCHED = (".netck", "netcheck.toml")

Times = Mapping[str, tuple[int, int]]


def again_on_save(run: Callable[[], int], files: Iterable[str], pause: Callable[[float], None] = time.sleep) -> int:
    """Runs, and runs again when a netlist or the settings near the files change, until it is interrupted.

    Near is the repository of each file, or its folder. Returns the exit status of the last run.
    """
    folders = roots(files)
    status = 0
    try:
        while True:
            before = _times(folders)
            status = _once(run)
            gc.collect()  # it may go on for a day, and a run by itself is hardly swept
            screen.tell("waiting for a file to be saved; Ctrl-C ends\n")
            while (now := _times(folders)) == before:
                pause(PAUSE)
            screen.tell(f"\n---- {', '.join(_changed(before, now))}\n\n")
    except KeyboardInterrupt:
        return status


def _once(run: Callable[[], int]) -> int:
    try:
        return run()
    except NetcheckError as fault:
        screen.tell("".join(f"netcheck: {visible(line)}\n" for line in str(fault).splitlines()))
        return 2


def _times(folders: Iterable[str]) -> Times:
    found = {}
    for path in sorted({path for folder in folders for path in _netlists(folder)}):
        try:
            said = path.stat()
        except OSError:
            continue  # an editor that saves by renaming has it away for a moment
        found[str(path)] = (said.st_mtime_ns, said.st_size)
    return found


def _netlists(folder: str) -> Iterator[Path]:
    for top, inner, names in os.walk(folder):
        inner[:] = [name for name in inner if not name.startswith(".")]
        yield from (Path(top, name) for name in names if name.endswith(_WATCHED))


def _changed(before: Times, now: Times) -> list[str]:
    paths = sorted(path for path in {*before, *now} if before.get(path) != now.get(path))
    return [visible(Path(path).name) for path in paths]
