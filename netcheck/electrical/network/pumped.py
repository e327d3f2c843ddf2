"""Lines that no figure of the supply tells: what the sweep charges, and what a tube's cathode feeds.

A damper or a high-voltage rectifier is driven by the sweep, and nothing in a file says how far; its law in the network
is a stand-in that lets current through. An output tube that is stacked on a line feeds it from its cathode: its
grid decides the volts there, and the tube's usual current times the ohms of what hangs on the line is no figure.
"""

from collections.abc import Iterable, Mapping, Sequence
from math import inf

from netcheck.electrical.network.elements import Capacitor, Load, Network, Rectifier, Tube, VoltageSource, part_of
from netcheck.electrical.network.least_ohms import least_ohms
from netcheck.electrical.network.sharing import conductors

__all__ = ["SELF_BIAS_OHMS", "feeding_cathodes", "moved_by_cathodes", "moved_by_pumps", "pumps"]

PUMP_OHMS = 1_000.0  # of what the sweep gives through a damper, at the least (common practice)
LEAST_OHMS = 1e-3  # of a resistance, so that none is a joint
PUMPED, FED = 0.02, 0.1  # of a pump's hundreds of volts, and of what a cathode may be off by: less is no other figure
PLATE_CURRENT = " plate current"  # how the name of such a load ends
SELF_BIAS_OHMS = 5_000.0  # a larger cathode resistor is a tail or a load, and its grid stands high


def pumps(network: Network) -> tuple[Rectifier, ...]:
    """The rectifiers, each a tube by itself, that the mains do not drive; a detector has a second diode or a grid."""
    alone = [one for one in network.elements if isinstance(one, Rectifier) and not one.driven and not one.cold]
    return tuple(one for one in alone if part_of(one.name) == one.name and not _has_grid(network, one.name))


def _has_grid(network: Network, part: str) -> bool:
    units = {part, *(f"{part}-{letter}" for letter in "abcd")}
    return any(isinstance(one, Tube) and part_of(one.name) in units for one in network.elements)


def moved_by_pumps(network: Network) -> frozenset[int]:
    """The nodes that a pump holds rather than the supply, by the resistors and windings to its cathode."""
    cathodes = {one.cathode for one in pumps(network)}
    return _moved(network, cathodes, PUMP_OHMS, PUMPED)


def feeding_cathodes(network: Network) -> tuple[Load, ...]:
    """What plates are taken to draw, the file does not state it, and their cathodes feed a line by itself.

    A line has a filter capacitor. A tail or a follower without one is taken at the tube's usual current.
    """
    loads = [e for e in network.elements if isinstance(e, Load) and e.part and e.name.endswith(PLATE_CURRENT)]
    held = least_ohms(conductors(network), _held(network)) if loads else {}
    high = [one for one in loads if held.get(one.minus, inf) > SELF_BIAS_OHMS]
    filters = {one.plus for one in network.elements if isinstance(one, Capacitor) and one.polarised}
    return tuple(one for one in high if not filters.isdisjoint(_moved(network, (one.minus,), 0.0, FED)))


def moved_by_cathodes(network: Network) -> frozenset[int]:
    """The nodes that such a cathode holds rather than the supply."""
    return _moved(network, {one.minus for one in feeding_cathodes(network)}, 0.0, FED)


def _moved(network: Network, sources: Iterable[int], own: float, least: float) -> frozenset[int]:
    """The nodes that sources behind their ``own`` ohms move by more than ``least`` of what they do themselves."""
    starts = set(sources)
    if not starts:
        return frozenset()
    ways, still = conductors(network), _held(network)
    fixed = dict.fromkeys(still, 0.0) | ({} if own else dict.fromkeys(starts - still, 1.0))
    reached = least_ohms(ways, starts)
    loose = [node for node in reached if node not in fixed]
    share = _shares(ways, loose, fixed, dict.fromkeys(starts, own) if own else {})
    return frozenset(node for node in reached if {**fixed, **share}[node] > least)


def _shares(
    ways: Mapping[int, Sequence[tuple[int, float]]],
    loose: Sequence[int],
    fixed: Mapping[int, float],
    behind: Mapping[int, float],
) -> dict[int, float]:
    """Where nodes lie between 0 and 1, by the resistances between them, with 1 also ``behind`` so many ohms."""
    import numpy as np

    place = {node: n for n, node in enumerate(loose)}
    matrix, right = np.zeros((len(loose), len(loose))), np.zeros(len(loose))
    for node, n in place.items():
        for other, ohms in ways.get(node, ()):
            siemens = 1.0 / max(ohms, LEAST_OHMS)
            matrix[n, n] += siemens
            if other in place:
                matrix[n, place[other]] -= siemens
            else:
                right[n] += siemens * fixed[other]
        if node in behind:
            matrix[n, n] += 1.0 / behind[node]
            right[n] += 1.0 / behind[node]
    return dict(zip(loose, map(float, np.linalg.solve(matrix, right)), strict=True)) if loose else {}


def _held(network: Network) -> set[int]:
    """The common, what the mains or a stated voltage hold, and what a rectifier that they drive charges."""
    found = {0}
    for one in network.elements:
        if isinstance(one, VoltageSource):
            found.update((one.plus, one.minus))
        elif isinstance(one, Rectifier) and one.driven:
            found.update((one.anode, one.cathode))
    return found
