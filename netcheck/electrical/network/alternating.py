"""Which tubes and loads have alternating current across them: those rectify it, whatever their mean volts.

Conductors and capacitors alone are looked at. A tube has alternating current across it where its two ends hang on
different sides of a winding or of the line, or where both lie on a way from one side to the other. A capacitor across
it changes nothing in this: how much it leaves of the alternation depends on its value.
"""

from collections.abc import Iterable, Iterator

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
)

__all__ = ["alternating"]

Valve = Tube | Load | Regulator


def alternating(network: Network) -> frozenset[str]:
    """The names of the tubes, loads and regulators that alternating current reaches."""
    valves = [one for one in network.elements if isinstance(one, Tube | Load | Regulator)]
    sources = [(s.plus, s.minus) for s in network.elements if isinstance(s, VoltageSource) and s.hertz]
    paths = list(_paths(network))
    joined = joined_by(paths)
    side = [joined.get(node, node) for node in range(network.count)]
    blocks = Blocks(network.count, [*paths, *sources, *map(_ends, valves)])
    live = {side[end] for pair in sources for end in pair}
    between = [blocks.between(*pair) for pair in sources if side[pair[0]] == side[pair[1]]]
    return frozenset(one.name for one in valves if _is_reached(_ends(one), side, live, between))


def _is_reached(ends: tuple[int, int], side: list[int], live: set[int], between: Iterable[int]) -> bool:
    plate, cathode = ends
    if side[plate] != side[cathode]:
        return side[plate] in live or side[cathode] in live
    return any(are_in(ends, mask) for mask in between)


def _ends(valve: Valve) -> tuple[int, int]:
    match valve:
        case Tube(plate=plate, cathode=cathode):
            return plate, cathode
        case Load(plus=plate, minus=cathode) | Regulator(anode=plate, cathode=cathode):
            return plate, cathode


def _paths(network: Network) -> Iterator[tuple[int, int]]:
    for one in network.elements:
        match one:
            case Resistor(a=a, b=b) | Inductor(a=a, b=b) | Capacitor(plus=a, minus=b):
                yield a, b
            case _:
                pass
