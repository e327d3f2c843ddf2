"""Netlists of any size for the benchmarks: a chain of resistance-coupled stages, as drawn and as traced."""

from collections.abc import Iterator
from pathlib import Path

PARTS_A_STAGE = 8
TERMINALS_A_STAGE = 19
SUPPLY = """mains 117 V 60 Hz
cord P1
transformer T1
winding T1 primary black-a black-b 117 V 6 ohm
winding T1 high red-a red-yellow red-b 200-0-200 V 150 ohm
diode D1 1600 V 1 A
diode D2 1600 V 1 A
choke L1 8 H 200 ohm
electrolytic K1 40 mfd 600 V
electrolytic K2 40 mfd 600 V
resistor R1 100k 2 W
net line-a: P1.1, T1.black-a
net line-b: P1.2, T1.black-b
net high-a: T1.red-a, D1.anode
net high-b: T1.red-b, D2.anode
net rectified: D1.cathode, D2.cathode, K1+, L1.1
net B+: L1.2, K2+, R1.1
net ground: T1.red-yellow, K1-, K2-, R1.2
"""
TRACED = """wire P1.1 to T1.black-a
wire P1.2 to T1.black-b
wire T1.red-a to D1.anode
wire T1.red-b to D2.anode
wire D1.cathode to D2.cathode
wire D1.cathode to K1+
wire K1+ to L1.1
wire L1.2 to K2+
wire K2+ to R1.1
wire K2+ to SP0.6
wire T1.red-yellow to SP0.5
wire K1- to SP0.5
wire K2- to SP0.5
wire R1.2 to SP0.5
"""


def write_pair(folder: Path, stages: int, faults: int = 0, *, supply: bool = False) -> tuple[Path, Path]:
    """``original.netck`` and ``rewired.netck``; the latter is traced lug by lug, and ``faults`` leads are wrong.

    With a ``supply`` the stages hang on two diodes, a choke and a transformer; without one B+ comes from nowhere.
    """
    original, rewired = folder / "original.netck", folder / "rewired.netck"
    drawn, traced = (SUPPLY, TRACED) if supply else ("", "")
    original.write_text("".join(f"{line}\n" for line in _original(stages)) + drawn, encoding="utf-8")
    wrong = {stages * (2 * fault + 1) // (2 * faults) for fault in range(faults)}
    rewired.write_text("".join(f"{line}\n" for line in _rewired(stages, wrong)) + traced, encoding="utf-8")
    return original, rewired


def write_half_fed(folder: Path, stages: int, *, supply: bool = True) -> tuple[Path, Path]:
    """Half as many stages, and beside each stage as many small capacitors as it has parts, on its grid.

    So the whole supply, whose nodes are the stages', is small enough to be worked out.
    """
    stages = stages // 2
    original, rewired = write_pair(folder, stages, supply=supply)
    beside = [(stage, f"M{stage}x{n}") for stage in range(stages) for n in range(PARTS_A_STAGE)]
    parts = "".join(f"capacitor {name} 100 mmfd 500 V mica\n" for _, name in beside)
    nets = "".join(f"net grid-{stage}: {name}.1\nnet ground: {name}.2\n" for stage, name in beside)
    wires = "".join(f"wire {name}.1 to SP{n}.4\nwire {name}.2 to SP{n}.5\n" for n, name in beside)
    for path, more in ((original, parts + nets), (rewired, wires)):
        path.write_text(path.read_text(encoding="utf-8") + more, encoding="utf-8")
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
