"""How the time to recognise parts grows with a chain of equal amplifier stages, every part and net renamed.

Run it from the project's folder: ``python -m tests.benchmarks.structure_growth``. Measured twice: with the states
the same, where one matching decides, and with one lead wrong, where the best correspondence is sought.
"""

import gc
import random
import re
import sys
import tempfile
import time
from pathlib import Path

from netcheck.compare.roles.recognise import Recognised, recognised
from netcheck.model.build import build
from netcheck.model.graph import CircuitGraph
from netcheck.system.files import read, reader
from tests.benchmarks.growth import exponent
from tests.benchmarks.netlists import PARTS_A_STAGE, write_pair

STAGES = (50, 100, 200, 400)
BEST_OF = 3
SEED = 1
_NAME = re.compile(r"\b([VRCE])(\d+)([a-d]?)\b")
_NET = re.compile(r"\b(plate|supply|cathode|grid)-(\d+)")


def renamed(text: str, stages: int, seed: int) -> str:
    """The same circuit in other words: stages numbered at random, other letters, lines in another order."""
    dice = random.Random(seed)  # noqa: S311 (repeatable, and no secret)
    number = list(range(stages))
    dice.shuffle(number)
    letter = dict(zip("abcd", dice.sample("abcd", 4), strict=True))
    text = _NAME.sub(lambda m: f"{m[1]}N{number[int(m[2])]}{letter.get(m[3], '')}", text)
    text = _NET.sub(lambda m: f"{m[1]}-n{number[int(m[2])]}", text)
    lines = text.splitlines(keepends=True)
    dice.shuffle(lines)
    return "".join(lines)


def wrong(text: str, stages: int) -> str:
    """One coupling capacitor in the middle of the chain is on the cathode instead of the grid."""
    lead = f", C{stages // 2 - 1}a.2"
    net = f"net cathode-{stages // 2}: "
    return text.replace(lead, "").replace(net, f"{net}{lead[2:]}, ")


def renamed_pair(folder: Path, stages: int, *, fault: bool = False) -> tuple[Path, Path]:
    """The files of a chain as drawn, and of the renamed one."""
    original, rewired = write_pair(folder, stages)
    text = original.read_text(encoding="utf-8").replace("state drawn", "state rewired")
    rewired.write_text(renamed(wrong(text, stages) if fault else text, stages, SEED), encoding="utf-8")
    return original, rewired


def chain(folder: Path, stages: int, *, fault: bool) -> tuple[CircuitGraph, CircuitGraph]:
    """The chain as drawn, and the renamed one."""
    original, rewired = renamed_pair(folder, stages, fault=fault)
    old, new = (build(source, reader(source))[0] for source in map(read, (original, rewired)))
    if old is None or new is None:
        sys.exit("the chain of stages can't be built")
    return CircuitGraph(old), CircuitGraph(new)


def timed(old: CircuitGraph, new: CircuitGraph) -> tuple[float, Recognised]:
    """Processor seconds (other work on the machine does not count) to recognise all parts, and what was recognised."""
    parts = [[p for p in graph.circuit.parts.values() if p.leads] for graph in (old, new)]
    # What building the two files has left in memory must not be swept in the time of recognising.
    gc.collect()
    gc.freeze()
    start = time.process_time()
    found = recognised(old, new, parts[0], parts[1], ())
    return time.process_time() - start, found


def measured(stages: int, *, fault: bool) -> float:
    """The best of some runs, each of which must recognise every part."""
    with tempfile.TemporaryDirectory() as folder:
        runs = [timed(*chain(Path(folder), stages, fault=fault)) for _ in range(BEST_OF)]
    if any(len(found.pairs) != stages * PARTS_A_STAGE or found.same is fault for _, found in runs):
        sys.exit(f"{stages} stages: not every part was recognised")
    return min(took for took, _ in runs)


def main() -> None:
    """Prints a line a size, and the slope of the time's logarithm over the size's."""
    sound: list[tuple[float, float]] = []
    faulty: list[tuple[float, float]] = []
    sys.stdout.write("stages    parts     the same    one lead wrong\n")
    for stages in STAGES:
        sound.append((stages, measured(stages, fault=False)))
        faulty.append((stages, measured(stages, fault=True)))
        times = (points[-1][1] * 1000 for points in (sound, faulty))
        sys.stdout.write("{:6}  {:7}  {:8.0f} ms  {:12.0f} ms\n".format(stages, stages * PARTS_A_STAGE, *times))
    sys.stdout.write(f"slope            {exponent(sound):10.2f}  {exponent(faulty):15.2f}\n")


if __name__ == "__main__":
    main()
