"""What capacitors and rectifiers must stand: in use, before the tubes draw current, and that on a high line.

Volts in use do exceed the cold ones: a cathode bypass, a bias capacitor in the minus lead and a capacitor between two
lines have none cold. So the running state is computed wherever a capacitor states its volts, and the switching on
wherever a choke and a cold rectifier meet.
"""

import math
from collections.abc import Collection, Mapping

from msgspec import Struct

from netcheck.core.circuit import Part
from netcheck.core.quantity import Current, Dimension
from netcheck.electrical.divided import Divided, divided
from netcheck.electrical.network.elements import Capacitor, Rectifier
from netcheck.electrical.network.supplies import translated
from netcheck.electrical.proof.peaks import AtRest
from netcheck.electrical.running.steady import Steady
from netcheck.electrical.shared_out import shared_out
from netcheck.electrical.study import HIGH_LINE, cold, ideal, missing, probe_name, running, running_as_stated
from netcheck.electrical.unsettled import unsettled
from netcheck.model.graph import CircuitGraph
from netcheck.parts.capacitor import CLASSES

__all__ = ["HIGH_LINE", "InverseStress", "Stress", "Stresses", "charges", "inverse_stresses", "stresses"]


class Stress(Struct, frozen=True):
    """A capacitor in volts; figures are magnitudes.

    ``mean`` and ``in_use`` (DC and the peak of the ripple on it) are None where the running set could not be
    computed, or where they depend on how a stated current divides. ``surely`` is False where they rest on currents
    that the file does not state. ``cold`` and ``cold_high`` are infinite where nothing bounds them. ``divided`` is
    True where leakage alone divides some volts between it and others: all figures are then the most that may be.
    """

    name: str
    rated: float
    mean: float | None
    in_use: float | None
    surely: bool
    cold: float
    cold_high: float
    divided: bool = False


class InverseStress(Struct, frozen=True):
    """A rectifier's inverse volts while nothing is drawn, at nominal and at high line, beside its rating."""

    name: str
    rated: float
    cold: float
    cold_high: float


class Stresses(Struct, frozen=True):
    """The capacitors that state their volts; ``surges`` where switching on was followed for the chokes' sake."""

    capacitors: tuple[Stress, ...]
    surges: bool


def stresses(graph: CircuitGraph) -> Stresses:
    """What each rated capacitor of the supply must stand; of nothing that depends on a value which is not stated."""
    translation = translated(graph)
    hung = divided(graph) if not missing(graph) else {}
    unknown = unsettled(graph) - hung.keys()
    every = [one for one in (*translation.network.elements, *translation.papers) if isinstance(one, Capacitor)]
    rated = [one for one in every if _rating(graph, one.name) and one.name not in unknown]
    if not rated or missing(graph):
        return Stresses((), surges=False)
    return _stresses(graph, rated)


def charges(graph: CircuitGraph) -> dict[str, float]:
    """The most volts that each capacitor ever sees, plus against minus: running, cold on a high line, switched on."""
    translation, peaks, hung = translated(graph), cold(graph), divided(graph)
    every = [one for one in (*translation.network.elements, *translation.papers) if isinstance(one, Capacitor)]
    seen = _running(running(graph), every)
    seen = _without(seen, shared_out(graph).capacitors)
    return {
        one.name: max(hung[one.name].high.low, hung[one.name].high.high, key=abs)
        if one.name in hung
        else max(
            _cold_of(one, peaks.high),
            math.copysign(seen[one.name][1], seen[one.name][0]) if one.name in seen else 0.0,
            key=abs,
        )
        for one in every
    }


def inverse_stresses(graph: CircuitGraph) -> tuple[InverseStress, ...]:
    """What each rated rectifier of the supply must stand backwards, with nothing drawn."""
    network = translated(graph).network
    rated = [one for one in network.elements if isinstance(one, Rectifier) and one.driven and one.inverse_volts]
    if not rated:
        return ()
    if missing(graph):
        return ()
    unloaded = ideal(network)
    nominal, high = AtRest(unloaded).inverse(), AtRest(unloaded, HIGH_LINE).inverse()
    return tuple(
        InverseStress(one.name, one.inverse_volts or 0.0, nominal[one.name], high[one.name])
        for one in rated
        if math.isfinite(high[one.name])
    )


def _stresses(graph: CircuitGraph, rated: list[Capacitor]) -> Stresses:
    peaks, hung = cold(graph), divided(graph)
    seen = _without(_running(running(graph), rated), shared_out(graph).capacitors)
    stated: Mapping[str, tuple[float, float]] | None = None
    found = []
    for one in rated:
        if one.name in hung:
            found.append(_at_most(one.name, _rating(graph, one.name), hung[one.name]))
            continue
        mean, peak = seen.get(one.name, (None, None))
        volts, surely = _rating(graph, one.name), True
        nominal, high = (_cold_of(one, each) for each in (peaks.nominal, peaks.high))
        if peak is not None and peak > volts >= abs(nominal):
            # Currents make these volts, so they count for sure only as far as the file states the currents.
            stated = _running(running_as_stated(graph), rated) if stated is None else stated
            surely = stated.get(one.name, (0.0, 0.0))[1] > volts
        found.append(Stress(one.name, volts, mean, peak, surely, abs(nominal), abs(high)))
    return Stresses(tuple(found), peaks.switched is not None)


def _without(seen: dict[str, tuple[float, float]], names: Collection[str]) -> dict[str, tuple[float, float]]:
    return {name: volts for name, volts in seen.items() if name not in names}


def _at_most(name: str, rated: float, hung: Divided) -> Stress:
    nominal, high = (max(abs(span.low), abs(span.high)) for span in (hung.cold, hung.high))
    return Stress(name, rated, None, None, surely=True, cold=nominal, cold_high=high, divided=True)


def _cold_of(capacitor: Capacitor, peaks: Mapping[str, float]) -> float:
    """The cold volts; a small capacitor sees those of its nodes."""
    known = peaks.get(capacitor.name)
    if known is not None:
        return known
    return peaks.get(probe_name(capacitor.plus), 0.0) - peaks.get(probe_name(capacitor.minus), 0.0)


def _rating(graph: CircuitGraph, name: str) -> float:
    """The working volts DC that a part states; 0 without. What a line capacitor's class stands is another matter."""
    part = graph.circuit.parts[name]
    said = [q for q in part.features.all_of(Dimension.VOLTAGE) if q.current is not Current.AC]
    return float(said[0].amount) if said and not _is_classed(part) else 0.0


def _is_classed(part: Part) -> bool:
    return bool(set(CLASSES).intersection(part.features.words))


def _running(found: Steady | None, rated: list[Capacitor]) -> dict[str, tuple[float, float]]:
    """The mean and the farthest volts of each capacitor; empty where the running set is not found."""
    if found is None:
        return {}
    every = {one.name: (one.volts.mean, max(abs(one.volts.low), abs(one.volts.high))) for one in found.capacitors}
    for one in rated:
        if one.name not in every:
            mean = found.nodes[one.plus] - found.nodes[one.minus]
            swing = (found.swings[one.plus] + found.swings[one.minus]) / 2
            every[one.name] = (mean, abs(mean) + swing)
    return every
