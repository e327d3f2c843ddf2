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
from itertools import count
from pathlib import Path

from tests.benchmarks import growth, in_process, structure_growth
from tests.benchmarks.netlists import PARTS_A_STAGE, write_half_fed, write_pair
from tests.benchmarks.whole_run import WITH_BYTECODE

__all__ = ["main"]

RUNS = 7
PARTS = 500
EQUAL = f"compare, {PARTS} equal parts"
# Of the same parts but for the supply itself, which has some 120 nodes: more than 150 are not worked out.
UNFED, FED = f"compare, {PARTS} other parts", f"compare, {PARTS} parts, a supply"
PAIRS: Mapping[str, Callable[[Path, int], tuple[Path, Path]]] = {
    EQUAL: write_pair,
    f"compare, {PARTS} parts, one fault": partial(write_pair, faults=1),
    f"compare, {PARTS} parts, renamed": structure_growth.renamed_pair,
    UNFED: partial(write_half_fed, supply=False),
    FED: write_half_fed,
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


def commands(folder: Path) -> Mapping[str, Argv]:
    """A run of each command that looks at a set, on the largest sample, by what it is called."""
    one, other, after = (f"{SAMPLES}/{state}.netck" for state in ("original", "faulty", "converted"))
    words = {
        "check": ("check", one),
        "compare": ("compare", one, other),
        "draw": ("draw", one, "-o", str(folder / "drawn.svg")),
        "lugs": ("lugs", one),
        "supply": ("supply", one),
        "bench": ("bench", one),
        "job": ("job", one, after),
        "buy": ("buy", after),
        "record": ("record", one, after, "-o", str(folder / "record.html")),
    }
    return {f"{name}, largest sample": _netcheck(*said) for name, said in words.items()}


def others(folder: Path) -> Mapping[str, Argv]:
    """A run of each command that looks at no sample; of a repository as `start` makes it."""
    made = folder / "begun"
    spent(_begun(made))
    return {
        "all, two lists to begin with": _netcheck("all", "--settings", str(made / "netcheck.toml")),
        "why": _netcheck("why", "floating-ground"),
        "man": _netcheck("man"),
        "completion": _netcheck("completion", "bash"),
        "--help": _netcheck("--help"),
    }


def _begun(folder: Path) -> Argv:
    """A repository made in a folder that is not there yet."""
    choices = ("table", "tube", "grounded", "chassis", "117 V 60 Hz", "netcheck")
    asked = ("--kind", "--rectifier", "--can", "--minus", "--line", "--install")
    said = (word for pair in zip(asked, choices, strict=True) for word in pair)
    return _netcheck("start", str(folder), "--title", "a set", *said)


def _starting(folder: Path) -> Iterator[Argv]:
    """The same again and again: where one is made already nothing is written."""
    return (_begun(folder / f"begun-{number}") for number in count())


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
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        pairs = {name: _compared(folder / str(n), write) for n, (name, write) in enumerate(PAIRS.items())}
        begun = _starting(folder)
        runs: dict[str, Callable[[], float]] = {"start": lambda: spent(next(begun))}
        runs |= {name: partial(spent, argv) for name, argv in {**commands(folder), **others(folder), **pairs}.items()}
        took = medians({**runs, "pass": partial(spent, PASS), "numpy": partial(spent, NUMPY)})
    for name in runs:
        yield name, took[name] / took["pass"], "python -c pass"
    yield "a supply in it", (took[FED] - took[UNFED]) / took["numpy"], "importing numpy, more than without"
    for name in ("check, largest sample", "supply, largest sample"):
        yield name, took[name] / took["numpy"], "importing numpy"


def working() -> Iterator[tuple[str, float, str]]:
    """Parsing and comparing beside plain tools on the same text and graph."""
    took = medians(in_process.TAKEN)
    yield "parsing", took["parse"] / took["tokens"], "splitting the same text into tokens"
    for library in ("networkx", "igraph"):
        yield "comparing, same names", took["named"] / took[library], f"components by {library}, both states"
    yield "recognising, all renamed", took["structure"] / took["isomorphic"], "isomorphism by igraph, same graph"


def growing() -> Iterator[tuple[str, float, str]]:
    """The exponents of a comparison's time and of recognising, and a comparison's memory a terminal."""
    found = {}
    for size in SIZES:
        argv = (sys.executable, "-m", "tests.benchmarks.growth", growth.PIECE, str(size))
        took, megabytes = subprocess.run(argv, capture_output=True, text=True, check=True).stdout.split()
        found[size] = float(took), float(megabytes)
    yield "exponent of a comparison", growth.exponent([(n, took) for n, (took, _) in found.items()]), "1: linear"
    sizes = [(float(n), structure_growth.measured(n, fault=False)) for n in structure_growth.STAGES]
    yield "exponent of recognising", growth.exponent(sizes), "1: linear"
    least, most = found[SIZES[0]][1], found[SIZES[-1]][1]
    yield "memory of a comparison", (most - least) * 1000 / 2 / (SIZES[-1] - SIZES[0]), "kB a terminal and file"


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
