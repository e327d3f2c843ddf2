"""How the volts of capacitors come up after switching on, before any tube draws: which are backwards, and how long.

A slow line comes up over many periods. One period is a map of what is stored at its beginning to what is stored at
its end; where it hardly bends, many periods are taken in one leap, as the straight map does them exactly.
"""

from collections.abc import Iterable, Iterator

import numpy as np
from msgspec import Struct

from netcheck.electrical.network.elements import Network
from netcheck.electrical.running.assembly import Matrix, assemble
from netcheck.electrical.running.branches import Condition
from netcheck.electrical.running.steady import STILL_HERTZ, period_from
from netcheck.electrical.running.switching import Run, Stretch

__all__ = ["LONGEST", "Reversal", "coming_up"]

LONGEST = 30.0  # seconds: by then the tubes draw current
SETTLED = 1e-3  # of the sources' volts: nearer to its end a course changes nothing that is told
STRAIGHT = 2e-3  # of the sources' volts, by which a leap may miss
LONGEST_LEAP = 4096  # periods
EVEN = 0.05  # of a period, by which the time below may change over a leap
PARTS, TINY = 16, 1e-12  # of a leap, to find when a capacitor turns; volts
MOST_PERIODS = 400  # periods looked at, leaps left out


class Reversal(Struct, frozen=True):
    """A capacitor that is backwards after switching on: by ``volts`` at the most, for ``seconds`` together.

    ``lasting`` is whether it stays so until something draws current; ``rides`` whether it lies in the way of
    alternating current, as the first one of a doubler does, and is backwards for a part of each cycle.
    """

    name: str
    volts: float
    seconds: float
    lasting: bool
    rides: bool = False


class _Period(Struct, frozen=True):
    """One period from ``stored``: what it adds, how that bends, and each capacitor's mean, least and share below."""

    stored: Matrix
    gain: Matrix
    growth: Matrix
    means: Matrix
    lows: Matrix
    shares: Matrix


def coming_up(network: Network, borne: float, line: float = 1.0) -> tuple[Reversal, ...]:
    """What is more than ``borne`` volts backwards for longer than a period, everything discharged before.

    A doubler reverses its capacitors for a half wave, and that does no harm.

    Raises:
        ValueError: the sources have different frequencies.
    """
    circuit = assemble(network, Condition(warm=False, line=line))
    run = Run(circuit, 1 / (circuit.hertz or STILL_HERTZ))
    count = len(circuit.capacitors)
    seconds, lows = np.zeros(count), np.zeros(count)
    last = _looked_at(run, np.zeros(circuit.dynamic), borne)
    for leap, now in _course(run, last, borne):
        seconds += leap * run.period * _share(last, now, leap, borne)
        lows, last = np.minimum(lows, last.lows), now
    lows, lasting = np.minimum(lows, last.lows), last.shares > 0.5
    return tuple(
        Reversal(one.name, -float(lows[at]), float(seconds[at]), bool(lasting[at]))
        for at, (_, one) in enumerate(circuit.capacitors)
        if seconds[at] > run.period or lasting[at]
    )


def _share(before: _Period, after: _Period, leap: int, borne: float) -> Matrix:
    """The part of the time from one period to another that each capacitor is backwards."""
    if leap == 1:
        return before.shares
    parts = min(leap, PARTS)
    volts = [before.means]
    gain, power = _straight(before, leap // parts)
    for _ in range(parts):
        volts.append(volts[-1] + gain[: len(before.means)])
        gain = power @ gain
    lower, higher = np.minimum(volts[:-1], volts[1:]), np.maximum(volts[:-1], volts[1:])
    crossed = np.clip((-borne - lower) / np.maximum(higher - lower, TINY), 0.0, 1.0).mean(axis=0)
    turned = np.abs(before.shares - after.shares) == 1.0
    found: Matrix = np.where(turned, crossed, (before.shares + after.shares) / 2)
    return found


def _course(run: Run, now: _Period, borne: float) -> Iterator[tuple[int, _Period]]:
    """How many periods were taken and the one after them, until nothing changes any more."""
    periods, leap = 0, 1
    for _ in range(MOST_PERIODS):
        if periods * run.period >= LONGEST or _far(run, _left(now)) < SETTLED:
            return
        now, taken, leap = _leapt(run, now, leap, borne)
        periods += taken
        yield taken, now


def _leapt(run: Run, now: _Period, leap: int, borne: float) -> tuple[_Period, int, int]:
    """The period after a leap, how many periods were taken, and how many to try next."""
    while True:
        moved, power = _straight(now, leap)
        after = _looked_at(run, now.stored + moved, borne)
        missed = leap * _far(run, after.gain - power @ now.gain)
        if leap == 1 or (missed < STRAIGHT and _is_even(now, after)):
            return after, leap, min(2 * leap, LONGEST_LEAP) if missed < STRAIGHT / 4 else leap
        leap //= 2


def _is_even(before: _Period, after: _Period) -> bool:
    """Whether each capacitor is backwards for about as long in both periods, or turned between them for good."""
    changed = np.abs(before.shares - after.shares)
    return bool(((changed <= EVEN) | (changed == 1.0)).all())


def _straight(now: _Period, periods: int) -> tuple[Matrix, Matrix]:
    """What a power of two of periods add, and what they make of a small change, if growth stays as it is."""
    moved, power, taken = now.gain, now.growth, 1
    while taken < periods:
        moved, power, taken = moved + power @ moved, power @ power, 2 * taken
    return moved, power


def _left(now: _Period) -> Matrix:
    """The whole way that is left, if growth stays as it is."""
    left: Matrix = np.linalg.solve(np.eye(len(now.gain)) - now.growth, now.gain).astype(np.float64)
    return left


def _far(run: Run, change: Matrix) -> float:
    """The largest change of a capacitor's volts, as a part of the sources'."""
    volts = np.abs(change[: len(run.circuit.capacitors)])
    return float(volts.max(initial=0.0)) / run.circuit.volts


def _looked_at(run: Run, stored: Matrix, borne: float) -> _Period:
    stretches, end, growth = period_from(run, stored)
    volts, seconds = _followed(run, stretches)
    parts = seconds / seconds.sum()
    below = (volts < -borne) @ parts
    return _Period(stored, end - stored, growth, volts @ parts, volts.min(axis=1), np.round(below, 9))


def _followed(run: Run, stretches: Iterable[Stretch]) -> tuple[Matrix, Matrix]:
    """The volts of the capacitors, a column a step, and how long each lasts."""
    columns, seconds = [], []
    for stretch in stretches:
        points = np.concatenate([*stretch.columns()], axis=1)[: len(run.circuit.capacitors)]
        whole = points.shape[1] - 1
        columns.append(points)
        seconds += [*whole * [run.step], stretch.seconds - whole * run.step]
    return np.hstack(columns), np.array(seconds)
