"""What a supply does when it has run for a while: volts, ripple, currents and heat over one period of the mains."""

from dataclasses import dataclass

import numpy as np

from netcheck.electrical.assembly import Matrix, assemble
from netcheck.electrical.branches import Condition
from netcheck.electrical.measure import CapacitorDuty, Heat, RectifierDuty, measure
from netcheck.electrical.network import Network
from netcheck.electrical.start import guess
from netcheck.electrical.switching import Run, Stretch

__all__ = ["Steady", "steady", "steady_in"]

STILL_HERTZ = 60.0  # the period looked at where nothing alternates
CLOSE = 1e-9  # of the sources' volts
ROUNDING = 1e-12
LOOSE = 1e-3  # enough where only leakage holds the volts, and rounding hides the rest
MANY = 80
HALVINGS = 6  # of a Newton step that leads astray, before the circuit is left to itself for some periods
PERIODS = 6


@dataclass(frozen=True, slots=True)
class Steady:
    """One period of the running supply. ``nodes`` are the mean potentials; ``steps`` are Newton's.

    ``start`` are the volts of all capacitors, then the currents of all inductors, as the mains' sine rises through 0.
    Where ``converged`` is False the figures are the last that were tried, and nothing may be concluded from them.
    """

    capacitors: tuple[CapacitorDuty, ...]
    rectifiers: tuple[RectifierDuty, ...]
    resistors: tuple[Heat, ...]
    inductors: tuple[Heat, ...]
    sources: tuple[Heat, ...]
    nodes: tuple[float, ...]
    start: tuple[float, ...]
    converged: bool
    steps: int


def steady(network: Network, *, warm: bool = True, line: float = 1.0) -> Steady:
    """Returns what the network does once it repeats itself, at ``line`` times its nominal volts.

    Raises:
        ValueError: the sources have different frequencies.
    """
    return steady_in(network, Condition(warm=warm, line=line))


def steady_in(network: Network, condition: Condition) -> Steady:
    """Returns the same for any condition (leakage, sources dead).

    Raises:
        ValueError: the sources have different frequencies.
    """
    circuit = assemble(network, condition)
    run = Run(circuit, 1 / (circuit.hertz or STILL_HERTZ))
    stored, steps, converged = _shoot(run, guess(circuit))
    run.chatter = False
    found = measure(network, circuit, _period(run, stored)[0])
    return Steady(
        found.capacitors, found.rectifiers, found.resistors, found.inductors, found.sources, found.nodes,
        tuple(stored.tolist()), converged and not run.chatter, steps,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Shot:
    """A period from ``stored``: by how much it misses, and Newton's change; both also as parts of the scale."""

    stored: Matrix
    change: Matrix
    missed: float
    far: float

    @property
    def hit(self) -> bool:
        return self.far < CLOSE or (self.missed < ROUNDING and self.far < LOOSE)

    def beats(self, other: "_Shot", part: float) -> bool:
        return self.hit or self.missed < (1 - part / 4) * other.missed or self.far < other.far / 2


def _shoot(run: Run, stored: Matrix) -> tuple[Matrix, int, bool]:
    """Returns the stored volts and currents that one period leaves as they were."""
    if not len(stored):
        return stored, 0, True
    shot, steps = _shot(run, stored), 1
    while not shot.hit and steps < MANY:
        part = min(1.0, 1.0 / shot.far)
        for _ in range(HALVINGS):
            trial, steps = _shot(run, shot.stored + part * shot.change), steps + 1
            if trial.beats(shot, part):
                break
            part /= 2
        else:
            trial, steps = _shot(run, _rest(run, shot.stored)), steps + 1
        shot = trial
    return shot.stored + shot.change, steps, shot.hit


def _shot(run: Run, stored: Matrix) -> _Shot:
    _, end, growth = _period(run, stored)
    change: Matrix = np.linalg.solve(np.eye(len(stored)) - growth, end - stored).astype(np.float64)
    scale = _scale(run)
    return _Shot(stored, change, float(np.abs(scale * (end - stored)).max()), float(np.abs(scale * change).max()))


def _scale(run: Run) -> Matrix:
    """Returns weights that make the sources' volts 1, and a current 1 that stores as much energy."""
    circuit = run.circuit
    most = max((capacitor.farads for _, capacitor in circuit.capacitors), default=1e-5)
    currents = [np.sqrt(inductor.henries / most) for _, inductor in circuit.inductors]
    return np.array([1.0] * len(circuit.capacitors) + currents) / circuit.volts


def _rest(run: Run, stored: Matrix) -> Matrix:
    for _ in range(PERIODS):
        _, stored, _ = _period(run, stored)
    return stored


def _period(run: Run, stored: Matrix) -> tuple[tuple[Stretch, ...], Matrix, Matrix]:
    """Returns one period's stretches, what is stored at its end, and how that depends on its beginning."""
    circuit = run.circuit
    size = circuit.dynamic
    x = circuit.start(stored)
    z = np.hstack([x[:, None], np.eye(circuit.size, size)])
    stretches = []
    for stretch, after in run.march(run.first(x), z, run.period):
        stretches.append(stretch)
        z = after
    return tuple(stretches), z[:size, 0], z[:size, 1:]
