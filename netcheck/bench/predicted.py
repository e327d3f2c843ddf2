"""How well a slip explains readings: what each reading would be, beside what was read."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from netcheck.bench.expected import BEEPS, LEADS, MOST, TOLD_APART, Want
from netcheck.bench.ohms import Matrix, Ohms
from netcheck.bench.plan import Step
from netcheck.bench.readings import Reading, Unit, agrees

__all__ = ["Flags", "Told", "Truth", "compared", "measured"]

CLOSE = 0.06  # of a reading, within which a good chassis lies: meter 1 %, parts 5 %
SCALE = 0.12  # of a logarithm, beyond that, that counts as one
WORST = 9.0  # what a reading costs that a slip contradicts
WIDE = 1.25  # times, within which a reading may still be what a slip makes it
LEAST = 0.02

Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, eq=False)
class Told:
    """The readings that say something about ohms, as arrays: nodes, what was read, what a good part may leak.

    ``wants`` marks continuity readings, ``forward`` the junctions that were to conduct (their names in ``names``).
    ``sure`` is False where no figure was expected; such readings tell only open from not open.
    """

    steps: tuple[Step, ...]
    readings: tuple[Reading, ...]
    red: NDArray[np.intp]
    black: NDArray[np.intp]
    low: Matrix
    high: Matrix
    leak: Matrix
    sure: Flags
    beeps: Flags
    forward: Flags
    agree: Flags

    @property
    def wrong(self) -> tuple[int, ...]:
        """The readings that disagree, by place."""
        return tuple(int(at) for at in np.flatnonzero(~self.agree))


def measured(steps: Sequence[Step], readings: Sequence[Reading], ohms: Ohms) -> Told:
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
    least = np.array([max(one.low, LEAST) for one in expected])
    leak = np.maximum(1 / least - 1 / np.maximum(base / WIDE, LEAST), 0.0)
    return Told(
        tuple(step for step, _ in kept), tuple(reading for _, reading in kept), red, black,
        np.array([reading.low for _, reading in kept]), np.array([reading.high for _, reading in kept]),
        np.where([one.want is Want.OHMS for one in expected], leak, 0.0),
        np.array([one.want is not Want.OHMS or one.low > 0 or one.high < MOST for one in expected], dtype=bool),
        np.array([one.want in (Want.BEEP, Want.SILENT) for one in expected], dtype=bool),
        np.array([one.want is Want.CONDUCTS for one in expected], dtype=bool),
        np.array([agrees(reading, step.expected) for step, reading in kept], dtype=bool),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, eq=False)
class Truth:
    """What slips (columns) make of readings (rows): how far off each is, and whether it is possible at all."""

    miss: Matrix
    possible: Flags


def compared(told: Told, ohms: Matrix, stops: Flags) -> Truth:
    """Readings beside predicted ``ohms`` (a column a slip); ``stops`` where a junction does not conduct then."""
    ohms = np.where(told.forward[:, None], np.where(stops, math.inf, BEEPS * 3), ohms)
    made = np.clip(ohms, LEAST, MOST)
    leaked = 1 / (1 / made + told.leak[:, None])
    read_low, read_high = (np.clip(side, LEAST, MOST)[:, None] for side in (told.low, told.high))
    # From the least that leaks and leads allow to the most; beyond it, the distance counts.
    below = np.log(np.maximum(leaked - LEADS, LEAST) / read_high)
    above = np.log(read_low / (made + LEADS))
    off = np.maximum(np.maximum(below, above), 0.0)
    off = np.where(told.forward[:, None] & (ohms < MOST), np.where(read_low >= MOST, 3.0, 0.0), off)
    blurred = np.where(told.beeps[:, None], _beeped(made, read_low, read_high), off)
    blurred = np.where(told.sure[:, None] | (made >= MOST) | (read_low >= MOST), blurred, 0.0)
    miss = np.minimum((np.maximum(blurred - CLOSE, 0.0) / SCALE) ** 2, WORST)
    return Truth(miss, blurred <= math.log(WIDE))


def _beeped(made: Matrix, low: Matrix, high: Matrix) -> Matrix:
    """Of a beeper only joined, in doubt and apart are told; a figure beside is no more than that."""
    joined, apart = made <= TOLD_APART, made >= BEEPS
    read_joined, read_apart = low <= TOLD_APART, low >= BEEPS
    wrong = (joined & ~read_joined) | (apart & (high < BEEPS * (1 + 1e-9)) & read_joined)
    return np.where(wrong | (joined & read_apart), 3.0, 0.0)
