"""The lines of a supply, by the names that the file gives them, and what a rectifier tube charges first.

A line is a net that the file names, or that an electrolytic or a `draws` is on, if it does not swing with the mains and
has half a volt at least.
"""

from collections.abc import Iterator, Mapping
from math import nan

from netcheck.core.kind import Family, Standing
from netcheck.core.quantity import Dimension
from netcheck.electrical.divided import divided
from netcheck.electrical.network.draft import Translation
from netcheck.electrical.network.elements import Capacitor, Load, Network, Rectifier, part_of
from netcheck.electrical.running.steady import Steady
from netcheck.electrical.shared_out import shared_out
from netcheck.electrical.study import probe_name
from netcheck.electrical.table.rows import FirstFilter, SupplyRail
from netcheck.electrical.tube_data import FirstCapacitor, first_capacitor_of
from netcheck.electrical.unsettled import unsettled
from netcheck.model.graph import CircuitGraph

__all__ = ["first_filters", "supply_lines"]

LEAST_VOLTS = 0.5  # of a line; the direct volts of grids come from signals


def supply_lines(
    graph: CircuitGraph,
    translation: Translation,
    running: Steady,
    cold: tuple[Mapping[str, float], Mapping[str, float]],
) -> tuple[SupplyRail, ...]:
    """Every net of the supply that the file names, and what an electrolytic holds, in the network's order.

    What swings with the mains is none of them. ``cold`` are the peaks by name, at nominal and
    at high line, the probes' among them.
    """
    network = translation.network
    unknown, held, shared = unsettled(graph), _held(graph, translation), shared_out(graph).nodes
    hung = divided(graph) if not translation.gaps else {}
    return tuple(
        SupplyRail(
            _called(graph, translation, node),
            *4 * (nan,),
            _chart(graph, translation, node),
            hung.get(network.names[node]),
        )
        if network.names[node] in unknown
        else SupplyRail(
            _called(graph, translation, node),
            *((nan, nan) if node in shared else (running.nodes[node], running.swings[node])),
            cold[0][probe_name(node)],
            cold[1][probe_name(node)],
            _chart(graph, translation, node),
        )
        for node in sorted(_named(graph, translation) | held)
        if running.swings[node] < max(abs(running.nodes[node]), 1.0)
        and (node in held | shared or network.names[node] in unknown or _has_volts(graph, translation, running, node))
    )


def _called(graph: CircuitGraph, translation: Translation, node: int) -> str:
    """All names that the file gives a node: closed contacts and whole fuses make one of several nets."""
    nets = sorted(net for net, at in translation.nodes.items() if at == node and graph.declared_names(net))
    return ", ".join(graph.net_names[net] for net in nets) or translation.network.names[node]


def _has_volts(graph: CircuitGraph, translation: Translation, running: Steady, node: int) -> bool:
    """Whether the supply puts volts on a net, or the chart says so; what a signal makes of a grid is not computed."""
    return abs(running.nodes[node]) >= LEAST_VOLTS or _chart(graph, translation, node) is not None


def _held(graph: CircuitGraph, translation: Translation) -> set[int]:
    """The nodes that a filter capacitor holds, or that a load or a supply from outside is declared on."""
    elements, circuit = translation.network.elements, graph.circuit
    filters = {end for c in elements if isinstance(c, Capacitor) and c.polarised for end in (c.plus, c.minus)}
    said = {translation.nodes.get(circuit.net_of(one.point), 0) for one in (*circuit.loads, *circuit.supplies)}
    cathodes = {one.minus for one in elements if isinstance(one, Load) and not one.stated}
    return ((filters - cathodes) | said) - {0}


def _named(graph: CircuitGraph, translation: Translation) -> set[int]:
    return {node for net, node in translation.nodes.items() if graph.declared_names(net)} - {0}


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
        limit = first_capacitor_of(part.features.type) if part.kind.family is Family.TUBE else None
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
            most = float(limit.most)
            yield FirstFilter(part.name, part.features.type, names, farads, most, _source(limit), limit.terms)


def _source(limit: FirstCapacitor) -> str:
    return limit.source if limit.standing is Standing.SOURCE else f"from memory, {limit.source}"


def _cathodes(network: Network, part: str) -> set[int]:
    rectifiers = [one for one in network.elements if isinstance(one, Rectifier)]
    return {one.cathode for one in rectifiers if part_of(one.name) == part}
