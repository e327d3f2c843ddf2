"""Everything that the mains feed, at once: the supply, the heaters, and what hangs across a winding or the line."""

from collections.abc import Mapping
from dataclasses import dataclass

from netcheck.core.blocks import Blocks
from netcheck.electrical.network.draft import ends_of
from netcheck.electrical.network.elements import Element, Rectifier, Source
from netcheck.electrical.network.translate import draft_of
from netcheck.electrical.running.measure import Heat
from netcheck.electrical.running.steady import steady
from netcheck.electrical.table.heaters import Socket, enter_heater
from netcheck.model.graph import CircuitGraph

__all__ = ["Whole", "whole"]


@dataclass(frozen=True, slots=True)
class Whole:
    """The heat in every resistance by its name, and the heaters that are known."""

    heats: Mapping[str, Heat]
    sockets: tuple[Socket, ...]

    def share(self, socket: Socket) -> float:
        """The effective volts of a heater as a part of those it is made for; 0 where nothing feeds it."""
        volts = [heat.watts / heat.amperes.rms for heat in self._sections(socket) if heat.amperes.rms]
        return sum(volts) / socket.volts

    def _sections(self, socket: Socket) -> list[Heat]:
        return [self.heats[name] for name in socket.sections if name in self.heats]


def whole(graph: CircuitGraph) -> Whole | None:
    """What the running set does to its resistors and heaters, at nominal line; None where that is not found.

    A heater of a type that is not known is left open.
    """
    draft = draft_of(graph)
    sockets: list[Socket] = []
    for part in graph.circuit.parts.values():
        if part.shape is not None and part.kind.word == "tube":
            before = len(draft.elements)
            found = enter_heater(draft, part)
            if any(not one.known for one in found):
                del draft.elements[before:]
            else:
                sockets.extend(found)
    network = draft.finished(_fed).network
    if not any(isinstance(one, Source) for one in network.elements):
        return None
    try:
        seen = steady(network)
    except ValueError:  # no common period
        return None
    return Whole({heat.name: heat for heat in seen.resistors}, tuple(sockets)) if seen.converged else None


def _fed(elements: list[Element], count: int) -> list[Element]:
    """The elements on a way from one end of a source to the other, or round a rectifier that the mains drive."""
    edges = [(end, ends_of(one)[1]) for one in elements for end in (ends_of(one)[0], *ends_of(one)[2:])]
    blocks = Blocks(count, [(a, b) for a, b in edges if a != b])
    masks = {
        blocks.between(*ends_of(one)[:2])
        for one in elements
        if isinstance(one, Source) or (isinstance(one, Rectifier) and one.driven)
    }
    return [one for one in elements if any(all(mask >> end & 1 for end in ends_of(one)[:2]) for mask in masks)]
