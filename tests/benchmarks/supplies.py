"""How long a supply takes: the running state by the number of reactive elements, and the whole table of each sample.

Each table, from the text to the findings, also as a multiple of importing numpy.

Run as ``python -m tests.benchmarks.supplies``.
"""

import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from netcheck.api import supply
from netcheck.system.files import read, reader
from tests.benchmarks.whole_run import seconds
from tests.test_electrical_random_supplies import chain, timed

SAMPLES = Path(__file__).parents[2] / "samples"
TRIES = 10
LINES = ("import numpy", "pass")


def main() -> None:
    """Prints the least of some tries, in milliseconds."""
    for reactive in (15, 30):
        network = chain(reactive - 3)
        least = min(timed(network) for _ in range(TRIES))
        print(f"running state, {reactive} reactive elements: {least * 1000:.0f} ms")  # noqa: T201
    numpy, nothing = (min(seconds((sys.executable, "-c", line), 0) for _ in range(TRIES)) for line in LINES)
    for path in sorted(SAMPLES.glob("*/original.netck")):
        source = read(str(path))
        least = min(_seconds(partial(supply, source, reader(source))) for _ in range(3))
        multiple = least / (numpy - nothing)
        print(f"whole table, {path.parent.name}: {least * 1000:.0f} ms, {multiple:.1f} imports of numpy")  # noqa: T201


def _seconds(job: Callable[[], object]) -> float:
    start = time.perf_counter()
    job()
    return time.perf_counter() - start


if __name__ == "__main__":
    main()
