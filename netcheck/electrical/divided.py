"""The capacitors and nets of a supply whose volts nothing but leakage divides, and between what they lie."""

from collections.abc import Mapping, Sequence

from msgspec import Struct

from netcheck.electrical.network.supplies import translated
from netcheck.electrical.proof.adrift import Span, spans
from netcheck.electrical.study import cold, probe_name, running
from netcheck.model.graph import CircuitGraph

__all__ = ["Divided", "divided"]


class Divided(Struct, frozen=True):
    """The volts that are possible: running (None where that was not found), cold, and cold on a high line."""

    running: Span | None
    cold: Span
    high: Span


def divided(graph: CircuitGraph) -> Mapping[str, Divided]:
    """By name, for capacitors and for nodes."""
    return graph.once(_divided)


def _divided(graph: CircuitGraph) -> Mapping[str, Divided]:
    network, peaks, seen = translated(graph).network, cold(graph), running(graph)
    settled_to = [_spans(graph, _probed(each, network.count)) for each in (peaks.nominal, peaks.high)]
    runs = {} if seen is None else _spans(graph, seen.nodes)
    return {name: Divided(runs.get(name), at, settled_to[1][name]) for name, at in settled_to[0].items()}


def _probed(peaks: Mapping[str, float], count: int) -> list[float]:
    return [0.0, *(peaks[probe_name(node)] for node in range(1, count))]


def _spans(graph: CircuitGraph, volts: Sequence[float]) -> dict[str, Span]:
    network = translated(graph).network
    capacitors, nodes = spans(network, volts)
    return {**{network.names[node]: span for node, span in nodes.items()}, **capacitors}
