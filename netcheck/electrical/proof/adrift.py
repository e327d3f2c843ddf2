"""What hangs on capacitors alone: there leakage decides, and any voltage between those around it is possible.

It has a span and no volts; such a part is rated and discharged by the most that it may take.
"""

from collections.abc import Callable, Sequence

from msgspec import Struct

from netcheck.core.groups import joined_by
from netcheck.electrical.network.elements import Capacitor, Network, pair_of

__all__ = ["Span", "adrift", "spans"]


class Span(Struct, frozen=True):
    """Volts that lie between these, and nothing in the circuit says where."""

    low: float
    high: float


def adrift(network: Network) -> frozenset[int]:
    """The nodes that no resistance, winding, rectifier or tube joins to the reference."""
    fixed = _groups(network, lambda one: not isinstance(one, Capacitor))
    return frozenset(node for node in range(network.count) if fixed[node] != 0)


def spans(network: Network, volts: Sequence[float]) -> tuple[dict[str, Span], dict[int, Span]]:
    """For what is adrift, capacitors by name and nodes by number, all that it may have beside nodes of these ``volts``.

    Leakage is a resistance of any size across each capacitor: what it joins lies between the nodes around it.
    """
    loose = adrift(network)
    capacitors = [one for one in network.elements if isinstance(one, Capacitor)]
    group = _groups(network, lambda one: loose.issuperset(pair_of(one)))
    around: dict[int, list[float]] = {}
    for one in capacitors:
        for inner, outer in ((one.plus, one.minus), (one.minus, one.plus)):
            if inner in loose and outer not in loose:
                around.setdefault(group[inner], []).append(volts[outer])
    nodes = {n: Span(min(around[group[n]]), max(around[group[n]])) for n in loose if group[n] in around}
    every = {**{node: Span(volts[node], volts[node]) for node in range(network.count) if node not in loose}, **nodes}
    found = {}
    for one in capacitors:
        if {one.plus, one.minus} <= every.keys() and not loose.isdisjoint((one.plus, one.minus)):
            plus, minus = every[one.plus], every[one.minus]
            found[one.name] = Span(plus.low - minus.high, plus.high - minus.low)
    return found, nodes


def _groups(network: Network, joins: Callable[..., bool]) -> list[int]:
    """For every node the lowest of all that some elements join."""
    joined = joined_by(pair_of(one) for one in network.elements if joins(one))
    return [joined.get(node, node) for node in range(network.count)]
