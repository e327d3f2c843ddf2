"""From one switching of a rectifier to the next, exactly.

Every path's current is continuous in its volts, so nothing jumps where a switch changes its state: the potentials
and the rate of change are the same on both sides, and only the matrices are exchanged.
"""

from collections.abc import Iterator, Sequence

import numpy as np
from msgspec import Struct

from netcheck.electrical.running.assembly import Equations, Matrix, Mode, State
from netcheck.electrical.running.clockwork import Clock

__all__ = ["Gear", "Run", "Stretch"]

STEPS = 256  # a period: pulses shorter than a step are found by their turning point
BLOCK = 5  # 2**5 steps are looked at together
NEAR = 1e-9  # of the sources' volts: closer to its threshold a switch may be either way
CIRCUIT_OHMS = 100.0  # the size of what lies in series with a rectifier
DIGITS = 4e-15  # of the sources' volts: closer than this is rounding
TOGETHER = 4  # rounds in which all switches that are wrong are turned together
AHEAD = 1e-9  # of a second in a second: how far to look for what a simultaneous switching leads to
CHATTER = 64  # switchings a period and switch: more is chatter


# Whole steps, seconds and the switch that turns then; None: the time was up.
_Turn = tuple[int, float, int | None]


class Gear(Struct, frozen=True):
    """A state of the switches with its clock.

    ``sides`` are the rows that give by how many volts each switch is on the side of its threshold where it should be,
    ``slopes`` how fast that changes; ``near`` is how far past its threshold a switch may be seen. The volts over one
    that is on are a current in disguise, so that they must be seen much closer.
    """

    mode: Mode
    clock: Clock
    sides: Matrix
    slopes: Matrix
    near: Matrix
    scaled: Matrix  # sides, as parts of near
    both: Matrix  # sides, then slopes

    def wrong(self, x: Matrix) -> int | None:
        """The first switch that is not where it should be."""
        if not len(self.near):
            return None
        margins = self.scaled @ x
        # The least of all is found far more quickly than each is compared.
        return None if margins[margins.argmin()] >= -1.0 else int((margins < -1.0).argmax())

    def all_wrong(self, x: Matrix) -> list[int]:
        """Every switch that is not where it should be."""
        found: list[int] = (self.scaled @ x < -1.0).nonzero()[0].tolist()
        return found

    def fits(self, x: Matrix) -> bool:
        """Says whether every switch is where it should be."""
        margins = self.scaled @ x
        return bool(margins[margins.argmin()] >= -1.0)


class Stretch(Struct, frozen=True):
    """Time without a switching: ``seconds`` from the vector ``x``.

    ``seen`` are the vectors after the steps that were looked at for a switching, one block after the other; the last
    block may go on past the end.
    """

    gear: Gear
    x: Matrix
    seconds: float
    seen: tuple[Matrix, ...] = ()

    def columns(self) -> Iterator[Matrix]:
        """Yields the vector at the beginning and after every whole step."""
        x, left = self.x, int(self.seconds / self.gear.clock.length)
        yield x[:, None]
        for block in self.seen:
            points = block[:, :left]
            yield points
            left -= points.shape[1]
            x = block[:, -1]
        while left > 0:
            points = self.gear.clock.points(x, BLOCK)[:, 1 : left + 1]
            yield points
            x, left = points[:, -1], left - points.shape[1]


