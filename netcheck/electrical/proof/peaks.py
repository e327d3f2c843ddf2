"""The cold no-load peak: what every capacitor is charged to before the tubes draw anything.

With all rectifiers blocked one phasor solution says how far each anode swings against its cathode. The capacitors
then charge until no rectifier conducts any more; bleeders pull back as far as the rectifiers let them. This is the
state of least heat in the resistors in which every cathode stands above its anode by at least that swing.
"""

import math
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from netcheck.electrical.network.elements import (
    Capacitor,
    Element,
    Inductor,
    Network,
    Rectifier,
    Resistor,
    VoltageSource,
)
from netcheck.electrical.proof.currents import joined_nodes

__all__ = ["AtRest", "cold_peaks"]

Reals = npt.NDArray[np.float64]

LEAK = 1e-10  # siemens across every rectifier and capacitor, so that nothing floats
HELD = 1e-13  # of a node's siemens leak to the reference: some hundred times what the arithmetic drops
CONTACT = 1e-3  # ohms that a supply or a conducting rectifier has at the least
SWEEP = 1e6  # volts, more than any set makes: what they reach has no bound
MOST_EXCHANGES = 10_000  # exchanges; a supply takes about as many as it has rectifiers
UNBOUNDED = 1.0  # volts by which a capacitor has to follow the sweep before it counts as unbounded


class AtRest:
    """A network while no tube draws current, its sources at ``line`` times their nominal volts and no-load rise."""

    def __init__(self, network: Network, line: float = 1.0) -> None:
        """Take a network; it is solved once, whatever is asked of it then."""
        self._network = network
        self._swings = _Swings(network, line)
        self._bounded = self._raised = _settled(network, self._swings, sweep=False)
        if not all(one.driven for one in network.elements if isinstance(one, Rectifier)):
            self._raised = _settled(network, self._swings, sweep=True)

    def peaks(self) -> dict[str, float]:
        """The highest volts, plus against minus, of every capacitor by name.

        The sign is that of the capacitor's own leads; the figure is infinite where a rectifier that the mains does not
        drive could raise it. In supplies with chokes the first moments after switching on can exceed it.
        """
        return {one.name: self._peak(one) for one in self._network.elements if isinstance(one, Capacitor)}

    def _peak(self, capacitor: Capacitor) -> float:
        volts, swept = self._across(capacitor.plus, capacitor.minus)
        if abs(swept - volts) > UNBOUNDED:
            return math.copysign(math.inf, swept - volts)
        return volts + math.copysign(self._swings.between(capacitor.plus, capacitor.minus), volts)

    def means(self) -> dict[str, float]:
        """The mean volts of the same, what alternates left out; none of those that nothing bounds."""
        held = abs(self._raised - self._bounded) <= UNBOUNDED
        return {
            one.name: float(self._bounded[one.plus] - self._bounded[one.minus])
            for one in self._network.elements
            if isinstance(one, Capacitor) and held[one.plus] and held[one.minus]
        }

    def inverse(self) -> dict[str, float]:
        """The highest volts from cathode to anode of every rectifier by name.

        What the cathode's side is charged to, and on top of it the swing of the anode the other way: twice the peak of
        the mains for half a wave into a capacitor. Infinite where a rectifier that the mains does not drive could
        raise it.
        """
        return {one.name: self._inverse(one) for one in self._network.elements if isinstance(one, Rectifier)}

    def _inverse(self, one: Rectifier) -> float:
        mean, swept = self._across(one.cathode, one.anode)
        if not one.driven or swept - mean > UNBOUNDED:
            return math.inf
        return mean + self._swings.between(one.cathode, one.anode)

    def riding(self, least: float) -> frozenset[str]:
        """The capacitors whose two ends swing together against the reference, each by ``least`` volts."""
        return frozenset(
            one.name
            for one in self._network.elements
            if isinstance(one, Capacitor) and all(self._swings.between(end, 0) > least for end in (one.plus, one.minus))
        )

    def _across(self, a: int, b: int) -> tuple[float, float]:
        """The mean volts between two nodes, and these with all that the mains does not drive lifted out of sight."""
        return float(self._bounded[a] - self._bounded[b]), float(self._raised[a] - self._raised[b])


def cold_peaks(network: Network, line: float = 1.0) -> dict[str, float]:
    """The highest volts of every capacitor by name while no tube draws current: of a network that is asked once."""
    return AtRest(network, line).peaks()


class _Swings:
    """How far nodes swing against each other with every rectifier blocked; one phasor solution a frequency."""

    def __init__(self, network: Network, line: float) -> None:
        self.line = line
        hertz = sorted({e.hertz for e in network.elements if isinstance(e, VoltageSource) and e.hertz})
        self._phasors = [_phasors(network, each, line) for each in hertz]

    def between(self, a: int, b: int) -> float:
        return float(sum(abs(phasors[a] - phasors[b]) for phasors in self._phasors))


def _phasors(network: Network, hertz: float, line: float) -> npt.NDArray[np.complex128]:
    """The potentials of all nodes; a source's current is an unknown of its own, so that it may lack resistance."""
    sources = [element for element in network.elements if isinstance(element, VoltageSource)]
    size = network.count + len(sources)
    matrix = np.zeros((size, size), dtype=complex)
    right = np.zeros(size, dtype=complex)
    _stamp(matrix, [path for one in network.elements if (path := _admittance(one, 2 * math.pi * hertz)) is not None])
    for row, source in enumerate(sources, start=network.count):
        matrix[row, [source.plus, source.minus]] += [1, -1]
        matrix[[source.plus, source.minus], row] += [1, -1]
        matrix[row, row] -= source.ohms
        right[row] = _peak_volts(source, line) if source.hertz == hertz else 0.0
    _tie_down(matrix, network.count)
    return np.linalg.solve(matrix, right).astype(complex)[: network.count]


