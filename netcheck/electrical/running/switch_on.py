"""What the parts must stand while a supply is switched on."""

import numpy as np
from msgspec import Struct

from netcheck.electrical.network.elements import Network, Rectifier
from netcheck.electrical.running.assembly import Equations, Matrix, Mode, State, assemble
from netcheck.electrical.running.branches import Condition
from netcheck.electrical.running.switching import Run

__all__ = ["FIRST_PULSES", "CapacitorSurge", "RectifierSurge", "SwitchOn", "switch_on"]

PHASES = (0.0, 0.25, 0.5, 0.75)  # of a period: the switch is closed when it is closed
SURGE = 3  # periods in which the highest current flows, tried at every phase
CYCLES = 40
FIRST_PULSES = 2  # periods in which the current of a rectifier is at its highest, at one phase
QUIET = 1e-3  # of the sources' volts a period: slower than this nothing overshoots any more


class CapacitorSurge(Struct, frozen=True):
    """The extremes of a capacitor's volts from plus to minus; below 0 it is reversed for a moment."""

    name: str
    low: float
    high: float


class RectifierSurge(Struct, frozen=True):
    """The highest current forward, and the highest volts from cathode to anode."""

    name: str
    amperes: float
    inverse_volts: float


class SwitchOn(Struct, frozen=True):
    """``cycles`` are the periods looked at; ``quiet`` is False where the volts were still changing then."""

    capacitors: tuple[CapacitorSurge, ...]
    rectifiers: tuple[RectifierSurge, ...]
    cycles: int
    quiet: bool


def switch_on(network: Network, *, warm: bool = False, line: float = 1.0, cycles: int = CYCLES) -> SwitchOn:
    """Returns the extremes from the moment at which everything is discharged, for the worst phase of the mains.

    Cold tubes draw nothing and rectifiers that need heat block: with ``warm`` a set is switched on again at once.

    Raises:
        ValueError: the sources have different frequencies.
    """
    circuit = assemble(network, Condition(warm=warm, line=line))
    run = Run(circuit, 1 / (circuit.hertz or 60.0))
    probe = _Probe(network, circuit)
    watched, quiet = 0, False
    for phase in PHASES:
        x = circuit.start(np.zeros(circuit.dynamic), phase)
        state = run.first(x)
        for period in range(cycles if phase == PHASES[0] else min(cycles, SURGE)):
            before = x
            state, x = probe.follow(run, state, x)
            if phase == PHASES[0]:
                watched = period + 1
                quiet = bool((np.abs(x - before) <= _quiet(circuit)).all())
                if quiet:
                    break
    return SwitchOn(probe.capacitors(), probe.rectifiers(), watched, quiet)


def _quiet(circuit: Equations) -> Matrix:
    volts = QUIET * circuit.volts
    stored = [volts] * len(circuit.capacitors)
    largest = max((capacitor.farads for _, capacitor in circuit.capacitors), default=1e-5)
    amperes = [volts * (largest / inductor.henries) ** 0.5 for _, inductor in circuit.inductors]
    return np.array([*stored, *amperes, *3 * [np.inf]])


class _Probe:
    """Keeps the extremes of what it has seen: capacitor volts, then rectifier currents, then anode to cathode volts."""

    def __init__(self, network: Network, circuit: Equations) -> None:
        self._circuit = circuit
        self._rectifiers = [(at, one) for at, one in enumerate(network.elements) if isinstance(one, Rectifier)]
        rows = len(circuit.capacitors) + 2 * len(self._rectifiers)
        self._low, self._high = np.zeros(rows), np.zeros(rows)
        self._rows: dict[State, Matrix] = {}

    def follow(self, run: Run, state: State, x: Matrix) -> tuple[State, Matrix]:
        """Runs for a period and returns where it ends."""
        for stretch, after in run.march(state, x[:, None], run.period):
            state, x = stretch.gear.mode.state, after[:, 0]
            points = np.concatenate([*stretch.columns(), after], axis=1)
            stored = points[: len(self._circuit.capacitors)]
            flowing = self._watched(stretch.gear.mode) @ points
            np.minimum(self._low, np.concatenate([stored.min(axis=1), flowing.min(axis=1)]), out=self._low)
            np.maximum(self._high, np.concatenate([stored.max(axis=1), flowing.max(axis=1)]), out=self._high)
        return run.settle(state, x), x

    def _watched(self, mode: Mode) -> Matrix:
        if mode.state not in self._rows:
            self._rows[mode.state] = self._values(mode)
        return self._rows[mode.state]

    def _values(self, mode: Mode) -> Matrix:
        """What is told of the rectifiers, a row each; capacitors' volts are read from the vector itself."""
        owners = np.array([-1 if branch.owner is None else branch.owner for branch in self._circuit.branches])
        currents = [mode.currents[owners == owner].sum(axis=0) for owner, _ in self._rectifiers]
        volts = [mode.nodes[one.anode] - mode.nodes[one.cathode] for _, one in self._rectifiers]
        return np.array([*currents, *volts]).reshape(-1, self._circuit.size)

    def capacitors(self) -> tuple[CapacitorSurge, ...]:
        named = (capacitor.name for _, capacitor in self._circuit.capacitors)
        pairs = zip(self._low.tolist(), self._high.tolist(), strict=True)
        return tuple(CapacitorSurge(name, low, high) for name, (low, high) in zip(named, pairs, strict=False))

    def rectifiers(self) -> tuple[RectifierSurge, ...]:
        first, count = len(self._circuit.capacitors), len(self._rectifiers)
        currents, inverse = self._high[first : first + count].tolist(), (-self._low[first + count :]).tolist()
        found = zip(self._rectifiers, currents, inverse, strict=True)
        return tuple(RectifierSurge(one.name, amperes, volts) for (_, one), amperes, volts in found)
