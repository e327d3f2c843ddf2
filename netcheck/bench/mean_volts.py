"""What a change does to a supply's mean volts, quickly: its rectifiers as straight lines around their running point."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from netcheck.electrical.network.elements import (
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Regulator,
    Resistor,
    Source,
)
from netcheck.electrical.running.assembly import Matrix
from netcheck.electrical.running.steady import Steady, steady

__all__ = ["MeanVolts", "mean_volts"]

HEAVIER = 1.15  # of what every resistor and load takes, to see how rectifiers give way
LEAST_SIEMENS = 1e-9
LEAST_STEP = 1e-3  # volts: less between two running points tells no slope
STIFF, SOFT = 0.2, 1e-5  # siemens of a rectifier's line at most and at least
REGULATED = 1.0  # siemens of a gas tube that has struck
ROUNDS = 30


@dataclass(frozen=True, slots=True)
class MeanVolts:
    """A running supply whose rectifiers are lines: ``points`` has (amperes, volts across, siemens) of each by name."""

    network: Network
    points: Mapping[str, tuple[float, float, float]]

    def nodes(self, elements: Sequence[Element]) -> Matrix:
        """The mean potentials of all nodes with other ``elements`` between them; node 0 is zero.

        Loads that fall below their knee, gas tubes that go out and rectifiers that would conduct backwards change
        their law; this is gone through until nothing changes, or 30 times.
        """
        laws: tuple[bool, ...] = ()
        line, found = self._line(elements), np.zeros(self.network.count)
        for _ in range(ROUNDS):
            found = self._solved(elements, laws, line)
            now = tuple(self._other_law(one, found, line) for one in elements)
            if now == laws:
                break
            laws = now
        return found

    def _line(self, elements: Sequence[Element]) -> float:
        """What the alternating sources are of those of the network: rectifiers' lines scale with it."""
        peaks = [sum(one.peak for one in ones if isinstance(one, Source) and one.hertz)
                 for ones in (elements, self.network.elements)]  # fmt: skip
        return peaks[0] / peaks[1] if peaks[1] else 1.0

    def _point(self, name: str, line: float) -> tuple[float, float, float]:
        amperes, across, siemens = self.points[name]
        return line * amperes, line * across, siemens

    def _other_law(self, one: Element, volts: Matrix, line: float) -> bool:
        """Whether an element is out of the law that it runs by."""
        match one:
            case Load(plus=a, minus=b, knee_volts=knee):
                return bool(volts[a] - volts[b] < knee)
            case Regulator(anode=a, cathode=b, volts=held):
                return bool(volts[a] - volts[b] < held)
            case Rectifier(name=name, anode=a, cathode=b) if name in self.points:
                amperes, across, siemens = self._point(name, line)
                return bool(amperes + siemens * (volts[a] - volts[b] - across) < 0)
            case _:
                return False

    def _solved(self, elements: Sequence[Element], laws: tuple[bool, ...], line: float) -> Matrix:
        siemens = np.eye(self.network.count) * LEAST_SIEMENS
        pushed = np.zeros(self.network.count)
        for at, one in enumerate(elements):
            self._enter((siemens, pushed), one, line, other=bool(laws) and laws[at])
        found: Matrix = np.zeros(self.network.count)
        found[1:] = np.linalg.solve(siemens[1:, 1:], pushed[1:])
        return found

    def _enter(self, into: tuple[Matrix, Matrix], one: Element, line: float, *, other: bool) -> None:
        siemens, pushed = into
        match one:
            case Resistor(a=a, b=b, ohms=ohms) | Inductor(a=a, b=b, ohms=ohms):
                _stamp(siemens, a, b, 1 / max(ohms, LEAST_STEP))
            case Source(plus=a, minus=b, ohms=ohms, peak=peak, hertz=hertz):
                _stamp(siemens, a, b, 1 / max(ohms, LEAST_STEP))
                _push(pushed, b, a, 0.0 if hertz else peak / max(ohms, LEAST_STEP))
            case Load(plus=a, minus=b, amperes=amperes, knee_volts=knee):
                if other:
                    _stamp(siemens, a, b, amperes / knee)
                else:
                    _push(pushed, a, b, amperes)
            case Regulator(anode=a, cathode=b, volts=held) if not other:
                _stamp(siemens, a, b, REGULATED)
                _push(pushed, b, a, REGULATED * held)
            case Rectifier(name=name, anode=a, cathode=b) if not other and name in self.points:
                amperes, across, slope = self._point(name, line)
                _stamp(siemens, a, b, slope)
                _push(pushed, a, b, amperes - slope * across)
            case _:
                pass


def _stamp(siemens: Matrix, a: int, b: int, more: float) -> None:
    siemens[a, a] += more
    siemens[b, b] += more
    siemens[a, b] -= more
    siemens[b, a] -= more


def _push(pushed: Matrix, a: int, b: int, amperes: float) -> None:
    """A current from ``a`` to ``b`` through an element."""
    pushed[a] -= amperes
    pushed[b] += amperes


def mean_volts(network: Network, running: Steady) -> MeanVolts:
    """The quick model of a network that runs as computed; a second, heavier run tells the rectifiers' slopes."""
    heavier = steady(replace(network, elements=tuple(_heavier(one) for one in network.elements)))
    before = {one.name: one.amperes.mean for one in running.rectifiers}
    after = {one.name: one.amperes.mean for one in heavier.rectifiers}
    points = {}
    for one in network.elements:
        if isinstance(one, Rectifier) and one.name in before:
            across = running.nodes[one.anode] - running.nodes[one.cathode]
            step = heavier.nodes[one.anode] - heavier.nodes[one.cathode] - across
            more = after.get(one.name, 0.0) - before[one.name]
            slope = more / step if abs(step) > LEAST_STEP else 0.0
            points[one.name] = (before[one.name], across, min(max(slope, SOFT), STIFF))
    return MeanVolts(network, points)


def _heavier(one: Element) -> Element:
    match one:
        case Resistor():
            return replace(one, ohms=one.ohms / HEAVIER)
        case Load():
            return replace(one, amperes=one.amperes * HEAVIER)
        case _:
            return one