def _peak_volts(source: VoltageSource, line: float) -> float:
    return source.peak * line * (1 + source.rise)


def _admittance(element: Element, omega: float) -> tuple[int, int, complex] | None:
    match element:
        case Resistor(a=a, b=b, ohms=ohms):
            return a, b, 1 / max(ohms, CONTACT)
        case Capacitor(plus=plus, minus=minus, farads=farads):
            return plus, minus, 1j * omega * farads + LEAK
        case Inductor(a=a, b=b, ohms=ohms, henries=henries, core_ohms=core):
            return a, b, 1 / complex(max(ohms, CONTACT), omega * henries) + 1 / core
        case Rectifier(anode=anode, cathode=cathode):
            return anode, cathode, LEAK
        case _:
            return None


def _stamp(matrix: npt.NDArray[np.complex128] | Reals, paths: Sequence[tuple[int, int, complex]]) -> None:
    """Enters admittances between two nodes each, one after the other."""
    rows = np.array([node for a, b, _ in paths for node in (a, b, a, b)], dtype=int)
    columns = np.array([node for a, b, _ in paths for node in (a, b, b, a)], dtype=int)
    siemens = np.array([y for *_, each in paths for y in (each, each, -each, -each)], dtype=matrix.dtype)
    np.add.at(matrix, (rows, columns), siemens)


def _tie_down(matrix: npt.NDArray[np.complex128] | Reals, count: int) -> None:
    """A leak from every node to the reference: what floats has an answer, and no contact's siemens drown it."""
    each = range(count)
    matrix[each, each] += np.maximum(LEAK * 1e-4, HELD * np.abs(matrix[each, each]))


def _settled(network: Network, swings: _Swings, *, sweep: bool) -> Reals:
    """The mean potentials at rest; with ``sweep``, rectifiers off the mains lift their cathodes out of sight."""
    joined = joined_nodes(network, windings=True)
    slope, pull = _mean_network(network, joined, swings.line)
    lifts = _lifts(network, joined, swings, sweep=sweep)
    rest = np.asarray(np.linalg.solve(slope, pull))
    if lifts:
        rows = np.zeros((len(lifts), network.count))
        for row, (anode, cathode) in enumerate(lifts):
            rows[row, cathode] += 1
            rows[row, anode] -= 1
        answers = np.linalg.solve(slope, rows.T)
        rest += answers @ _pressed(rows @ answers, np.array(list(lifts.values())) - rows @ rest)
    return np.asarray(rest[list(joined)])


def _mean_network(network: Network, joined: tuple[int, ...], line: float) -> tuple[Reals, Reals]:
    """The siemens between the nodes for direct current, and the amperes that sources drive into them."""
    slope, pull = np.zeros((network.count, network.count)), np.zeros(network.count)
    paths = []
    for element in network.elements:
        match element:
            case Resistor(a=a, b=b, ohms=ohms):
                paths.append((joined[a], joined[b], 1 / max(ohms, CONTACT)))
            case Capacitor(plus=a, minus=b) | Rectifier(anode=a, cathode=b):
                paths.append((joined[a], joined[b], LEAK))
            case VoltageSource(plus=plus, minus=minus, hertz=0, ohms=ohms):
                siemens = 1 / max(ohms, CONTACT)
                paths.append((joined[plus], joined[minus], siemens))
                pull[joined[plus]] += siemens * _peak_volts(element, line)
                pull[joined[minus]] -= siemens * _peak_volts(element, line)
            case _:
                pass
    _stamp(slope, paths)
    _tie_down(slope, network.count)
    return slope, pull


def _lifts(network: Network, joined: tuple[int, ...], swings: _Swings, *, sweep: bool) -> dict[tuple[int, int], float]:
    """For every pair of anode and cathode the volts by which the cathode has to stand above the anode."""
    lifts: dict[tuple[int, int], float] = {}
    for element in network.elements:
        if not isinstance(element, Rectifier):
            continue
        threshold = element.law.corners[0][0] if element.law.corners else 0.0
        lift = max(swings.between(element.anode, element.cathode) - threshold, -threshold)
        if not element.driven:
            lift = SWEEP if sweep else -threshold
        ends = joined[element.anode], joined[element.cathode]
        lifts[ends] = max(lifts.get(ends, -math.inf), lift)
    return lifts


def _pressed(stiffness: Reals, short: Reals) -> Reals:
    """The currents of the rectifiers that must conduct: none negative, and none where the volts suffice.

    A linear complementarity problem, solved by exchanging the first variable that is out of bounds (Murty 1974), which
    ends whenever the matrix is positive definite; a contact resistance makes it so.
    """
    matrix = stiffness + CONTACT * np.eye(len(short))
    scale = 1e-12 * (float(np.abs(short).max()) + 1.0)
    active = np.zeros(len(short), dtype=bool)
    currents = np.zeros(len(short))
    for _ in range(MOST_EXCHANGES):
        currents[:] = 0.0
        if active.any():
            currents[active] = np.linalg.solve(matrix[np.ix_(active, active)], short[active])
        missing = short - matrix @ currents
        wrong = np.flatnonzero(np.where(active, currents < 0, missing > scale))
        if not wrong.size:
            break
        active[wrong[0]] ^= True
    return currents
