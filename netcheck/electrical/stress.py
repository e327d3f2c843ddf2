"""What capacitors and rectifiers must stand: in use, before the tubes draw current, and that on a high line."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from netcheck.core.circuit import Part
from netcheck.core.quantity import Current, Dimension
from netcheck.electrical.network.elements import Capacitor, Conduction, Inductor, Network, Rectifier
from netcheck.electrical.network.readings import as_stated
from netcheck.electrical.network.supplies import translated
from netcheck.electrical.proof.peaks import cold_inverse, cold_peaks
from netcheck.electrical.running.steady import steady
from netcheck.electrical.running.switch_on import switch_on
from netcheck.model.graph import CircuitGraph

__all__ = ["HIGH_LINE", "InverseStress", "Stress", "Stresses", "inverse_stresses", "stresses"]

HIGH_LINE = 1.1
"""The highest line that a set must stand, as a part of the nominal volts (common practice)."""

_IDEAL = Conduction(((0.0, 0.0), (1.0, 1.0)))
_CLASSES = frozenset({"X1", "X2", "Y1", "Y2"})


@dataclass(frozen=True, slots=True)
class Stress:
    """A capacitor in volts; figures are magnitudes.

    ``mean`` and ``in_use`` (DC and the peak of the ripple on it) are None where the running set could not be
    computed. ``surely`` is False where they rest on currents that the file does not state. ``cold`` and ``cold_high``
    are infinite where nothing bounds them.
    """

    name: str
    rated: float
    mean: float | None
    in_use: float | None
    surely: bool
    cold: float
    cold_high: float


@dataclass(frozen=True, slots=True)
class InverseStress:
    """A rectifier's inverse volts while nothing is drawn, at nominal and at high line, beside its rating."""

    name: str
    rated: float
    cold: float
    cold_high: float


@dataclass(frozen=True, slots=True)
class Stresses:
    """The capacitors that state their volts; ``surges`` where switching on was followed for the chokes' sake."""

    capacitors: tuple[Stress, ...]
    surges: bool


def stresses(graph: CircuitGraph) -> Stresses:
    """What each rated capacitor of the supply must stand; nothing where sources of several frequencies meet."""
    network = translated(graph).network
    rated = [one for one in network.elements if isinstance(one, Capacitor) and _rating(graph, one.name)]
    if not rated:
        return Stresses((), surges=False)
    try:
        return _stresses(graph, network, rated)
    except ValueError:  # no common period
        return Stresses((), surges=False)


def inverse_stresses(graph: CircuitGraph) -> tuple[InverseStress, ...]:
    """What each rated rectifier of the supply must stand backwards, with nothing drawn."""
    network = translated(graph).network
    rated = [one for one in network.elements if isinstance(one, Rectifier) and one.driven and one.inverse_volts]
    if not rated:
        return ()
    ideal = _ideal(network)
    cold, high = cold_inverse(ideal), cold_inverse(ideal, HIGH_LINE)
    return tuple(
        InverseStress(one.name, one.inverse_volts or 0.0, cold[one.name], high[one.name])
        for one in rated
        if math.isfinite(high[one.name])
    )


def _stresses(graph: CircuitGraph, network: Network, rated: list[Capacitor]) -> Stresses:
    cold, high, surges = _cold(network)
    running = _running(network)
    stated: Mapping[str, tuple[float, float]] | None = None
    found = []
    for one in rated:
        mean, peak = running.get(one.name, (None, None))
        volts, surely = _rating(graph, one.name), True
        if peak is not None and peak > volts >= abs(cold[one.name]):
            # Currents make these volts, so they count for sure only as far as the file states the currents.
            stated = _running(as_stated(network)) if stated is None else stated
            surely = stated.get(one.name, (0.0, 0.0))[1] > volts
        found.append(Stress(one.name, volts, mean, peak, surely, abs(cold[one.name]), abs(high[one.name])))
    return Stresses(tuple(found), surges)


def _rating(graph: CircuitGraph, name: str) -> float:
    """The working volts DC that a part states; 0 without. What a line capacitor's class stands is another matter."""
    part = graph.circuit.parts[name]
    said = [q for q in part.features.all_of(Dimension.VOLTAGE) if q.current is not Current.AC]
    return float(said[0].amount) if said and not _is_classed(part) else 0.0


def _is_classed(part: Part) -> bool:
    return bool(_CLASSES.intersection(part.features.words))


def _running(network: Network) -> dict[str, tuple[float, float]]:
    """The mean and the farthest volts of each capacitor; empty where the running set is not found."""
    running = steady(network)
    if not running.converged:
        return {}
    return {one.name: (one.volts.mean, max(abs(one.volts.low), abs(one.volts.high))) for one in running.capacitors}


def _cold(network: Network) -> tuple[dict[str, float], dict[str, float], bool]:
    """The volts while nothing is drawn, at nominal and at high line; with chokes what they swing up to as well."""
    ideal = _ideal(network)
    cold, high = cold_peaks(ideal), cold_peaks(ideal, HIGH_LINE)
    chokes = any(isinstance(one, Inductor) for one in network.elements)
    surges = chokes and any(isinstance(one, Rectifier) and one.cold for one in network.elements)
    if surges:
        # Followed once: at nominal line the swing is smaller in proportion, and a little more for the threshold.
        for surge in switch_on(network, line=HIGH_LINE).capacitors:
            high[surge.name] = max(high[surge.name], surge.high, key=abs)
            cold[surge.name] = max(cold[surge.name], surge.high / HIGH_LINE, key=abs)
    return cold, high, surges


def _ideal(network: Network) -> Network:
    """The same with rectifiers that drop nothing, as next to nothing flows, and that need no heat."""
    elements = (replace(one, law=_IDEAL, cold=True) if isinstance(one, Rectifier) else one for one in network.elements)
    return replace(network, elements=tuple(elements))
