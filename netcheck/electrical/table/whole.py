"""Everything that the mains feed, at once: the supply, the heaters, and what hangs across a winding or the line."""

from collections.abc import Mapping

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.blocks import Blocks, are_in
from netcheck.core.kind import Family
from netcheck.electrical.network.elements import Element, Network, Rectifier, VoltageSource, pair_of
from netcheck.electrical.network.gaps import MOST, readings_of
from netcheck.electrical.network.heaters import TubeHeater, enter_heater, is_heater
from netcheck.electrical.network.supplies import translated
from netcheck.electrical.network.translate import draft_of
from netcheck.electrical.running.measure import Heat
from netcheck.electrical.running.steady import Steady, steady
from netcheck.electrical.study import running
from netcheck.model.graph import CircuitGraph

__all__ = ["Whole", "whole"]

SAME, NOTHING = 0.01, 1e-6  # part of a heat, and watts: less does not come from a value between its least and most


class Whole(Struct, frozen=True):
    """The heat in every resistance by its name, and the heaters that are known."""

    heats: Mapping[str, Heat]
    sockets: tuple[TubeHeater, ...]

    def share(self, socket: TubeHeater) -> float:
        """The effective volts of a heater as a part of those it is made for; 0 where nothing feeds it."""
        volts = [heat.watts / heat.amperes.rms for heat in self._sections(socket) if heat.amperes.rms]
        return sum(volts) / socket.volts

    def _sections(self, socket: TubeHeater) -> list[Heat]:
        return [self.heats[name] for name in socket.sections if name in self.heats]


def whole(graph: CircuitGraph) -> Whole | None:
    """What the running set does to its resistors and heaters, at nominal line; None where that is not found.

    A heater of a type that is not known is left open, and what depends on a value that is not stated is left out.
    """
    if translated(graph).too_large:
        return None
    draft = draft_of(graph)
    sockets: list[TubeHeater] = []
    draft.elements[:] = [one for one in draft.elements if not is_heater(one.name)]
    for part in graph.circuit.parts.values():
        if part.kind.family is Family.TUBE:
            before = len(draft.elements)
            found = enter_heater(draft, part)
            if any(not one.known for one in found):
                del draft.elements[before:]
            else:
                sockets.extend(found)
    translation = draft.finished(_fed)
    if not any(isinstance(one, VoltageSource) for one in translation.network.elements):
        return None
    seen = running(graph) if not translation.gaps else None
    if seen is not None:
        heats = _beside(translation.network, translated(graph).network, seen)
        return None if heats is None else Whole(heats, tuple(sockets))
    runs = [_heats(network) for network in readings_of(translation.network, translation.gaps)]
    computed = [heats for heats in runs if heats is not None]
    if len(computed) < len(runs) or len(translation.gaps) > MOST:
        return None
    first, *others = computed
    loose = {name for name, heat in first.items() if any(not _is_same(heat, other[name]) for other in others)}
    heats = {name: heat for name, heat in first.items() if name not in loose}
    return Whole(heats, tuple(socket for socket in sockets if loose.isdisjoint(socket.sections)))


def _beside(network: Network, supply: Network, seen: Steady) -> dict[str, Heat] | None:
    """The heats of what runs, each block of the network by itself; one that is all in the supply ran with it.

    Blocks hang together by single nodes, through which no current goes from one to another.
    """
    known = {one.name for one in supply.elements}
    heats = {heat.name: heat for heat in seen.resistors}
    for block in _blocks(network):
        if not known.issuperset(one.name for one in block):
            found = _heats(replace(network, elements=block))
            if found is None:
                return None
            heats.update(found)
    return heats


def _blocks(network: Network) -> tuple[tuple[Element, ...], ...]:
    """The elements by the block that they lie in."""
    blocks = Blocks(network.count, map(pair_of, network.elements))
    found: dict[int, list[Element]] = {}
    for one in network.elements:
        found.setdefault(blocks.between(*pair_of(one)), []).append(one)
    return tuple(map(tuple, found.values()))


def _heats(network: Network) -> dict[str, Heat] | None:
    try:
        seen = steady(network)
    except ValueError:  # no common period
        return None
    return {heat.name: heat for heat in seen.resistors} if seen.converged else None


def _is_same(one: Heat, other: Heat) -> bool:
    """Whether a heat does not depend on the value by which two runs differ."""
    return abs(one.watts - other.watts) <= max(SAME * max(one.watts, other.watts), NOTHING)


def _fed(elements: list[Element], count: int) -> list[Element]:
    """The elements on a way from one end of a source to the other, or round a rectifier that the mains drive."""
    blocks = Blocks(count, map(pair_of, elements))
    masks = {
        blocks.between(*pair_of(one))
        for one in elements
        if isinstance(one, VoltageSource) or (isinstance(one, Rectifier) and one.driven)
    }
    return [one for one in elements if any(are_in(pair_of(one), mask) for mask in masks)]
