"""Two processes that carry out the same runs, each with its own order of sets; one that dies is begun anew."""

import os
import select
import subprocess
import sys
from contextlib import ExitStack, suppress
from pathlib import Path
from types import TracebackType
from typing import IO, Self

from tests.fuzz.run import Outcome, Run

__all__ = ["Mates"]

_LONGEST_WAIT = 180.0
"""Seconds of the clock: a run that its own limit of CPU does not end is ended by force."""

_MOST_CPU = 20.0

ROOT = Path(__file__).parents[2]


class Mates:
    """``longest`` are the CPU seconds of the longest run so far, ``megabytes`` the most that a process took."""

    def __init__(self) -> None:
        self.longest = 0.0
        self.megabytes = 0.0
        self._processes = [_begun(seed) for seed in (1, 2)]

    def both(self, run: Run) -> tuple[Outcome, Outcome]:
        """What the run comes to in each process."""
        for process in self._processes:
            _send(process, run)
        first, second = (self._answer(at) for at in (0, 1))
        return first, second

    def _answer(self, at: int) -> Outcome:
        process = self._processes[at]
        assert process.stdout is not None
        used = _state(process.pid)[1]
        ready: list[IO[str]] = []
        while not ready:
            ready, _, _ = select.select([process.stdout], [], [], _LONGEST_WAIT)
            state, now = _state(process.pid)
            if state != "R" or now - used > _MOST_CPU:  # else it only waits for a busy machine
                break
        line = process.stdout.readline() if ready else ""
        if not line:
            process.kill()
            ended = process.wait()
            with suppress(BrokenPipeError), process:
                pass  # closes its pipes
            self._processes[at] = _begun(at + 1)
            return Outcome(-1, fault=f"{'' if ready else 'TooLongError: '}no answer, ended with {ended}")
        outcome = Outcome.of(line)
        self.longest = max(self.longest, outcome.seconds)
        self.megabytes = max(self.megabytes, outcome.megabytes)
        return outcome

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        with ExitStack() as stack:
            for process in self._processes:
                stack.enter_context(process)  # waits for its end, which the end of its input brings


def _state(pid: int) -> tuple[str, float]:
    """Whether a process could run (``R``), and its CPU seconds; nothing of either where the machine does not say."""
    about = Path(f"/proc/{pid}/stat")
    fields = about.read_text(encoding="utf-8").rpartition(")")[2].split() if about.is_file() else []
    if not fields:
        return "", 0.0
    return fields[0], (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def _begun(seed: int) -> subprocess.Popen[str]:
    return subprocess.Popen(
        (sys.executable, "-m", "tests.fuzz.worker"),
        cwd=ROOT,
        env={**os.environ, "PYTHONHASHSEED": str(seed)},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        encoding="ascii",
    )


def _send(process: subprocess.Popen[str], run: Run) -> None:
    assert process.stdin is not None
    with suppress(BrokenPipeError):  # one that is dead is found to be so by its answer
        process.stdin.write(run.as_json() + "\n")
        process.stdin.flush()