class Run:
    """A circuit on its way through time; it keeps the equations of the states that it has met."""

    def __init__(self, circuit: Equations, period: float) -> None:
        self.circuit = circuit
        self.period = period
        self.step = period / STEPS
        self._on = np.array([circuit.branches[at].on for at in circuit.switches])
        self.chatter = False
        self._gears: dict[State, Gear] = {}
        self.weights = circuit.weights

    def gear(self, state: State) -> Gear:
        """Returns the equations and the clock of a state."""
        if state not in self._gears:
            mode = self.circuit.mode(state)
            signs = np.where(np.array(state, dtype=bool), 1.0, -1.0)[:, None]
            open_, volts = signs[:, 0] < 0, self.circuit.volts
            near = np.where(open_, NEAR * volts, np.maximum(NEAR / (1 + CIRCUIT_OHMS * self._on), DIGITS) * volts)
            clock = Clock(mode.rate, self.step, self.weights)
            sides = signs * mode.watch
            slopes = sides @ mode.rate
            both = np.concatenate([sides, slopes])
            self._gears[state] = Gear(mode, clock, sides, slopes, near, sides / near[:, None], both)
        return self._gears[state]

    def settle(self, state: State, x: Matrix) -> State:
        """Returns the state of the switches that goes with x, looking from ``state``.

        The first that is wrong is turned, again and again: in a network without active parts this ends, at the one
        state that is right. Where figures are too far apart to tell (a lamp of micro-ohms), one comes back: the same
        would follow it for ever.
        """
        tried: set[State] = set()
        for _ in range(CHATTER * (len(state) + 1)):
            wrong = self.gear(state).wrong(x)
            if wrong is None or state in tried:
                break
            tried.add(state)
            state = _turned(state, wrong)
        return state

    def first(self, x: Matrix) -> State:
        """Returns the state for a vector that nothing has led to.

        Every state that is tried costs its equations: all that are wrong are turned together for a few rounds, which
        leads to the one right state or to one that `settle` gets there from.
        """
        state = tuple(False for _ in self.circuit.switches)
        for _ in range(TOGETHER):
            state = _turned(state, *self.gear(state).all_wrong(x))
        return self.settle(state, x)

    def march(self, state: State, z: Matrix, seconds: float) -> Iterator[tuple[Stretch, Matrix]]:
        """Yields every stretch with what ``z`` has become at its end.

        The first column of ``z`` is the vector; further columns are carried along (small changes of it).
        """
        left, turns = seconds, 0
        many = CHATTER * (len(state) + 1) * max(1.0, seconds / self.period)
        while left > 1e-12 * seconds:
            gear = self.gear(state)
            (steps, rest, switch), seen = self._until(gear, z[:, 0], left, blind=turns > many)
            stretch = Stretch(gear, z[:, 0], steps * self.step + rest, seen)
            z = gear.clock.part(gear.clock.steps(z, steps), rest)
            left -= stretch.seconds
            yield stretch, z
            if switch is not None:
                turns += 1
                x = z[:, 0]
                state = self.settle(_turned(state, switch), x + AHEAD * self.period * (gear.mode.rate @ x))
        self.chatter = self.chatter or turns > many

    def _until(self, gear: Gear, x: Matrix, left: float, *, blind: bool) -> tuple[_Turn, tuple[Matrix, ...]]:
        """Returns what ends the stretch, and what was seen on the way there."""
        done = 0
        whole = int(left / self.step)
        if blind:
            return (whole, left - whole * self.step, None), ()
        seen: list[Matrix] = []
        while done < whole:
            columns = gear.clock.points(x, BLOCK)[:, : whole - done + 1]
            seen.append(columns[:, 1:])
            for at in self._suspects(gear, columns):
                found = self._within(gear, columns[:, at], self.step)
                if found is not None:
                    return (done + at, *found), tuple(seen)
            done += columns.shape[1] - 1
            x = columns[:, -1]
        rest = max(left - whole * self.step, 0.0)
        found = self._within(gear, x, rest)
        return (whole, rest, None) if found is None else (whole, *found), tuple(seen)

    def _suspects(self, gear: Gear, columns: Matrix) -> list[int]:
        """Returns the steps in which a switch passes its threshold, or may do so and come back."""
        if not len(gear.near):
            return []
        seen = gear.both @ columns
        margins, tendency = seen[: len(gear.near)], seen[len(gear.near) :]
        passed = np.asarray((margins[:, 1:] < -gear.near[:, None]).any(axis=0))
        turns = (tendency[:, :-1] < 0) & (tendency[:, 1:] > 0)
        for switch, at in zip(*turns.nonzero(), strict=True):
            ends = slice(at, at + 2)
            passed[at] |= _dip(margins[switch, ends], tendency[switch, ends], self.step) < -gear.near[switch]
        found: list[int] = passed.nonzero()[0].tolist()
        return found

    def _within(self, gear: Gear, x: Matrix, limit: float) -> tuple[float, int] | None:
        """Returns when the first switch turns within ``limit`` seconds, less than a step or one, and which."""
        if not len(gear.near) or limit <= 0:
            return None
        end = gear.clock.power(0) @ x if limit == self.step else gear.clock.part(x, limit)
        passes = not gear.fits(end)
        before, after = gear.slopes @ x, gear.slopes @ end
        length = limit
        for switch in ((before < 0) & (after > 0)).nonzero()[0].tolist():
            row = gear.sides[switch]
            dip = _dip((row @ x, row @ end), (before[switch], after[switch]), length)
            if dip < -gear.near[switch]:
                seconds, lowest = self._bottom(gear, x, limit, switch)
                if row @ lowest < -gear.near[switch]:
                    limit, passes = min(limit, seconds), True
        return self._crossing(gear, x, limit) if passes else None

    def _bottom(self, gear: Gear, x: Matrix, limit: float, switch: int) -> tuple[float, Matrix]:
        """Returns when a switch's margin is least, and the vector then."""
        time, step = 0.0, self.step
        for half in gear.clock.halves[1:]:
            step /= 2
            if time + step <= limit:
                after = half @ x
                if gear.slopes[switch] @ after < 0:
                    x, time = after, time + step
        return time + step, gear.clock.rest(x, step)

    def _crossing(self, gear: Gear, x: Matrix, limit: float) -> tuple[float, int]:
        """Halves the step down to where the circuit is calm, then ends with two corrections by the slope."""
        time, step = 0.0, self.step
        for half in gear.clock.halves[1:]:
            step /= 2
            if time + step <= limit:
                after = half @ x
                if gear.fits(after):
                    x, time = after, time + step
        last = gear.clock.rest(x, step)
        switch = int((gear.scaled @ last).argmin())
        row = gear.sides[switch]
        start, end = row @ x, row @ last
        part = step * min(max(start / (start - end), 0.0), 1.0) if start > end else 0.0
        here = gear.clock.rest(x, part)
        speed = gear.slopes[switch] @ here
        if speed < 0:
            part = min(max(part - row @ here / speed, 0.0), step)
        return time + part, switch


def _turned(state: State, *switches: int) -> State:
    turned = list(state)
    for switch in switches:
        turned[switch] = not turned[switch]
    return tuple(turned)


def _dip(margins: Sequence[float] | Matrix, tendency: Sequence[float] | Matrix, step: float) -> float:
    """Returns how low a margin that turns between two moments may go: where the tangents meet."""
    (first, last), (left, right) = margins, tendency
    return float(first + left * (first - last + right * step) / (right - left))
