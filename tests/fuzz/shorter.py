"""Takes lines out of an input that was kept, as long as the same is wrong: ``python -m tests.fuzz.shorter FILE``."""

import json
import sys
from dataclasses import replace
from pathlib import Path

from tests.fuzz.judge import wrongs
from tests.fuzz.mates import Mates
from tests.fuzz.run import Run

__all__ = ["shortened"]


def shortened(run: Run, mates: Mates) -> Run:
    """The run with as few lines in its files as still give what is wrong with it."""
    wanted = _wrong(run, mates)
    for name in run.files:
        size = len(run.files[name].split("\n"))
        while size := size // 2:
            run = _without(run, name, size, wanted, mates)
    return run


def _without(run: Run, name: str, size: int, wanted: str, mates: Mates) -> Run:
    """Without each stretch of so many lines that is not needed."""
    at = 0
    while at < len(lines := run.files[name].split("\n")):
        less = replace(run, files={**run.files, name: "\n".join((*lines[:at], *lines[at + size :]))})
        if _wrong(less, mates) == wanted:
            run = less
        else:
            at += size
    return run


def _wrong(run: Run, mates: Mates) -> str:
    """What is wrong, and the last place of a traceback."""
    first, second = mates.both(run)
    told = wrongs(run, first, second)
    return "".join((*told, *first.fault.splitlines()[-3:-2]))


def main() -> None:
    """Writes the file anew."""
    path = Path(sys.argv[1])
    kept = json.loads(path.read_text(encoding="ascii"))
    with Mates() as mates:
        short = shortened(Run.of(json.dumps(kept)), mates)
    path.write_text(json.dumps({**kept, **json.loads(short.as_json())}, indent=1) + "\n", encoding="ascii")


if __name__ == "__main__":
    main()
