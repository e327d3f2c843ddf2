"""A first guess at a supply's running volts, near enough for Newton's method."""

import numpy as np

from netcheck.electrical.running.assembly import Equations, Matrix, eliminate
from netcheck.electrical.running.branches import LEAST_OHMS

__all__ = ["guess"]

SHARE = 0.9  # of the no-load volts, under load
PULSE_OHMS = 3.0  # a rectifier's mean current meets its source's resistance some times over, as it flows in pulses
SOURCE_OHMS = 10.0
MOST_TURNS = 200


def guess(circuit: Equations) -> Matrix:
    """Returns capacitor volts and inductor currents as a network of mean values would have them.

    In it every rectifier is a battery of 0.9 times the peak that it would block with all rectifiers open, capacitors
    are open and inductors are their resistances.
    """
    lift = SHARE * _blocked_peaks(circuit)
    ends, siemens, against, drawn = _mean_network(circuit)
    for row, at in enumerate(circuit.switches):
        branch = circuit.branches[at]
        if branch.owner is not None and branch.off:
            siemens[at] = min(branch.on, 1 / (PULSE_OHMS * SOURCE_OHMS))
        against[at] -= lift[row]
    potentials = _balance(circuit, ends, siemens, (against, drawn))
    volts = [potentials[capacitor.plus] - potentials[capacitor.minus] for _, capacitor in circuit.capacitors]
    amperes = [
        (potentials[inductor.a] - potentials[inductor.b]) / max(inductor.ohms, LEAST_OHMS)
        for _, inductor in circuit.inductors
    ]
    return np.array(volts + amperes)


def _blocked_peaks(circuit: Equations) -> Matrix:
    """Returns the peak of the alternating volts across every switch with all switches open."""
    n = circuit.dynamic
    mode = circuit.mode(tuple(False for _ in circuit.switches))
    turn = 1j * mode.rate[-3, -2] * np.eye(n) - mode.rate[:n, :n]
    phasor = np.linalg.solve(turn, mode.rate[:n, -3]) if mode.rate[-3, -2] else np.zeros(n)
    peaks: Matrix = np.abs(mode.watch[:, :n] @ phasor + mode.watch[:, -3])
    return peaks


def _mean_network(circuit: Equations) -> tuple[Matrix, Matrix, Matrix, Matrix]:
    """Returns ends, siemens and volts of every branch, inductors and held sources among them; and what is drawn."""
    nodes = len(circuit.spread)
    extra = [(i.a, i.b, 1 / max(i.ohms, LEAST_OHMS), 0.0) for _, i in circuit.inductors]
    extra += [(s.plus, s.minus, 1 / LEAST_OHMS, 0.0 if s.hertz else s.peak) for _, s in circuit.held]
    rows = [(b.a, b.b, b.on, 0.0) for b in circuit.branches] + extra
    ends = np.zeros((len(rows), nodes))
    for row, (a, b, _, _) in enumerate(rows):
        ends[row, a] += 1.0
        ends[row, b] -= 1.0
    against = np.array([volts for *_, volts in rows])
    against[: len(circuit.branches)] += circuit.thresholds[:, -1]
    return ends, np.array([siemens for _, _, siemens, _ in rows]), against, circuit.drawn[:, -1]


def _balance(circuit: Equations, ends: Matrix, siemens: Matrix, loads: tuple[Matrix, Matrix]) -> Matrix:
    """Turns switches until the mean network is consistent; the nearly right answer of a few rounds would do, too."""
    against, drawn = loads
    closed = siemens.copy()
    for at in circuit.switches:
        closed[at] = circuit.branches[at].off or 0.0
    opened = closed.copy()
    potentials = np.zeros(ends.shape[1])
    for turn in range(MOST_TURNS):
        # Node 0 is ground; a whisper to ground for every other node ties islands down.
        whisper = np.full(ends.shape[1] - 1, 1e-15)
        laplacian = ends.T @ (closed[:, None] * ends)
        weights = np.roll(np.roll(-laplacian, -1, axis=0), -1, axis=1)
        weights[:-1, -1] += whisper
        load = (ends.T @ (closed * against) - drawn)[1:, None]
        potentials = np.concatenate([[0.0], eliminate(weights, load)[:, 0]])
        over = ends @ potentials - against
        wrong = [at for at in circuit.switches if (closed[at] == siemens[at]) != (over[at] > 0)]
        if not wrong:
            break
        for at in wrong if turn < 8 else wrong[:1]:
            closed[at] = siemens[at] if over[at] > 0 else opened[at]
    return potentials
