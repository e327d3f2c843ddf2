"""Which figures depend on a value that is not stated, or on leakage alone: they are told by nobody."""

from collections.abc import Iterator

from netcheck.electrical.network.draft import Translation
from netcheck.electrical.network.elements import Capacitor, Network
from netcheck.electrical.network.gaps import readings_of
from netcheck.electrical.network.supplies import translated
from netcheck.electrical.proof.adrift import adrift
from netcheck.electrical.running.steady import Steady
from netcheck.electrical.study import Cold, cold, cold_in, computed, probe_name, steady_of
from netcheck.model.graph import CircuitGraph

__all__ = ["unsettled"]

SAME_SHARE, SAME_VOLTS = 0.01, 0.05  # by which figures may differ that do not depend on a missing value


def unsettled(graph: CircuitGraph) -> frozenset[str]:
    """The capacitors and nodes (by name) whose volts, running or cold, depend on a value not stated, or on leakage."""
    return graph.once(_unsettled)


def _unsettled(graph: CircuitGraph) -> frozenset[str]:
    translation = translated(graph)
    network, loose = translation.network, adrift(translation.network)
    hung = {e.name for e in network.elements if isinstance(e, Capacitor) and not loose.isdisjoint((e.plus, e.minus))}
    depending = _depending(graph, translation) if translation.gaps else frozenset[str]()
    return depending | hung | {network.names[node] for node in loose}


def _depending(graph: CircuitGraph, translation: Translation) -> frozenset[str]:
    network, *others = readings_of(translation.network, translation.gaps)
    tried = (steady_of(each, computed(graph)) for each in (network, *others))
    runs = [run for run in tried if run is not None]
    if len(runs) <= len(others):
        every = {one.name for one in network.elements if isinstance(one, Capacitor)}
        return frozenset(every | set(network.names))
    running = (name for each in runs[1:] for name in _apart(network, runs[0], each))
    seen = cold(graph)
    return frozenset({*running, *(name for each in others for name in _cold_apart(network, seen, cold_in(each)))})


def _apart(network: Network, one: Steady, other: Steady) -> Iterator[str]:
    for first, second in zip(one.capacitors, other.capacitors, strict=True):
        pairs = ((first.volts.mean, second.volts.mean), (first.volts.swing, second.volts.swing))
        if not all(_is_same(*pair) for pair in pairs):
            yield first.name
    for node, name in enumerate(network.names):
        pairs = ((one.nodes[node], other.nodes[node]), (one.swings[node], other.swings[node]))
        if not all(_is_same(*pair) for pair in pairs):
            yield name


def _cold_apart(network: Network, one: Cold, other: Cold) -> Iterator[str]:
    """What is cold another voltage: of capacitors, and by their probes of nodes."""
    called = {probe_name(node): name for node, name in enumerate(network.names)}
    for name, volts in one.high.items():
        if not (_is_same(volts, other.high[name]) and _is_same(one.nominal[name], other.nominal[name])):
            yield called.get(name, name)


def _is_same(one: float, other: float) -> bool:
    """Whether two figures are one; of volts without bound as well."""
    return one == other or abs(one - other) <= max(SAME_SHARE * max(abs(one), abs(other)), SAME_VOLTS)
