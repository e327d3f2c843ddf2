"""What a supply does when it has run for a while: volts, ripple, currents and heat over one period of the mains."""

from collections.abc import Collection

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from netcheck.electrical.network.elements import Conduction, Element, Load, Network, Rectifier
from netcheck.electrical.running.assembly import Matrix, assemble
from netcheck.electrical.running.branches import Condition
from netcheck.electrical.running.measure import CapacitorDuty, Heat, RectifierDuty, measure
from netcheck.electrical.running.start import guess
from netcheck.electrical.running.switching import Run, Stretch

__all__ = ["STILL_HERTZ", "Steady", "one_way", "period_from", "steady", "steady_in"]

STILL_HERTZ = 60.0  # the period looked at where nothing alternates
CLOSE = 1e-7  # of the sources' volts
ROUNDING = 1e-12
LOOSE = 1e-3  # enough where only leakage holds the volts, and rounding hides the rest
MOST_STEPS = 200
TRIES, LEAST = 24, 0.01  # along one step, and how near to an end of what encloses it a try may be


class Steady(Struct, frozen=True):
    """One period of the running supply. ``nodes`` are the mean potentials, ``swings`` their ripple, peak to peak.

    ``start`` are the volts of all capacitors, then the currents of all inductors, as the mains' sine rises through 0.
    ``steps`` are Newton's. Where ``converged`` is False the figures are the last that were tried, and nothing may be
    concluded from them. ``driven_back`` are loads that something drives backwards, so that they conduct half the time.
    """

    capacitors: tuple[CapacitorDuty, ...]
    rectifiers: tuple[RectifierDuty, ...]
    resistors: tuple[Heat, ...]
    inductors: tuple[Heat, ...]
    sources: tuple[Heat, ...]
    nodes: tuple[float, ...]
    swings: tuple[float, ...]
    start: tuple[float, ...]
    converged: bool
    steps: int
    driven_back: frozenset[str] = frozenset()


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
    found = _solved(network, condition)
    back = found.driven_back
    # A tube never conducts from its cathode to its plate: where a load was driven so, it gets a rectifier before it.
    while found.driven_back:
        found = _solved(one_way(network, back), condition, found.start)
        more = found.driven_back - back
        found, back = _without_guards(found, network), back | more
        if not more:
            break
    return found


GUARD = " as one way"
_GUARDING = Conduction(((0.0, 0.0), (1.0, 1.0)))


def one_way(network: Network, loads: Collection[str]) -> Network:
    """The network with a rectifier of no threshold and one ohm before each of some loads."""
    elements: list[Element] = []
    count = network.count
    for one in network.elements:
        if isinstance(one, Load) and one.name in loads:
            elements.append(Rectifier(f"{one.name}{GUARD}", one.plus, count, _GUARDING))
            elements.append(replace(one, plus=count))
            count += 1
        else:
            elements.append(one)
    return Network(count, tuple(elements), network.names)


def _without_guards(found: Steady, network: Network) -> Steady:
    return replace(
        found,
        rectifiers=tuple(one for one in found.rectifiers if not one.name.endswith(GUARD)),
        nodes=found.nodes[: network.count],
        swings=found.swings[: network.count],
    )


def _solved(network: Network, condition: Condition, near: tuple[float, ...] | None = None) -> Steady:
    """The running state, looked for from what is stored in one ``near`` it, else from a guess."""
    circuit = assemble(network, condition)
    run = Run(circuit, 1 / (circuit.hertz or STILL_HERTZ))
    stored, steps, converged = _shoot(run, guess(circuit) if near is None else np.array(near))
    run.chatter = False
    found = measure(network, circuit, period_from(run, stored)[0])
    return Steady(
        found.capacitors, found.rectifiers, found.resistors, found.inductors, found.sources, found.nodes,
        found.swings, tuple(stored.tolist()), converged and not run.chatter, steps,
        found.driven_back if condition.warm else frozenset(),
    )  # fmt: skip


class _Shot(Struct, frozen=True):
    """A period from ``stored``: by how much it misses, Newton's step, and both as parts of the sources' volts."""

    stored: Matrix
    miss: Matrix
    step: Matrix
    missed: float
    far: float

    @property
    def hit(self) -> bool:
        return self.far < CLOSE or (self.missed < ROUNDING and self.far < LOOSE)


def _shoot(run: Run, stored: Matrix) -> tuple[Matrix, int, bool]:
    """Returns the stored volts and currents that one period leaves as they were.

    In a passive circuit no two courses ever move apart, as measured by energy. So what a period still changes, seen
    along Newton's step, only falls on the way: where it has turned into its opposite, the step went too far.
    """
    if not len(stored):
        return stored, 0, True
    shot, steps = _shot(run, stored), 1
    while not shot.hit and steps < MOST_STEPS:
        shot, tried = _ahead(run, shot)
        steps += tried
    return shot.stored + shot.step, steps, shot.hit


def _ahead(run: Run, shot: _Shot) -> tuple[_Shot, int]:
    """Returns the next try along Newton's step, and how many it took to find it.

    A step that leads out of where only leakage flows may go a thousand times too far: the place where the pull turns
    is enclosed and closed in on by the rule of false position, the end that stays being given half its weight.
    """
    step = shot.step * min(1.0, max(1.0, float(np.abs(_volts(run) * shot.stored).max())) / shot.far)
    along = run.weights[: len(step)] ** 2 * step
    pull = float(along @ shot.miss)
    trial = _shot(run, shot.stored + step)
    low, surplus = (0.0, pull), -float(along @ trial.miss)
    if trial.hit or surplus < pull / 2:
        return trial, 1
    high = (1.0, surplus)
    for tried in range(2, TRIES):
        part = low[0] + (high[0] - low[0]) * min(max(low[1] / (low[1] + high[1]), LEAST), 1 - LEAST)
        trial = _shot(run, shot.stored + part * step)
        surplus = -float(along @ trial.miss)
        if trial.hit or abs(surplus) < pull / 2:
            return trial, tried
        if surplus > 0:
            low, high = (low[0], low[1] / 2), (part, surplus)
        else:
            low, high = (part, -surplus), (high[0], high[1] / 2)
    return trial, TRIES


def _shot(run: Run, stored: Matrix) -> _Shot:
    _, end, growth = period_from(run, stored)
    miss = end - stored
    step: Matrix = np.linalg.solve(np.eye(len(stored)) - growth, miss).astype(np.float64)
    volts = _volts(run)
    return _Shot(stored, miss, step, float(np.abs(volts * miss).max()), float(np.abs(volts * step).max()))


def _volts(run: Run) -> Matrix:
    """Returns weights that make the sources' volts 1, and a current 1 that stores as much energy."""
    circuit = run.circuit
    most = max((capacitor.farads for _, capacitor in circuit.capacitors), default=1e-5)
    currents = [np.sqrt(inductor.henries / most) for _, inductor in circuit.inductors]
    return np.array([1.0] * len(circuit.capacitors) + currents) / circuit.volts


def period_from(run: Run, stored: Matrix) -> tuple[tuple[Stretch, ...], Matrix, Matrix]:
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
