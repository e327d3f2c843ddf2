"""Windings that rectifiers short: proven of the wiring alone, without a figure and without power.

Round a loop of rectifiers that all point one way, a winding drives its full short-circuit current every half wave.
"""

from collections import defaultdict
from collections.abc import Iterator

from msgspec import Struct

from netcheck.core.circuit import Part
from netcheck.electrical.network.draft import Translation
from netcheck.electrical.network.elements import Inductor, Network, Rectifier, Resistor, VoltageSource, part_of
from netcheck.electrical.network.supplies import translated
from netcheck.model.graph import CircuitGraph

__all__ = ["Short", "shorts"]

LEAST_OHMS = 100.0  # of a resistor in the loop that saves a winding: less burns out before the winding does
CHOKE_OHMS = 500.0  # of a choke, which is made for more heat

Way = tuple[int, str, float]


class Short(Struct, frozen=True):
    """The ends of what is shorted, by lead, and the parts that the current goes through, rectifiers first named."""

    source: str
    leads: tuple[str, str]
    rectifiers: tuple[str, ...]
    through: tuple[str, ...]


def shorts(graph: CircuitGraph) -> tuple[Short, ...]:
    """Every winding of the supply, and the line itself, that a loop of rectifiers shorts; the shortest loop of each."""
    translation = translated(graph)
    return tuple(_each(graph, translation))


def _each(graph: CircuitGraph, translation: Translation) -> Iterator[Short]:
    told = set[frozenset[str]]()
    for source in (one for one in translation.network.elements if isinstance(one, VoltageSource) and one.hertz):
        loop = _loop(translation.network, source)
        if loop is None:
            continue
        rectifiers = tuple(dict.fromkeys(part_of(name) for name in loop.rectifiers))
        if frozenset(rectifiers) in told:
            continue  # the other half of the same winding
        told.add(frozenset(rectifiers))
        part = graph.circuit.parts[part_of(source.name)]
        leads = _leads(part, [source.name, *(name for name in loop.names if part_of(name) == part.name)])
        yield Short(part.name, leads, rectifiers, tuple(dict.fromkeys(map(part_of, loop.names))))


class _Loop(Struct, frozen=True):
    """The elements on the way back to a source's other end, and the rectifiers among them."""

    rectifiers: tuple[str, ...]
    names: tuple[str, ...]


def _loop(network: Network, source: VoltageSource) -> _Loop | None:
    """The shortest way back round a source that current can go, through a rectifier; None where there is none."""
    for start, end in ((source.plus, source.minus), (source.minus, source.plus)):
        found = _way(network, source, start, end)
        if found is not None:
            return found
    return None


def _way(network: Network, source: VoltageSource, start: int, end: int) -> _Loop | None:
    """A search in breadth over (node, was there a rectifier); the peak volts met on the way must not cancel."""
    ways = _ways(network, source)
    peak = source.peak if start == source.plus else -source.peak
    frontier: list[tuple[int, float, tuple[str, ...]]] = [(start, peak, ())]
    rectifiers = {one.name for one in network.elements if isinstance(one, Rectifier)}
    seen = {(start, False)}
    for node, volts, names in frontier:
        rectified = not rectifiers.isdisjoint(names)
        if node == end and rectified and abs(volts) > abs(source.peak) / 2:
            return _Loop(tuple(name for name in names if name in rectifiers), names)
        for other, name, more in ways[node]:
            state = (other, rectified or name in rectifiers)
            if state not in seen and name not in names:
                seen.add(state)
                frontier.append((other, volts + more, (*names, name)))
    return None


def _ways(network: Network, source: VoltageSource) -> dict[int, list[Way]]:
    """Where current can go from each node, by what, and the volts that this adds round the loop."""
    ways: dict[int, list[Way]] = defaultdict(list)
    for one in network.elements:
        match one:
            case Rectifier(driven=True):
                ways[one.anode].append((one.cathode, one.name, 0.0))
            case Resistor() if one.ohms < LEAST_OHMS:
                ways[one.a].append((one.b, one.name, 0.0))
                ways[one.b].append((one.a, one.name, 0.0))
            case Inductor() if one.ohms < CHOKE_OHMS:
                ways[one.a].append((one.b, one.name, 0.0))
                ways[one.b].append((one.a, one.name, 0.0))
            case VoltageSource() if one is not source and one.hertz:
                # Leaving a winding by its plus, the current has been lifted by its volts.
                ways[one.minus].append((one.plus, one.name, one.peak))
                ways[one.plus].append((one.minus, one.name, -one.peak))
            case _:
                pass
    return ways


def _leads(part: Part, stretches: list[str]) -> tuple[str, str]:
    """The outer leads of the stretches of one winding, or the two of a cord."""
    found = [lead for name in stretches for lead in _of_stretch(part, name)]
    if not found:
        return part.leads[0].name, part.leads[1].name
    order = [lead for _, leads in part.features.windings for lead in leads]
    found.sort(key=order.index)
    return found[0], found[-1]


def _of_stretch(part: Part, name: str) -> tuple[str, ...]:
    for winding, leads in part.features.windings:
        label = f"{part.name} {winding}"
        if name == label:
            return leads[0], leads[-1]
        number = name.removeprefix(f"{label} ")
        if number.isdigit():
            return leads[int(number) - 1], leads[int(number)]
    return ()
