"""Heaters and lamps that hang straight across a winding: the volts that it makes, and those they are made for.

No network has to be solved for it: a winding that states its volts gives them to whatever is across it.
"""

from collections.abc import Iterator, Mapping
from itertools import combinations

from msgspec import Struct

from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension, first_of
from netcheck.electrical.mains.line import net_at
from netcheck.electrical.network.windings import stretch_volts
from netcheck.electrical.tube_data import heater_of
from netcheck.model.graph import CircuitGraph

__all__ = ["Warmed", "warmed"]


class Warmed(Struct, frozen=True):
    """A tube or lamp across a winding, or a part of one: effective volts as stated there, and its own."""

    part: Part
    winding: str
    volts: float
    rated: float

    @property
    def share(self) -> float:
        """What it gets of its own volts: 1.0 is right."""
        return self.volts / self.rated

    @property
    def is_heater(self) -> bool:
        """Whether it is a tube's heater, not a lamp."""
        return self.part.kind.family is Family.TUBE


def warmed(graph: CircuitGraph) -> tuple[Warmed, ...]:
    """Returns the heaters and lamps across a winding of stated volts whose own volts are known, in the file's order.

    Where a transformer has two windings across one pair of nets, none of them is believed.
    """
    across = dict(_across(graph))
    found = []
    for part in graph.circuit.parts.values():
        for ends, rated in _made_for(graph, part):
            if (winding := across.get(ends)) is not None:
                found.append(Warmed(part, *winding, rated))
    return tuple(found)


def _across(graph: CircuitGraph) -> Mapping[frozenset[int | None], tuple[str, float]]:
    """The winding and its volts between two nets."""
    found: dict[frozenset[int | None], tuple[str, float]] = {}
    twice = set[frozenset[int | None]]()
    for part in graph.circuit.parts.values():
        for name, leads in part.features.windings:
            values = part.features.winding_values.get(name, ())
            volts = first_of(values, Dimension.VOLTAGE)
            levels = _levels(stretch_volts(volts, len(leads)))
            nets = [net_at(graph, part, lead) for lead in leads]
            for (a, low), (b, high) in combinations(zip(nets, levels, strict=False), 2):
                ends = frozenset({a, b})
                if ends in found:
                    twice.add(ends)
                found[ends] = (f"{part.name} {name}", abs(high - low))
    return {ends: winding for ends, winding in found.items() if len(ends) > 1 and ends not in twice}


def _levels(stretches: tuple[float, ...] | None) -> list[float]:
    """The volts of each lead against the first; none where the file does not say them."""
    if stretches is None:
        return []
    return [sum(stretches[:count]) for count in range(len(stretches) + 1)]


def _made_for(graph: CircuitGraph, part: Part) -> Iterator[tuple[frozenset[int | None], float]]:
    """The nets across which a part glows, and its volts there; a heater whose ends are joined is fed from its tap."""
    if part.kind.family is Family.LAMP and not {"ballast", "neon"}.intersection(part.features.words):
        volts = part.features.first(Dimension.VOLTAGE)
        if volts is not None:
            yield frozenset({net_at(graph, part, "1"), net_at(graph, part, "2")}), float(volts.amount)
    heater = heater_of(part.features.type) if part.kind.family is Family.TUBE else None
    if heater is None:
        return
    start, end, tap = (net_at(graph, part, f"heater-{each}") for each in ("1", "2", "tap"))
    if start == end and heater.tap:
        yield frozenset({start, tap}), heater.tap
    else:
        yield frozenset({start, end}), heater.volts
