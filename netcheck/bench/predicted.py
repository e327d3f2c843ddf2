"""How well a slip explains readings: what each reading would be, beside what was read."""

import math
from collections.abc import Sequence

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from netcheck.bench.branches import ELECTROLYTIC_LEAK, PartPath
from netcheck.bench.chassis import Chassis
from netcheck.bench.expected import BEEPS, LEADS, MOST, SHORTED, TOLD_APART, Want
from netcheck.bench.ohms import JOINT, Matrix, Ohms, Shunt, ohms_of
from netcheck.bench.plan import Step
from netcheck.bench.readings import FORWARD, Reading, Unit, agrees

__all__ = ["Flags", "Told", "Truth", "compared", "measured"]

CLOSE = 0.06  # of a reading, within which a good chassis lies: meter 1 %, parts 5 %
SCALE = 0.12  # of a logarithm, beyond that, that counts as one
WORST = 9.0  # what a reading costs that a slip contradicts
WIDE = 1.25  # times, within which a reading may still be what a slip makes it
LEAST = 0.02
WRONG = 3.0  # of a logarithm, what a reading of another kind counts
CONDUCTS = 10.0  # ohms, above which a junction is surely not shorted
MUCH = 5e3  # ohms that a winding or a part may have whose ohms the file does not state
ROUGH = 2.0  # times, within which a figure beside a beeper's is none

Flags = NDArray[np.bool_]
Numbers = NDArray[np.intp]


class Told(Struct, frozen=True, eq=False):
    """The readings that say something about ohms, as arrays: nodes, what was read, what a good part may leak.

    ``past`` are the ohms of a good chassis without its junctions. ``beeps`` marks continuity readings, ``figures``
    those of which ohms were written down, ``forward`` the junctions that were to conduct. ``sure`` is False where no
    figure was expected; such readings tell only open from not open.
    """

    steps: tuple[Step, ...]
    readings: tuple[Reading, ...]
    red: Numbers
    black: Numbers
    low: Matrix
    high: Matrix
    past: Matrix
    leak: Matrix
    sure: Flags
    beeps: Flags
    figures: Flags
    forward: Flags
    agree: Flags

    @property
    def measures(self) -> Flags:
        """The readings of ohms, neither of a beeper nor of a junction."""
        found: Flags = ~(self.beeps | self.forward)
        return found

    @property
    def wrong(self) -> tuple[int, ...]:
        """The readings that disagree, by place."""
        return tuple(int(at) for at in np.flatnonzero(~self.agree))


def measured(chassis: Chassis, steps: Sequence[Step], readings: Sequence[Reading], ohms: Ohms) -> Told:
    """The readings made ready to be explained; what was read in volts is only kept for junctions."""
    kept = [
        (step, reading)
        for step, reading in zip(steps, readings, strict=True)
        if reading.unit is Unit.OHMS or step.expected.want is Want.CONDUCTS
    ]
    red = np.array([step.red for step, _ in kept], dtype=np.intp)
    black = np.array([step.black for step, _ in kept], dtype=np.intp)
    base = ohms.between[red, black]
    expected = [step.expected for step, _ in kept]
    read = [_ohms(reading) for _, reading in kept]
    beeps = np.array([one.want in (Want.BEEP, Want.SILENT) for one in expected], dtype=bool)
    least = np.array([max(one.low, LEAST) for one in expected])
    leak = np.maximum(1 / least - 1 / np.maximum(base / WIDE, LEAST), 0.0)
    return Told(
        tuple(step for step, _ in kept), tuple(reading for _, reading in kept), red, black,
        np.array([low for low, _ in read]), np.array([high for _, high in read]),
        base, np.where([one.want is Want.OHMS for one in expected], leak, 0.0),
        np.array([one.want is not Want.OHMS or one.low > 0 or one.high < MOST for one in expected], dtype=bool),
        beeps, beeps & _have_figures(chassis, kept, ohms),
        np.array([one.want is Want.CONDUCTS for one in expected], dtype=bool),
        np.array([agrees(reading, step.expected) for step, reading in kept], dtype=bool),
    )  # fmt: skip


