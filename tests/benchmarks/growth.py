"""How time and memory of parsing and comparing grow from 300 to 30,000 terminals.

Run it from the project's folder: ``python -m tests.benchmarks.growth``. Each size runs in a process of its own.
"""

import math
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from netcheck import api
from netcheck.core.source import Source
from netcheck.system.files import read, reader
from tests.benchmarks.netlists import TERMINALS_A_STAGE, write_pair

SIZES = (300, 1_000, 3_000, 10_000, 30_000)
BEST_OF = 3
FAULTS = 5
PIECE = "--one"
MEGABYTE = 1024  # ru_maxrss counts in KiB on Linux


def one(terminals: int) -> tuple[float, float]:
    """Seconds of the best of some runs, and the process's peak memory in MB."""
    with tempfile.TemporaryDirectory() as folder:
        pair = write_pair(Path(folder), math.ceil(terminals / TERMINALS_A_STAGE), faults=FAULTS)
        sources = [read(path) for path in pair]
        best = min(timed(sources[0], sources[1]) for _ in range(BEST_OF))
    return best, _peak() / MEGABYTE


def _peak() -> int:
    """KiB; on Linux from its own status, for what the machine counts goes on from the process that began this one."""
    status = Path("/proc/self/status")
    lines = status.read_text(encoding="ascii").splitlines() if status.is_file() else []
    own = next((int(line.split()[1]) for line in lines if line.startswith("VmHWM:")), None)
    return own or resource.getrusage(resource.RUSAGE_SELF).ru_maxrss


def timed(original: Source, rewired: Source) -> float:
    """Processor seconds of one comparison, which must find the faults."""
    start = time.process_time()
    report = api.compare(original, rewired, reader(original, rewired))
    took = time.process_time() - start
    if len(report.diagnostics) != FAULTS:
        sys.exit(f"{len(report.diagnostics)} findings instead of {FAULTS}: {report.diagnostics[:1]}")
    return took


def exponent(points: list[tuple[float, float]]) -> float:
    """The slope of the straight line through the points on paper with two logarithmic scales."""
    xs, ys = ([math.log(point[i]) for point in points] for i in (0, 1))
    middle, height = sum(xs) / len(xs), sum(ys) / len(ys)
    rise = sum((x - middle) * (y - height) for x, y in zip(xs, ys, strict=True))
    return rise / sum((x - middle) ** 2 for x in xs)


def main() -> None:
    """Prints a line a size, and the exponents over all sizes and over the last three, where start-up is spread."""
    points: list[tuple[float, float]] = []
    sys.stdout.write("terminals        time    peak memory\n")
    for size in SIZES:
        argv = (sys.executable, "-m", "tests.benchmarks.growth", PIECE, str(size))
        ran = subprocess.run(argv, capture_output=True, text=True, check=False)
        if ran.returncode:
            sys.exit(ran.stderr)
        took, memory = map(float, ran.stdout.split())
        points.append((size, took))
        sys.stdout.write(f"{size:9,}  {took * 1000:7.0f} ms  {memory:8.0f} MB\n")
    sys.stdout.write(f"exponent   {exponent(points):.2f} over all, {exponent(points[-3:]):.2f} over the last three\n")


if __name__ == "__main__":
    if sys.argv[1:2] == [PIECE]:
        sys.stdout.write("{} {}\n".format(*one(int(sys.argv[2]))))
    else:
        main()
