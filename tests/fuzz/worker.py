"""Carries out runs in a process of its own, which a crash or a hang may end: a run a line in, an outcome a line out."""

import io
import os
import resource
import signal
import sys
import tempfile
import time
import traceback
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from pathlib import Path
from types import FrameType

from netcheck.cli import main
from tests.fuzz.run import Outcome, Run

__all__ = ["MOST_SECONDS", "TooLongError", "carried_out"]

MOST_SECONDS = 5.0
"""CPU seconds of one run."""

MOST_MEMORY = 1_500_000_000
"""Bytes that a worker may ask for; its libraries take a third of that in addresses alone."""


class TooLongError(BaseException):
    """The run has had its seconds; no `except Exception` may keep it."""


def carried_out(run: Run, folder: Path) -> Outcome:
    """What the run came to; the working folder is the one given."""
    run.write(folder)
    out, err, before = _stream(), _stream(), time.process_time()
    status, fault = -1, ""
    with _limited(), redirect_stdout(out), redirect_stderr(err):
        try:
            status = main(run.words)
        except (Exception, TooLongError):  # noqa: BLE001 - any of them is what is looked for
            fault = traceback.format_exc()
    made = folder / run.output if run.output else None
    return Outcome(
        status,
        _text(out),
        _text(err),
        made.read_text(encoding="utf-8") if made and made.is_file() else "",
        fault,
        time.process_time() - before,
        resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
    )


def _stream() -> io.TextIOWrapper:
    return io.TextIOWrapper(io.BytesIO(), encoding="utf-8", newline="")


def _text(stream: io.TextIOWrapper) -> str:
    stream.flush()
    stream.seek(0)
    return stream.read()


@contextmanager
def _limited() -> Iterator[None]:
    def late(_: int, __: FrameType | None) -> None:
        raise TooLongError

    before = signal.signal(signal.SIGPROF, late)
    signal.setitimer(signal.ITIMER_PROF, MOST_SECONDS)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def serve() -> None:
    """Answers until its input ends."""
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
    answers = os.fdopen(os.dup(1), "w", encoding="ascii")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name, "set")  # what is said of it must not differ
        folder.mkdir()
        os.chdir(folder)
        for line in sys.stdin:
            answers.write(carried_out(Run.of(line), folder).as_json() + "\n")
            answers.flush()


if __name__ == "__main__":
    serve()