def _have_figures(chassis: Chassis, kept: Sequence[tuple[Step, Reading]], ohms: Ohms) -> Flags:
    """Where ohms were written beside a joint, and what leads around it open does not hang on what nobody knows."""
    found = np.zeros(len(kept), dtype=bool)
    rows = [
        at for at, (step, reading) in enumerate(kept)
        if step.joint is not None and reading.low == reading.high and reading.low > BEEPS
    ]  # fmt: skip
    if not rows:
        return found
    red, black = [kept[at][0].red for at in rows], [kept[at][0].black for at in rows]
    cuts = [Shunt(joint.a, joint.b, -1 / JOINT) for at in rows if (joint := kept[at][0].joint) is not None]
    around = [each.changed_each(red, black, cuts).diagonal() for each in (ohms, ohms_of(chassis, _much))]
    found[rows] = np.abs(np.log(around[0] / around[1])) < CLOSE
    return found


def _much(branch: PartPath) -> float:
    return MUCH if branch.ohms is None else branch.ohms


def _ohms(reading: Reading) -> tuple[float, float]:
    """A reading in ohms; of volts on a meter's diode range only shorted, conducting and open are told."""
    if reading.unit is Unit.OHMS:
        return reading.low, reading.high
    if reading.high < FORWARD[0]:
        return 0.0, LEAST
    return (MOST, math.inf) if reading.low > FORWARD[1] else (BEEPS, BEEPS)


class Truth(Struct, frozen=True):
    """What slips (columns) make of readings (rows): how far off each is, and whether it is possible at all."""

    miss: Matrix
    possible: Flags


def compared(told: Told, ohms: Matrix, stops: Flags) -> Truth:
    """Readings beside predicted ``ohms`` (a column a slip); ``stops`` where a junction does not conduct then."""
    off = np.zeros_like(ohms)
    for chosen, distance in ((told.measures, _measured), (told.beeps, _beeped), (told.figures, _figured)):
        rows = np.flatnonzero(chosen)
        off[rows] = np.maximum(off[rows], distance(told, rows, ohms[rows]))
    rows = np.flatnonzero(told.forward)
    off[rows] = _conducted(told, rows, ohms[rows], stops[rows])
    miss = np.minimum((np.maximum(off - CLOSE, 0.0) / SCALE) ** 2, WORST)
    return Truth(miss, off <= math.log(WIDE))


def _read(told: Told, rows: Numbers) -> tuple[Matrix, Matrix]:
    low, high = (np.clip(side[rows], LEAST, MOST)[:, None] for side in (told.low, told.high))
    return low, high


def _measured(told: Told, rows: Numbers, ohms: Matrix) -> Matrix:
    """Ohms: from the least that leaks and leads allow to the most; beyond it, the distance counts."""
    low, high = _read(told, rows)
    made = np.clip(ohms, LEAST, MOST)
    leaked = 1 / (1 / made + told.leak[rows, None])
    off: Matrix = np.log(np.maximum(np.maximum(leaked - LEADS, LEAST) / high, low / (made + LEADS)))
    tells = told.sure[rows, None] | (made >= MOST) | (low >= MOST)
    return np.where(tells, np.maximum(off, 0.0), 0.0)


def _figured(told: Told, rows: Numbers, ohms: Matrix) -> Matrix:
    """Ohms written down where a beep was to be: roughly, as what leads around a joint has the limits of many parts."""
    read, _ = _read(told, rows)
    made = np.clip(ohms, LEAST, MOST)
    leaked = 1 / (1 / made + 1 / ELECTROLYTIC_LEAK)
    off: Matrix = np.log(np.maximum(leaked / read, read / made))
    return np.where(made > BEEPS, np.maximum(off - math.log(ROUGH), 0.0), 0.0)


def _conducted(told: Told, rows: Numbers, past: Matrix, stops: Flags) -> Matrix:
    """Of a junction only shorted, conducting and open are told, and open only where nothing leads past it."""
    low, high = _read(told, rows)
    shorted, alone = past < TOLD_APART, told.past[rows, None] >= MOST
    stopped = (high >= MOST) | ~alone
    conducts = (low < MOST) & (high > SHORTED)
    agree = np.where(stops, stopped, np.where(shorted, low <= CONDUCTS, conducts))
    return np.where(agree, 0.0, WRONG)


def _beeped(told: Told, rows: Numbers, ohms: Matrix) -> Matrix:
    """Of a beeper only joined, in doubt and apart are told."""
    low, high = _read(told, rows)
    joined, apart = ohms <= TOLD_APART, ohms >= BEEPS
    read_joined, read_apart = low <= TOLD_APART, low >= BEEPS
    wrong = (joined & ~read_joined) | (apart & (high < BEEPS * (1 + 1e-9)) & read_joined)
    return np.where(wrong | (joined & read_apart), WRONG, 0.0)
