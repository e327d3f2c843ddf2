"""Which tubes and loads have alternating current across them: those rectify it, whatever their mean volts.

Conductors and capacitors alone are looked at. A tube has alternating current across it where its two ends hang on
different sides of a winding or of the line, or where both lie on a way from one side to the other. A capacitor across
it changes nothing in this: how much it leaves of the alternation depends on its value.
"""

from collections.abc import Iterable

from netcheck.core.blocks import Blocks, are_in
from netcheck.core.groups import joined_by
from netcheck.electrical.network.elements import (
    Capacitor,
    Inductor,
    Load,
    Network,
    Regulator,
    Resistor,
    Tube,
    VoltageSource,
    pair_of,
)

__all__ = ["alternating"]


def alternating(network: Network) -> frozenset[str]:
    """The names of the tubes, loads and regulators that alternating current reaches."""
    valves = [one for one in network.elements if isinstance(one, Tube | Load | Regulator)]
    sources = [(s.plus, s.minus) for s in network.elements if isinstance(s, VoltageSource) and s.hertz]
    paths = [pair_of(one) for one in network.elements if isinstance(one, Resistor | Inductor | Capacitor)]
    joined = joined_by(paths)
    side = [joined.get(node, node) for node in range(network.count)]
    blocks = Blocks(network.count, [*paths, *sources, *map(pair_of, valves)])
    live = {side[end] for pair in sources for end in pair}
    between = [blocks.between(*pair) for pair in sources if side[pair[0]] == side[pair[1]]]
    return frozenset(one.name for one in valves if _is_reached(pair_of(one), side, live, between))


def _is_reached(ends: tuple[int, int], side: list[int], live: set[int], between: Iterable[int]) -> bool:
    plate, cathode = ends
    if side[plate] != side[cathode]:
        return side[plate] in live or side[cathode] in live
    return any(are_in(ends, mask) for mask in between)
