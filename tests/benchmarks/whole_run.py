"""What a whole ``netcheck compare`` of a 500-part pair costs, beside importing the libraries that it may use.

Run it from the project's folder: ``python -m tests.benchmarks.whole_run``.
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.benchmarks.netlists import PARTS_A_STAGE, write_pair

PARTS = 500
RUNS = 15
BASELINE = (sys.executable, "-c", "import lark, pint, networkx, click")
NOTHING = (sys.executable, "-c", "pass")


# An installed package has its bytecode; a shell that forbids writing it would measure the compiler.
WITH_BYTECODE = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}


def seconds(argv: tuple[str, ...], status: int) -> float:
    """The time of one run, which must end with the exit status."""
    start = time.perf_counter()
    ran = subprocess.run(argv, capture_output=True, text=True, check=False, env=WITH_BYTECODE)
    took = time.perf_counter() - start
    if ran.returncode != status:
        sys.exit(f"{' '.join(argv)} ended with {ran.returncode}, not {status}:\n{ran.stdout}{ran.stderr}")
    return took


def main() -> None:
    """Interleaves the runs, so that a busy machine slows all of them alike, and prints the medians."""
    with tempfile.TemporaryDirectory() as folder:
        pair = write_pair(Path(folder), -(-PARTS // PARTS_A_STAGE), faults=1)
        whole = (sys.executable, "-m", "netcheck", "compare", *map(str, pair))
        kinds = ((whole, 1), (BASELINE, 0), (NOTHING, 0))
        for argv, status in kinds:  # the first run compiles and fills the disk's cache
            seconds(argv, status)
        times = [[seconds(argv, status) for argv, status in kinds] for _ in range(RUNS)]
    run, baseline, nothing = (statistics.median(column) for column in zip(*times, strict=True))
    sys.stdout.write(
        f"netcheck compare, {PARTS} parts  {run * 1000:6.0f} ms\n"
        f"importing the libraries      {baseline * 1000:6.0f} ms\n"
        f"python alone                 {nothing * 1000:6.0f} ms\n"
        f"ratio                        {run / baseline:6.2f}   (median of {RUNS} interleaved runs)\n"
    )


if __name__ == "__main__":
    main()
