"""How long the capacitors stay dangerous after the plug is pulled."""

from collections.abc import Mapping, Sequence

import numpy as np
from msgspec import Struct

from netcheck.electrical.network.elements import Capacitor, Network, VoltageSource
from netcheck.electrical.running.assembly import Equations, Matrix, assemble
from netcheck.electrical.running.branches import Condition, Mains
from netcheck.electrical.running.clockwork import Clock
from netcheck.electrical.running.switching import Run, Stretch

__all__ = ["LIMITS", "Discharge", "discharge"]

LIMITS = (60.0, 50.0)  # volts: what is dangerous to touch for direct current (IEC 61010-1, 6.3), and a margin
FIRST = 1e-3  # seconds looked at first
GROWTH = 7.0  # and then seven times as many as have passed
HORIZON = 86_400.0  # a day: what lasts longer is never


class Discharge(Struct, frozen=True):
    """Seconds until a capacitor stays below each of the limits asked for; None is never: discharge it by hand."""

    name: str
    seconds: tuple[float | None, ...]


def discharge(network: Network, volts: Mapping[str, float], limits: Sequence[float] = LIMITS) -> tuple[Discharge, ...]:
    """Returns the discharge of every capacitor from ``volts`` (0 for those not named), with the tubes cold.

    It is the slower of two cases: the plug is pulled, or it is still in and the line is dead. Dielectric absorption
    brings some of the volts back afterwards: measure before touching.
    """
    # The windings of a transformer stay when the plug is pulled: then the two cases are one.
    stays = all(one.stays for one in network.elements if isinstance(one, VoltageSource))
    dead = _times(network, volts, limits, Mains.DEAD)
    pulled = dead if stays else _times(network, volts, limits, Mains.UNPLUGGED)
    return tuple(Discharge(name, tuple(map(_slower, pulled[name], dead[name]))) for name in dead)


def _slower(one: float | None, other: float | None) -> float | None:
    return None if one is None or other is None else max(one, other)


def _times(
    network: Network, volts: Mapping[str, float], limits: Sequence[float], mains: Mains
) -> dict[str, tuple[float | None, ...]]:
    circuit = assemble(network, Condition(warm=False, mains=mains, leak=0.0))
    watch = _Watch([capacitor for _, capacitor in circuit.capacitors], limits)
    start = [volts.get(capacitor.name, 0.0) for _, capacitor in circuit.capacitors]
    x, state = circuit.start(np.array(start + [0.0] * len(circuit.inductors))), None
    span, time = FIRST, 0.0
    while time < HORIZON and not watch.harmless(x, circuit):
        run = Run(circuit, span)
        for stretch, after in run.march(run.settle(state, x) if state else run.first(x), x[:, None], span):
            watch.look(stretch, time)
            time, x, state = time + stretch.seconds, after[:, 0], stretch.gear.mode.state
        span = time * GROWTH
    return watch.times(x)


class _Sight(Struct, frozen=True):
    """The last sample at which a capacitor was not yet below a limit."""

    time: float
    x: Matrix
    clock: Clock


class _Watch:
    """Remembers when each capacitor was last seen at or above each limit."""

    def __init__(self, capacitors: Sequence[Capacitor], limits: Sequence[float]) -> None:
        self._capacitors = capacitors
        self._limits = limits
        self._last: dict[tuple[int, int], _Sight] = {}

    def harmless(self, x: Matrix, circuit: Equations) -> bool:
        """Says whether all the energy left, in any one capacitor, would not bring it up to a limit."""
        energy = float(np.sum((circuit.weights[: circuit.dynamic] * x[: circuit.dynamic]) ** 2))
        return all(energy / one.farads < min(self._limits) ** 2 for one in self._capacitors)

    def look(self, stretch: Stretch, time: float) -> None:
        clock = stretch.gear.clock
        columns = np.hstack(list(stretch.columns()))
        for row in range(len(self._capacitors)):
            for at, limit in enumerate(self._limits):
                above = np.flatnonzero(np.abs(columns[row]) >= limit)
                if len(above):
                    index = int(above[-1])
                    self._last[row, at] = _Sight(time + index * clock.length, columns[:, index], clock)

    def times(self, x: Matrix) -> dict[str, tuple[float | None, ...]]:
        """Returns the seconds for each capacitor, by name; ``x`` is what is left in the end."""
        return {
            one.name: tuple(self._time(row, at, limit, x) for at, limit in enumerate(self._limits))
            for row, one in enumerate(self._capacitors)
        }

    def _time(self, row: int, at: int, limit: float, x: Matrix) -> float | None:
        if abs(x[row]) >= limit:
            return None
        return _fall(self._last[row, at], row, limit) if (row, at) in self._last else 0.0


def _fall(sight: _Sight, row: int, limit: float) -> float:
    """Halves the step down to where the circuit is calm, then ends with two corrections by the slope."""
    time, x, step = sight.time, sight.x, sight.clock.length
    for half in sight.clock.halves[1:]:
        step /= 2
        after = half @ x
        if abs(after[row]) >= limit:
            time, x = time + step, after
    seconds = 0.0
    for _ in range(2):
        here = sight.clock.rest(x, seconds)
        speed = (sight.clock.rate @ here)[row]
        if speed * here[row] < 0:
            seconds -= (here[row] - np.copysign(limit, here[row])) / speed
            seconds = min(max(seconds, 0.0), step)
    return float(time + seconds)
