"""Netlists of any size for the benchmarks: a chain of resistance-coupled stages, as drawn and as traced."""

from collections.abc import Iterator
from pathlib import Path

PARTS_A_STAGE = 8
TERMINALS_A_STAGE = 19


def write_pair(folder: Path, stages: int, faults: int = 0) -> tuple[Path, Path]:
    """``original.netck`` and ``rewired.netck``; the latter is traced lug by lug, and ``faults`` leads are wrong."""
    original, rewired = folder / "original.netck", folder / "rewired.netck"
    original.write_text("".join(f"{line}\n" for line in _original(stages)), encoding="utf-8")
    wrong = {stages * (2 * fault + 1) // (2 * faults) for fault in range(faults)}
    rewired.write_text("".join(f"{line}\n" for line in _rewired(stages, wrong)), encoding="utf-8")
    return original, rewired


def _original(stages: int) -> Iterator[str]:
    yield 'title "a chain of stages"'
    yield "state drawn"
    for n in range(stages):
        yield from _parts(n)
    for n in range(stages):
        before = f", C{n - 1}a.2" if n else ""
        yield f"net plate-{n}: V{n}.plate, R{n}a.1, C{n}a.1"
        yield f"net supply-{n}: R{n}a.2, R{n}b.1, E{n}a+"
        yield f"net cathode-{n}: V{n}.cathode, R{n}c.1, E{n}b+"
        yield f"net grid-{n}: V{n}.grid, R{n}d.1{before}"
        yield f"net B+: R{n}b.2"
        yield f"net heaters: V{n}.2"
        yield f"net ground: chassis, V{n}.7, R{n}c.2, R{n}d.2, E{n}a-, E{n}b-"
    yield f"net out: C{stages - 1}a.2"
    yield f'spare C{stages - 1}a.2 "the output"'


def _parts(n: int) -> Iterator[str]:
    yield f"tube V{n} 6J5"
    yield f"resistor R{n}a 100k 1/2 W"
    yield f"resistor R{n}b 22k 1 W"
    yield f"resistor R{n}c 2.2k 1/2 W"
    yield f"resistor R{n}d 470k 1/2 W"
    yield f"capacitor C{n}a .02 mfd 400 V"
    yield f"electrolytic E{n}a 10 mfd 450 V"
    yield f"electrolytic E{n}b 25 mfd 25 V"


def _rewired(stages: int, wrong: set[int]) -> Iterator[str]:
    yield 'title "a chain of stages"'
    yield "state rewired"
    yield 'parts from "original.netck"'
    for n in reversed(range(stages)):
        yield f"strip SP{n} 6 lugs foot 5"
        yield f"at SP{n}.1: R{n}a.1, C{n}a.1"
        yield f"wire SP{n}.1 to V{n}.plate blue"
        yield f"at SP{n}.2: R{n}a.2, R{n}b.1, E{n}a+"
        cathode, grid = (f"R{n}c.1, E{n}b+", f"R{n}d.1")
        before = f", C{n - 1}a.2" if n else ""
        yield f"at SP{n}.3: {cathode}{before if n in wrong else ''}"
        yield f"wire SP{n}.3 to V{n}.cathode yellow"
        yield f"at SP{n}.4: {grid}{'' if n in wrong else before}"
        yield f"wire SP{n}.4 to V{n}.grid green"
        yield f"at SP{n}.5: R{n}c.2, R{n}d.2, E{n}a-, E{n}b-"
        yield f"wire V{n}.7 to SP{n}.5 black"
        yield f"at SP{n}.6: R{n}b.2"
        if n:
            yield f"wire SP{n}.6 to SP{n - 1}.6 red"
            yield f"wire V{n}.2 to V{n - 1}.2 brown"
    yield f'spare C{stages - 1}a.2 "the output"'
