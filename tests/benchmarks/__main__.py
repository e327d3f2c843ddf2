"""One table of ratios, all measured in one run: ``python -m tests.benchmarks``; from the project's folder.

Processor seconds are counted, of which a busy machine takes more for everything alike; runs are interleaved, and the
median of each is taken.
"""

import os
import platform
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator, Mapping
from functools import partial
from pathlib import Path

from tests.benchmarks import growth, in_process
from tests.benchmarks.netlists import PARTS_A_STAGE, write_pair
from tests.benchmarks.structure_growth import renamed_pair
from tests.benchmarks.whole_run import WITH_BYTECODE

__all__ = ["main"]

RUNS = 3
PARTS = 500
EQUAL, FED = f"compare, {PARTS} equal parts", f"compare, {PARTS} parts, a supply"
PAIRS: Mapping[str, Callable[[Path, int], tuple[Path, Path]]] = {
    EQUAL: write_pair,
    f"compare, {PARTS} parts, one fault": partial(write_pair, faults=1),
    f"compare, {PARTS} parts, renamed": renamed_pair,
    FED: partial(write_pair, supply=True),
}
SIZES = (1_000, 3_000, 10_000)  # terminals
SAMPLES = "samples/marram"

Argv = tuple[str, ...]
PASS: Argv = (sys.executable, "-c", "pass")
NUMPY: Argv = (sys.executable, "-c", "import numpy")


def _netcheck(*words: str) -> Argv:
    return (sys.executable, "-m", "netcheck", *words)


def _compared(folder: Path, made: Callable[[Path, int], tuple[Path, Path]]) -> Argv:
    """A comparison of two files that are written into a folder of their own."""
    folder.mkdir()
    return _netcheck("compare", *map(str, made(folder, -(-PARTS // PARTS_A_STAGE))))


def commands() -> Mapping[str, Argv]:
    """A run of each command on the largest sample, by what it is called."""
    one, other, after = (f"{SAMPLES}/{state}.netck" for state in ("original", "faulty", "converted"))
    return {
        "check": _netcheck("check", one),
        "compare": _netcheck("compare", one, other),
        "lugs": _netcheck("lugs", one),
        "supply": _netcheck("supply", one),
        "bench": _netcheck("bench", one),
        "job": _netcheck("job", one, after),
        "buy": _netcheck("buy", after),
        "why": _netcheck("why", "floating-ground"),
    }


def spent(argv: Argv) -> float:
    """Processor seconds of one run, which must do its job."""
    with subprocess.Popen(argv, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, env=WITH_BYTECODE) as ran:
        _, status, used = os.wait4(ran.pid, 0)
        ran.returncode = os.waitstatus_to_exitcode(status)
        told = ran.stderr.read().decode() if ran.stderr else ""
    if ran.returncode not in (0, 1) or "Traceback" in told:
        sys.exit(f"{' '.join(argv)} ended with {ran.returncode}:\n{told}")
    return used.ru_utime + used.ru_stime


def medians(measured: Mapping[str, Callable[[], float]]) -> dict[str, float]:
    """The median of each, all of them in turn; the first turn compiles and fills the disk's cache."""
    turns = [{name: take() for name, take in measured.items()} for _ in range(RUNS + 1)][1:]
    return {name: statistics.median(turn[name] for turn in turns) for name in measured}


def starting() -> Iterator[tuple[str, float, str]]:
    """What whole runs cost over the interpreter alone, and those with a supply over numpy."""
    with tempfile.TemporaryDirectory() as folder:
        pairs = {name: _compared(Path(folder) / str(n), made) for n, (name, made) in enumerate(PAIRS.items())}
        runs = {**commands(), **pairs, "pass": PASS, "numpy": NUMPY}
        took = medians({name: partial(spent, argv) for name, argv in runs.items()})
    for name in commands():
        yield f"{name}, largest sample", took[name] / took["pass"], "python -c pass"
    for name in PAIRS:
        yield name, took[name] / took["pass"], "python -c pass"
    yield "a supply in it", (took[FED] - took[EQUAL]) / took["numpy"], "importing numpy, more than without"
    for name in ("check", "supply"):
        yield f"{name}, largest sample", took[name] / took["numpy"], "importing numpy"


def working() -> Iterator[tuple[str, float, str]]:
    """Parsing and comparing beside plain tools on the same text and graph."""
    took = medians(in_process.TAKEN)
    yield "parsing", took["parse"] / took["tokens"], "splitting the same text into tokens"
    for library in ("networkx", "igraph"):
        yield "comparing, same names", took["named"] / took[library], f"components by {library}, both states"
    yield "recognising, all renamed", took["structure"] / took["isomorphic"], "isomorphism by igraph, same graph"


def growing() -> Iterator[tuple[str, float, str]]:
    """The exponent of a comparison's time, and its memory a terminal."""
    found = {}
    for size in SIZES:
        argv = (sys.executable, "-m", "tests.benchmarks.growth", growth.PIECE, str(size))
        took, megabytes = subprocess.run(argv, capture_output=True, text=True, check=True).stdout.split()
        found[size] = float(took), float(megabytes)
    yield "exponent of a comparison", growth.exponent([(n, took) for n, (took, _) in found.items()]), "1: linear"
    least, most = found[SIZES[0]][1], found[SIZES[-1]][1]
    yield "memory of a comparison", (most - least) * 1000 / (SIZES[-1] - SIZES[0]), "kB a terminal, both files"


def main() -> None:
    """Prints the table, the machine first."""
    sys.stdout.write(f"{_machine()}\n\n{'what':30} {'ratio':>8}  over\n")
    for measure in (starting, working, growing):
        for what, ratio, over in measure():
            sys.stdout.write(f"{what:30} {ratio:8.2f}  {over}\n")
            sys.stdout.flush()


def _machine() -> str:
    about = Path("/proc/cpuinfo")
    lines = about.read_text(encoding="utf-8").splitlines() if about.is_file() else []
    named = next((line.partition(": ")[2] for line in lines if line.startswith("model name")), platform.machine())
    load = f", {os.getloadavg()[0]:.0f} runs waiting for them" if hasattr(os, "getloadavg") else ""
    return f"{named}, {os.cpu_count()} cores{load}; Python {platform.python_version()}"


if __name__ == "__main__":
    main()
