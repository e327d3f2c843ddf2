"""The lines of a supply, by the names that the file gives them, and what a rectifier tube charges first."""

import dataclasses
from collections.abc import Iterator, Mapping

from netcheck.core.kind import Standing
from netcheck.core.quantity import Dimension
from netcheck.electrical.network.draft import Translation
from netcheck.electrical.network.elements import Capacitor, Load, Network, Rectifier
from netcheck.electrical.network.tube_data import FirstCapacitor, first_capacitor_of
from netcheck.electrical.running.steady import Steady
from netcheck.electrical.table.rows import FirstFilter, Line
from netcheck.model.graph import CircuitGraph

__all__ = ["first_filters", "probe_name", "probed", "supply_lines"]

PROBE_FARADS = 1e-12  # so little that it changes nothing: a voltmeter that draws no current


def probe_name(node: int) -> str:
    """What the probe on a node is called among the capacitors of a probed network."""
    return f"probe of node {node}"


def probed(network: Network) -> Network:
    """The same with a capacitor too small to matter from every node to the reference, to read its peaks from."""
    probes = tuple(Capacitor(probe_name(node), node, 0, PROBE_FARADS) for node in range(1, network.count))
    return dataclasses.replace(network, elements=(*network.elements, *probes))


def supply_lines(
    graph: CircuitGraph,
    translation: Translation,
    running: Steady,
    cold: tuple[Mapping[str, float], Mapping[str, float]],
) -> tuple[Line, ...]:
    """The nets that a filter capacitor holds or a load is declared on, in the network's order.

    A tube's cathode is none of them, nor what swings with the mains. ``cold`` are the peaks by name, at nominal and
    at high line, the probes' among them.
    """
    network = translation.network
    return tuple(
        Line(
            network.names[node],
            running.nodes[node],
            running.swings[node],
            cold[0][probe_name(node)],
            cold[1][probe_name(node)],
            _chart(graph, translation, node),
        )
        for node in sorted(_held(graph, translation))
        if running.swings[node] < max(abs(running.nodes[node]), 1.0)
    )


def _held(graph: CircuitGraph, translation: Translation) -> set[int]:
    elements, circuit = translation.network.elements, graph.circuit
    filters = {end for c in elements if isinstance(c, Capacitor) and c.polarised for end in (c.plus, c.minus)}
    said = {translation.nodes.get(circuit.net_of(one.point), 0) for one in (*circuit.loads, *circuit.supplies)}
    cathodes = {one.minus for one in elements if isinstance(one, Load)}
    return (filters | said) - cathodes - {0}


def _chart(graph: CircuitGraph, translation: Translation, node: int) -> float | None:
    circuit = graph.circuit
    for said in circuit.charts:
        against = circuit.net_of(said.to or circuit.common)
        pair = translation.nodes.get(circuit.net_of(said.point)), translation.nodes.get(against)
        if pair == (node, 0) and said.volts.dimension is Dimension.VOLTAGE:
            return float(said.volts.amount)
    return None


def first_filters(graph: CircuitGraph, network: Network) -> Iterator[FirstFilter]:
    """Every rectifier tube whose type has a limit, with the capacitors that hang on its cathode."""
    for part in graph.circuit.parts.values():
        limit = first_capacitor_of(part.features.type) if part.kind.word == "tube" else None
        cathodes = _cathodes(network, part.name)
        if limit is None or not cathodes:
            continue
        hung = [
            one
            for one in network.elements
            if isinstance(one, Capacitor) and one.plus in cathodes and one.minus not in cathodes
        ]
        if hung:
            farads = sum(one.farads for one in hung)
            names = tuple(one.name for one in hung)
            yield FirstFilter(part.name, part.features.type, names, farads, float(limit.most), _source(limit))


def _source(limit: FirstCapacitor) -> str:
    return f"from memory, {limit.source}" if limit.standing is Standing.MEMORY else limit.source


def _cathodes(network: Network, part: str) -> set[int]:
    rectifiers = [one for one in network.elements if isinstance(one, Rectifier)]
    return {one.cathode for one in rectifiers if one.name == part or one.name.startswith(f"{part} ")}
