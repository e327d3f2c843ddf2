"""Which nodes a stated current moves by how it divides among the tubes that it covers, and by how much at most."""

from collections import defaultdict
from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from math import inf

from netcheck.electrical.network.elements import (
    Inductor,
    Load,
    Network,
    Rectifier,
    Resistor,
    Tube,
    pair_of,
)
from netcheck.electrical.network.least_ohms import least_ohms

__all__ = ["conductors", "covered_paths", "moved_by_sharing"]

SAME_SHARE, SAME_VOLTS = 0.01, 0.05  # of what a line gets: less is no other figure


def covered_paths(network: Network, covered: AbstractSet[str]) -> tuple[Tube, ...]:
    """The paths of tubes, by their names, through which some of a stated current goes that is not all theirs."""
    own = {(one.plus, one.minus) for one in _stated(network)}
    return tuple(
        one
        for one in network.elements
        if isinstance(one, Tube) and one.name in covered and (one.plate, one.cathode) not in own
    )


def moved_by_sharing(network: Network, paths: Sequence[Tube], volts: Sequence[float] | None) -> dict[int, float]:
    """The nodes that some part of the stated current may move, by what joins them to known ones, with the volts."""
    ends = {end for one in paths for end in (one.plate, one.cathode)}
    known = _known(network, ends, {one.cathode for one in paths})
    ways = conductors(network)
    most = sum(one.amperes for one in _stated(network))
    drops = least_ohms(ways, known)
    reached, left = set[int](), list(ends - known)
    while left:
        at = left.pop()
        reached.add(at)
        left.extend(other for other, _ in ways.get(at, ()) if other not in reached and other not in known)
    moved = {node: drops[node] * most if node in drops else inf for node in reached}
    return {node: drop for node, drop in moved.items() if drop > _least(volts, node)}


def _least(volts: Sequence[float] | None, node: int) -> float:
    return SAME_VOLTS if volts is None else max(SAME_SHARE * abs(volts[node]), SAME_VOLTS)


def _known(network: Network, ends: set[int], cathodes: set[int]) -> set[int]:
    """The common, and the ends of stated currents and rectifiers: a filter capacitor holds what its resistor leaves."""
    found = {0}
    for load in _stated(network):
        found |= set(pair_of(load)) - cathodes
    for one in network.elements:
        if isinstance(one, Rectifier):
            found |= set(pair_of(one)) - ends
    return found


def conductors(network: Network) -> dict[int, list[tuple[int, float]]]:
    """What resistors and windings join each node to, with the ohms between."""
    ways: dict[int, list[tuple[int, float]]] = defaultdict(list)
    for one in network.elements:
        if isinstance(one, Resistor | Inductor):
            ways[one.a].append((one.b, one.ohms))
            ways[one.b].append((one.a, one.ohms))
    return ways


def _stated(network: Network) -> list[Load]:
    return [one for one in network.elements if isinstance(one, Load) and one.stated]
