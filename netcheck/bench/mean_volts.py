"""What a change does to a supply's mean volts, quickly: its rectifiers as straight lines around their running point."""

from collections.abc import Mapping, Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from netcheck.electrical.network.elements import (
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Regulator,
    Resistor,
    VoltageSource,
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
AT_ONCE = 256

_Point = tuple[float, float, float]
Ends = np.ndarray[tuple[int, ...], np.dtype[np.int64]]


class MeanVolts(Struct, frozen=True, eq=False):
    """A running supply whose rectifiers are lines: ``points`` has (amperes, volts across, siemens) of each by name.

    ``laws`` is a row of `_law` for each of the network's elements.
    """

    network: Network
    points: Mapping[str, _Point]
    laws: Matrix

    @staticmethod
    def of(network: Network, points: Mapping[str, _Point]) -> "MeanVolts":
        """The model around these running points."""
        return MeanVolts(network, points, _laws(network.elements, points, 1.0))

    def nodes(self, elements: Sequence[Element]) -> Matrix:
        """The mean potentials of all nodes with other ``elements`` between them; node 0 is zero."""
        found: Matrix = self.nodes_of([elements])[0]
        return found

    def nodes_of(self, many: Sequence[Sequence[Element]]) -> Matrix:
        """The same of many variants, a row each; as many as this at a time, for their matrices lie side by side."""
        rows = [self._nodes(many[at : at + AT_ONCE]) for at in range(0, len(many), AT_ONCE)]
        return np.concatenate(rows) if rows else np.zeros((0, self.network.count))

    def _nodes(self, many: Sequence[Sequence[Element]]) -> Matrix:
        """A variant a row.

        Loads that fall below their knee, gas tubes that go out and rectifiers that would conduct backwards change their
        law; this is gone through until nothing changes, or 30 times.
        """
        laws = _beside([self._laws_of(elements) for elements in many])
        a, b = laws[:, :, 0].astype(int), laws[:, :, 1].astype(int)
        other, found = np.zeros(a.shape, dtype=bool), np.zeros((len(many), self.network.count))
        still = np.arange(len(many))
        for _ in range(ROUNDS):
            siemens = np.where(other[still], laws[still, :, 6], laws[still, :, 2])
            amperes = np.where(other[still], 0.0, laws[still, :, 3])
            found[still] = _solved(self.network.count, a[still], b[still], siemens, amperes)
            across = np.take_along_axis(found, a, 1) - np.take_along_axis(found, b, 1)
            now = laws[:, :, 4] * across + laws[:, :, 5] < 0
            still, other = np.flatnonzero((now != other).any(axis=1)), now
            if not len(still):
                break
        return found

    def _laws_of(self, elements: Sequence[Element]) -> Matrix:
        """The rows of some elements; of those that are the network's own, from its first and its last on, the known."""
        own, line = self.network.elements, self._line(elements)
        if line != 1.0:
            return _laws(elements, self.points, line)
        least = min(len(own), len(elements))
        first = next((at for at in range(least) if own[at] is not elements[at]), least)
        last = next((at for at in range(least - first) if own[-1 - at] is not elements[-1 - at]), least - first)
        changed = _laws(elements[first : len(elements) - last], self.points, line)
        return np.concatenate((self.laws[:first], changed, self.laws[len(own) - last :]))

    def _line(self, elements: Sequence[Element]) -> float:
        """What the alternating sources are of those of the network: rectifiers' lines scale with it."""
        peaks = [sum(one.peak for one in ones if isinstance(one, VoltageSource) and one.hertz)
                 for ones in (elements, self.network.elements)]  # fmt: skip
        return peaks[0] / peaks[1] if peaks[1] else 1.0


def _laws(elements: Sequence[Element], points: Mapping[str, _Point], line: float) -> Matrix:
    return np.array([_law(one, points, line) for one in elements]).reshape(-1, 7)


def _law(one: Element, points: Mapping[str, _Point], line: float) -> tuple[float, ...]:
    """Its ends a and b, siemens and amperes from a to b; then p and q: where p volts + q is negative, siemens alone."""
    match one:
        case Resistor(a=a, b=b, ohms=ohms) | Inductor(a=a, b=b, ohms=ohms):
            return (a, b, 1 / max(ohms, LEAST_STEP), 0.0, 0.0, 0.0, 0.0)
        case VoltageSource(plus=a, minus=b, ohms=ohms, peak=peak, hertz=hertz):
            siemens = 1 / max(ohms, LEAST_STEP)
            return (a, b, siemens, 0.0 if hertz else -peak * siemens, 0.0, 0.0, 0.0)
        case Load(plus=a, minus=b, amperes=amperes, knee_volts=knee):
            return (a, b, 0.0, amperes, 1.0, -knee, amperes / knee)
        case Regulator(anode=a, cathode=b, volts=held):
            return (a, b, REGULATED, -REGULATED * held, 1.0, -held, 0.0)
        case Rectifier(name=name, anode=a, cathode=b) if name in points:
            amperes, across, siemens = points[name]
            pushed = line * (amperes - siemens * across)
            return (a, b, siemens, pushed, siemens, pushed, 0.0)
        case _:
            return (0.0,) * 7


def _beside(many: Sequence[Matrix]) -> Matrix:
    """Rows of several variants side by side; of those that have fewer, the last do nothing."""
    laws: Matrix = np.zeros((len(many), max(len(one) for one in many), 7))
    for into, one in zip(laws, many, strict=True):
        into[: len(one)] = one
    return laws


def _solved(count: int, a: Ends, b: Ends, siemens: Matrix, amperes: Matrix) -> Matrix:
    """The potentials of each variant, a row each, from the conductances and currents between their nodes."""
    many = len(a)
    first = np.arange(many)[:, None] * count
    places = np.concatenate(((first + a) * count + a, (first + b) * count + b, (first + a) * count + b,
                             (first + b) * count + a), axis=1)  # fmt: skip
    weights = np.concatenate((siemens, siemens, -siemens, -siemens), axis=1)
    between = np.bincount(places.ravel(), weights.ravel(), many * count * count).reshape(many, count, count)
    whole = between + np.eye(count) * LEAST_SIEMENS
    into, out = ((first + ends).ravel() for ends in (b, a))
    pushed = np.bincount(into, amperes.ravel(), many * count) - np.bincount(out, amperes.ravel(), many * count)
    found: Matrix = np.zeros((many, count))
    found[:, 1:] = np.linalg.solve(whole[:, 1:, 1:], pushed.reshape(many, count)[:, 1:, None])[:, :, 0]
    return found


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
    return MeanVolts.of(network, points)


def _heavier(one: Element) -> Element:
    match one:
        case Resistor():
            return replace(one, ohms=one.ohms / HEAVIER)
        case Load():
            return replace(one, amperes=one.amperes * HEAVIER)
        case _:
            return one
