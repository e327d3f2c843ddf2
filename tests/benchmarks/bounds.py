"""CPU and memory of inputs that once took unbounded time, at the size at which they were found and at four times.

Run it from the project's folder: ``python -m tests.benchmarks.bounds [--times 1 4] [WORD]``; with a word, only the
inputs with it in their name. Each run is a process of its own, ended by force after ``PATIENCE`` seconds of CPU.
"""

import argparse
import math
import os
import resource
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.bounds import CASES
from tests.bounds.case import Case

PATIENCE = 20
MOST_MEMORY = 2_000_000_000
SECONDS, MEGABYTES = 5.0, 300.0


def measured(case: Case, size: int) -> tuple[float, float, int]:
    """CPU seconds, peak memory in MB and the exit status of one run; a negative status is a run ended by force."""
    with tempfile.TemporaryDirectory() as folder:
        words = case.write(Path(folder), size)
        ran = subprocess.Popen(
            (sys.executable, "-m", "netcheck", *words),
            cwd=folder,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            preexec_fn=_bounded,  # noqa: PLW1509 - one thread
        )
        _, status, used = os.wait4(ran.pid, 0)
        ran.returncode = os.waitstatus_to_exitcode(status)
    return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, ran.returncode


def _bounded() -> None:
    resource.setrlimit(resource.RLIMIT_CPU, (PATIENCE, PATIENCE + 1))
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))


def main() -> None:
    """Prints a line an input: seconds and megabytes by size, the exponent, and what is over the bounds."""
    asked = argparse.ArgumentParser()
    asked.add_argument("word", nargs="?", default="")
    asked.add_argument("--times", nargs="+", type=float, default=[1, 4])
    given = asked.parse_args()
    for case in CASES:
        if given.word in case.name:
            _line(case, given.times)


def _line(case: Case, times: list[float]) -> None:
    runs = [(case.size * more, *measured(case, max(1, round(case.size * more)))) for more in times]
    told = "".join(f"{seconds:8.2f} s {megabytes:6.0f} MB ({status:3})" for _, seconds, megabytes, status in runs)
    first, last = runs[0], runs[-1]
    slope = math.log(last[1] / first[1]) / math.log(last[0] / first[0]) if len(runs) > 1 else 0.0
    meant = (2,) if case.refused else (0, 1)
    over = [one for one in runs if one[1] > SECONDS or one[2] > MEGABYTES or one[3] not in meant]
    sys.stdout.write(f"{case.name:42} {case.size:6} {told}  {slope:5.2f}{'  OVER' if over else ''}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main()
