"""What flows when a circuit is powered: nodal analysis in small steps of time, with diodes that conduct one way.

Backward Euler; every diode and every tube is in one of two or three states, straight lines each, and the inverse of
the nodal matrix is kept for every combination that occurs.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from tests.silence.elements import Capacitor, Choke, Diode, Element, Resistor, Sink, Source, Wired

__all__ = ["Course", "simulated"]

Array = NDArray[np.float64]
States = NDArray[np.int8]  # 0 blocks, 1 conducts along a line, 2 is a tube that draws its full current

HERTZ = 60.0
STEPS = 128  # a period
LEAK = 1e-7  # siemens, from every net to the first, and through what blocks: 10 megohm
TRIES = 60
SMALLEST = 0.9e-6  # farads: smaller capacitors carry signals


@dataclass(frozen=True, slots=True)
class Course:
    """The potentials over the last periods, a row a moment; ``times`` in seconds; ``reached`` volts of capacitors.

    ``reached`` are the lowest and the highest volts of every capacitor from switching on.
    """

    elements: tuple[Element, ...]
    times: Array
    nets: Array
    reached: dict[str, tuple[float, float]]

    def across(self, one: Element) -> Array:
        """The volts from ``a`` to ``b``."""
        return self.nets[:, one.a] - self.nets[:, one.b]

    def through(self, one: Element) -> Array:
        """The current from ``a`` to ``b``; of a source the current that it is loaded with."""
        volts = self.across(one)
        match one:
            case Resistor(ohms=ohms):
                return volts / ohms
            case Capacitor(farads=value):
                return value * np.gradient(volts, self.times)
            case Source(peak=peak, hertz=hertz, ohms=ohms):
                return (_driven(peak, hertz, self.times) - volts) / ohms
            case Diode(volts=threshold, ohms=ohms):
                return np.maximum(volts - threshold, 0.0) / ohms
            case _:
                raise TypeError(one)


@dataclass(slots=True)
class _Run:
    """The circuit in companion form; the arrays are by element of one kind."""

    wired: Wired
    warm: bool
    step: float
    leak: float = LEAK
    switches: list[Diode | Sink] = field(default_factory=list)
    stores: list[Capacitor | Choke] = field(default_factory=list)
    sources: list[Source] = field(default_factory=list)
    inverses: dict[bytes, tuple[Array, Array]] = field(default_factory=dict)
    base: Array = field(default_factory=lambda: np.zeros((0, 0)))

    def __post_init__(self) -> None:
        count = self.wired.count
        self.base = np.eye(count) * self.leak
        for one in self.wired.elements:
            if isinstance(one, Resistor):
                _stamp(self.base, one.a, one.b, 1 / one.ohms)
            elif isinstance(one, Source):
                self.sources.append(one)
                _stamp(self.base, one.a, one.b, 1 / one.ohms)
            elif isinstance(one, Choke) or (isinstance(one, Capacitor) and one.farads >= SMALLEST):
                self.stores.append(one)
                _stamp(self.base, one.a, one.b, _conductance(one, self.step))
            elif isinstance(one, Diode) or (isinstance(one, Sink) and self.warm):
                self.switches.append(one)

    def incidence(self, elements: Sequence[Element]) -> Array:
        """A row an element: plus one at ``a``, minus one at ``b``."""
        rows = np.zeros((len(elements), self.wired.count))
        for row, one in zip(rows, elements, strict=True):
            row[one.a] += 1.0
            row[one.b] -= 1.0
        return rows

    def inverse(self, state: States) -> tuple[Array, Array]:
        """The inverse for one combination of states, and the constant currents into the nets."""
        key = state.tobytes()
        if key not in self.inverses:
            matrix, poured = self.base.copy(), np.zeros(self.wired.count)
            for one, at in zip(self.switches, state.tolist(), strict=True):
                conductance, current = _line(one, at)
                _stamp(matrix, one.a, one.b, conductance)
                poured[one.a] -= current
                poured[one.b] += current
            self.inverses[key] = np.asarray(np.linalg.inv(matrix), dtype=np.float64), poured
        return self.inverses[key]


def simulated(wired: Wired, *, warm: bool = True, periods: int = 30, kept: int = 2, leak: float = LEAK) -> Course:
    """The circuit from switching on; a cold set has tubes that draw nothing, while every rectifier conducts.

    ``leak`` siemens keep every net from floating: fewer where the volts behind megohms count.
    """
    run = _Run(wired, warm, 1 / (HERTZ * STEPS), leak)
    across, stored = run.incidence(run.switches), run.incidence(run.stores)
    corners = _corners(run.switches)
    held = np.zeros(len(run.stores))  # the volts of a capacitor, the amperes of a choke
    is_choke = np.array([isinstance(one, Choke) for one in run.stores], dtype=bool)
    weights = np.array([_conductance(one, run.step) for one in run.stores])
    keeps = np.array([_kept(one, run.step) for one in run.stores])
    times: Array = np.arange(1, periods * STEPS + 1, dtype=np.float64) * run.step
    poured = _poured(run, times)
    state = np.zeros(len(run.switches), dtype=np.int8)
    low, high = held.copy(), held.copy()
    nets = []
    for moment in poured:
        state, volts = _settled(run, (across, *corners), state, moment + (keeps * held) @ stored)
        drops = stored @ volts
        held = np.where(is_choke, weights * drops - keeps * held, drops)
        low, high = np.minimum(low, drops), np.maximum(high, drops)
        nets.append(volts)
    last = kept * STEPS
    reached = {one.name: (float(low[at]), float(high[at])) for at, one in enumerate(run.stores)}
    return Course(wired.elements, times[-last:], np.array(nets[-last:]), reached)


def _corners(switches: Sequence[Diode | Sink]) -> tuple[Array, Array]:
    """The volts above which each begins to conduct, and above which a tube draws its full current."""
    first = [one.volts if isinstance(one, Diode) else 0.0 for one in switches]
    second = [np.inf if isinstance(one, Diode) else one.knee for one in switches]
    return np.array(first), np.array(second)


def _poured(run: _Run, times: Array) -> Array:
    """The currents that the sources alone pour into the nets, a row a moment."""
    driven = [_driven(one.peak, one.hertz, times) / one.ohms for one in run.sources]
    return np.array(driven).T @ run.incidence(run.sources) if driven else np.zeros((len(times), run.wired.count))


def _settled(run: _Run, probe: tuple[Array, Array, Array], state: States, poured: Array) -> tuple[States, Array]:
    """The states of diodes and tubes that agree with the volts they give."""
    across, first, second = probe
    volts = np.zeros(run.wired.count)
    for attempt in range(TRIES):
        inverse, constant = run.inverse(state)
        volts = inverse @ (poured + constant)
        drops = across @ volts
        right = (drops > first).astype(np.int8) + (drops > second)
        wrong = np.flatnonzero(right != state)
        if not wrong.size:
            break
        if attempt < TRIES // 2:
            state = right
        else:  # all at once goes in circles: one at a time does not
            state = state.copy()
            state[wrong[0]] = right[wrong[0]]
    return state, volts


def _line(one: Diode | Sink, at: int) -> tuple[float, float]:
    """Conductance and constant current from ``a`` to ``b`` in a state."""
    if at == 0:
        return LEAK, 0.0
    if isinstance(one, Diode):
        return 1 / one.ohms, -one.volts / one.ohms
    return (one.amperes / one.knee, 0.0) if at == 1 else (LEAK, one.amperes - LEAK * one.knee)


def _conductance(one: Capacitor | Choke, step: float) -> float:
    return one.farads / step if isinstance(one, Capacitor) else 1 / (one.ohms + one.henries / step)


def _kept(one: Capacitor | Choke, step: float) -> float:
    """What of the held volts or amperes flows back into the nets."""
    if isinstance(one, Capacitor):
        return one.farads / step
    return -one.henries / step / (one.ohms + one.henries / step)


def _driven(peak: float, hertz: float, time: Array | float) -> Array:
    """A sine from 0 upward, or a direct voltage."""
    return np.asarray(peak * np.sin(2 * np.pi * hertz * np.asarray(time)) if hertz else peak + 0 * np.asarray(time))


def _stamp(matrix: Array, a: int, b: int, conductance: float) -> None:
    matrix[a, a] += conductance
    matrix[b, b] += conductance
    matrix[a, b] -= conductance
    matrix[b, a] -= conductance
