"""What a supply does when it has run for a while: volts, ripple, currents and heat over one period of the mains."""

from dataclasses import dataclass

import numpy as np

from netcheck.electrical.assembly import Circuit, Matrix, assemble
from netcheck.electrical.branches import Condition
from netcheck.electrical.measure import CapacitorDuty, Heat, Measured, RectifierDuty, measure
from netcheck.electrical.network import Network
from netcheck.electrical.start import guess
from netcheck.electrical.switching import Run, Stretch

__all__ = ["Steady", "steady", "steady_in"]

STILL_HERTZ = 60.0  # the period looked at where nothing alternates
CLOSE = 1e-9  # of the sources' volts
ROUNDING = 1e-12
MANY = 60
PATIENCE = 4  # Newton steps without progress, before the circuit is left to itself for some periods
PERIODS = 6


@dataclass(frozen=True, slots=True)
class Steady:
    """One period of the running supply. ``nodes`` are the mean potentials; ``steps`` are Newton's.

    Where ``converged`` is False the figures are the last that were tried, and nothing may be concluded from them.
    """

    capacitors: tuple[CapacitorDuty, ...]
    rectifiers: tuple[RectifierDuty, ...]
    resistors: tuple[Heat, ...]
    inductors: tuple[Heat, ...]
    sources: tuple[Heat, ...]
    nodes: tuple[float, ...]
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
    return Steady(*_grouped(found), found.nodes, converged and not run.chatter, steps)


def _grouped(
    found: Measured,
) -> tuple[
    tuple[CapacitorDuty, ...], tuple[RectifierDuty, ...], tuple[Heat, ...], tuple[Heat, ...], tuple[Heat, ...]
]:
    return found.capacitors, found.rectifiers, found.resistors, found.inductors, found.sources


def _shoot(run: Run, stored: Matrix) -> tuple[Matrix, int, bool]:
    """Returns the stored volts and currents that one period leaves as they were."""
    size = run.circuit.dynamic
    if not size:
        return stored, 0, True
    scale = _scale(run)
    best, lazy = np.inf, 0
    for step in range(1, MANY + 1):
        _, end, growth = _period(run, stored)
        miss = end - stored
        change = np.linalg.solve(np.eye(size) - growth, miss)
        far = float(np.abs(scale * change).max())
        if far < CLOSE or (float(np.abs(scale * miss).max()) < ROUNDING and far < 1e-3):
            return stored + change, step, True
        lazy = 0 if far < 0.5 * best else lazy + 1
        best = min(best, far)
        if lazy > PATIENCE:
            stored, best, lazy = _rest(run, end), np.inf, 0
        else:
            stored = stored + change * min(1.0, 1.0 / far)
    return stored, MANY, False


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
