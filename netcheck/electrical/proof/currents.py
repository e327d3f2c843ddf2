"""Which way mean current may run through every element of a network, and which elements can push it uphill."""

from collections.abc import Iterator
from collections.abc import Set as AbstractSet

from msgspec import Struct

from netcheck.core.groups import joined_by
from netcheck.electrical.network.alternating import alternating
from netcheck.electrical.network.elements import (
    Capacitor,
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Regulator,
    Resistor,
    Tube,
    VoltageSource,
    pair_of,
)

__all__ = ["Currents", "Feed", "MayFlow", "currents", "joined_nodes", "mirrored"]


class MayFlow(Struct, frozen=True):
    """Mean current that may run from one node to another through an element."""

    source: int
    target: int
    element: Element


class Feed(Struct, frozen=True):
    """A flow that is certain: it runs whenever the source lies more than ``threshold`` volts above the target."""

    flow: MayFlow
    threshold: float


class Currents(Struct, frozen=True):
    """The permitted mean currents: downhill ``ways``, ``pumps`` that may lift, ``feeds`` that must flow.

    ``joined`` maps every node to the one that stands for it: nodes without resistance between them are one. The
    feeds are listed by their target. Sets of nodes are integers, a bit a node: ``onward`` are the ways as sets.
    """

    joined: tuple[int, ...]
    ways: tuple[tuple[MayFlow, ...], ...]
    onward: tuple[int, ...]
    pumps: tuple[MayFlow, ...]
    feeds: tuple[tuple[Feed, ...], ...]


def joined_nodes(network: Network, *, windings: bool = False) -> tuple[int, ...]:
    """For every node the lowest one that always has the same mean potential.

    With ``windings``, chokes and alternating sources join their ends whatever their resistance.
    """
    ends = (_without_resistance(element, windings=windings) for element in network.elements)
    least = joined_by(filter(None, ends))
    return tuple(least.get(node, node) for node in range(network.count))


def _without_resistance(element: Element, *, windings: bool) -> tuple[int, int] | None:
    match element:
        case Resistor(ohms=0):
            return element.a, element.b
        case Inductor() if windings or element.ohms == 0:
            return element.a, element.b
        case VoltageSource() if element.hertz and (windings or element.ohms == 0):
            return element.plus, element.minus
        case _:
            return None


def currents(network: Network, *, grids: bool = True, loads: AbstractSet[str] = frozenset()) -> Currents:
    """The permitted currents of a network.

    Without ``grids`` no grid draws current. Rectifiers named in ``loads`` count as blocked: only as a load do they act.
    """
    joined = joined_nodes(network)
    live = network.swinging | alternating(network)
    ways: list[MayFlow] = []
    pumps: list[MayFlow] = []
    feeds: list[Feed] = []
    for element in network.elements:
        if isinstance(element, Tube) and grids and element.grid is not None:
            grid = MayFlow(element.grid, element.cathode, element)
            ways.append(grid)
            pumps.append(grid)
        if isinstance(element, Rectifier) and element.name in loads:
            continue
        ways.extend(_ways(element))
        pumps.extend(_pumps(element, rectifies=element.name in live))
        feeds.extend(_feeds(element))
    return _assembled(
        joined,
        [flow for flow in (_moved(flow, joined) for flow in ways) if flow.source != flow.target],
        [flow for flow in (_moved(flow, joined) for flow in pumps) if flow.source != flow.target],
        [Feed(_moved(feed.flow, joined), feed.threshold) for feed in feeds],
    )


def mirrored(plain: Currents) -> Currents:
    """The same network with every potential negated: what held of its low nodes is now said of its high ones."""
    return _assembled(
        plain.joined,
        [_turned(flow) for flows in plain.ways for flow in flows],
        [_turned(flow) for flow in plain.pumps],
        [Feed(_turned(feed.flow), feed.threshold) for feeds in plain.feeds for feed in feeds],
    )


def _assembled(joined: tuple[int, ...], ways: list[MayFlow], pumps: list[MayFlow], feeds: list[Feed]) -> Currents:
    count = len(joined)
    leaving: list[list[MayFlow]] = [[] for _ in range(count)]
    onward = [0] * count
    for flow in ways:
        leaving[flow.source].append(flow)
        onward[flow.source] |= 1 << flow.target
    arriving: list[list[Feed]] = [[] for _ in range(count)]
    for feed in feeds:
        if feed.flow.source != feed.flow.target:
            arriving[feed.flow.target].append(feed)
    return Currents(
        joined, tuple(map(tuple, leaving)), tuple(onward), tuple(pumps), tuple(map(tuple, arriving))
    )  # fmt: skip


def _moved(flow: MayFlow, joined: tuple[int, ...]) -> MayFlow:
    return MayFlow(joined[flow.source], joined[flow.target], flow.element)


def _turned(flow: MayFlow) -> MayFlow:
    return MayFlow(flow.target, flow.source, flow.element)


def _ends(element: Element) -> tuple[int, int]:
    return element.poles if isinstance(element, VoltageSource) and not element.hertz else pair_of(element)


def _ways(element: Element) -> Iterator[MayFlow]:
    if isinstance(element, Capacitor):
        return
    first, second = _ends(element)
    yield MayFlow(first, second, element)
    if isinstance(element, Resistor | Inductor | VoltageSource):
        yield MayFlow(second, first, element)


def _pumps(element: Element, *, rectifies: bool) -> Iterator[MayFlow]:
    first, second = _ends(element)
    match element:
        case Rectifier():
            yield MayFlow(first, second, element)
        case VoltageSource(hertz=0):
            yield MayFlow(second, first, element)
        case Tube() | Load() | Regulator() if rectifies:
            yield MayFlow(first, second, element)
        case _:
            pass


def _feeds(element: Element) -> Iterator[Feed]:
    first, second = _ends(element)
    match element:
        case Resistor() | Inductor():
            yield Feed(MayFlow(first, second, element), 0.0)
            yield Feed(MayFlow(second, first, element), 0.0)
        case VoltageSource():
            yield Feed(MayFlow(second, first, element), 0.0)
            if element.hertz:
                yield Feed(MayFlow(first, second, element), 0.0)
        case Rectifier(law=law):
            yield Feed(MayFlow(first, second, element), law.corners[0][0] if law.corners else 0.0)
        case _:
            pass
