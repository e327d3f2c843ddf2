"""What a set takes from the line, between two bounds, for its fuse."""

from collections.abc import Iterator, Mapping

from msgspec import Struct

from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension, first_of
from netcheck.electrical.mains.line import line_of, mains_of, net_at
from netcheck.electrical.network.draft import first
from netcheck.electrical.network.heaters import is_heater
from netcheck.electrical.running.measure import Heat
from netcheck.electrical.study import known
from netcheck.electrical.table.heaters import heaters
from netcheck.electrical.tube_data import heater_of
from netcheck.model.graph import CircuitGraph

__all__ = ["LineDraw", "drawn"]

LOSSES = 1.1  # of a transformer's load, for its iron and copper
SURE = (0.8, 1.3)  # of what is computed: tubes' usual currents and transformers' losses are no better known
HEATER_AMPERES = (0.15, 3.0)  # that the heater of one tube takes, where its type is not known
UNKNOWN_STRING = 0.3  # amperes at most, of a string whose heaters are not known
LAMP_AMPERES = (0.1, 0.3)


class LineDraw(Struct, frozen=True):
    """Effective amperes from the line: at least, about, and at most; and the fuses that they go through."""

    least: float
    about: float
    most: float
    fuses: tuple[Part, ...]


class _Range(Struct, frozen=True):
    """Volt-amperes or amperes, at least and at most."""

    least: float = 0.0
    most: float = 0.0

    def __add__(self, other: "_Range") -> "_Range":
        return _Range(self.least + other.least, self.most + other.most)


def drawn(graph: CircuitGraph) -> LineDraw | None:
    """What goes through the fuses in the line; None without one, or where the running set could not be computed."""
    line, seen = line_of(graph), known(graph)
    mains = mains_of(graph.circuit)
    if line is None or seen is None or mains is None:
        return None
    sides = [side.nets for side in line.sides]
    fuses = tuple(part for part in graph.circuit.parts.values() if _is_on(graph, part, sides))
    if not fuses:
        return None
    sources = {heat.name: heat for heat in seen.sources}
    direct = sources[line.cord.name].amperes.rms if line.cord.name in sources else 0.0
    # Heaters that a tap makes part of the supply are in what the cord was seen to give.
    within = any(is_heater(heat.name) for heat in seen.resistors)
    string = 0.0 if within else sum(each.amperes for each in graph.once(heaters).strings)
    # Heaters that are in no string and on no winding that is known take something all the same.
    beside = UNKNOWN_STRING if not (string or within) and _heats_on_line(graph, sides) else 0.0
    fed = sum((_of_transformer(graph, part, sources) for part in _fed(graph, sides)), _Range())
    load = _Range(direct + string, direct + string + beside) + _Range(fed.least / mains[0], fed.most / mains[0])
    if not load.most:
        return None
    return LineDraw(load.least * SURE[0], (load.least + load.most) / 2, load.most * SURE[1], fuses)


def _is_on(graph: CircuitGraph, part: Part, sides: list[frozenset[int]]) -> bool:
    """Whether a fuse has both ends on one wire of the line."""
    if part.kind.family is not Family.FUSE:
        return False
    ends = {net_at(graph, part, "1"), net_at(graph, part, "2")}
    return any(ends <= side for side in sides) and len(ends) > 1


def _heats_on_line(graph: CircuitGraph, sides: list[frozenset[int]]) -> bool:
    """Whether a tube's heater has an end on a wire of the line."""
    tubes = (part for part in graph.circuit.parts.values() if part.kind.family is Family.TUBE)
    ends = {net_at(graph, part, f"heater-{end}") for part in tubes for end in ("1", "2")} - {None}
    return any(not side.isdisjoint(ends) for side in sides)


def _fed(graph: CircuitGraph, sides: list[frozenset[int]]) -> Iterator[Part]:
    """The transformers with a winding from one wire of the line to the other."""
    for part in graph.circuit.parts.values():
        if part.kind.family is Family.TRANSFORMER:
            for _, leads in part.features.windings:
                ends = [net_at(graph, part, leads[0]), net_at(graph, part, leads[-1])]
                if any(ends[0] in side for side in sides) and any(ends[1] in side for side in sides):
                    yield part
                    break


def _of_transformer(graph: CircuitGraph, part: Part, sources: Mapping[str, Heat]) -> _Range:
    """The volt-amperes of a transformer's windings, as the rectifiers and the heaters load them."""
    total = _Range()
    for name, leads in part.features.windings:
        stated = part.features.winding_values.get(name, ())
        volts = first_of(stated, Dimension.VOLTAGE)
        if volts is None:
            continue
        label = f"{part.name} {name}"
        stretches = [label, *(f"{label} {number}" for number in range(1, len(leads)))]
        loaded = [sources[each] for each in stretches if each in sources]
        if loaded:
            rms = sum(abs(float(amount)) for amount in volts.amounts) / len(loaded)
            direct = sum(heat.amperes.rms * rms for heat in loaded)
            total += _Range(direct, direct)
        total += _heated(graph, {net_at(graph, part, lead) for lead in leads}, max(map(float, volts.amounts)))
    return _Range(total.least * LOSSES, total.most * LOSSES)


def _heated(graph: CircuitGraph, nets: set[int | None], volts: float) -> _Range:
    """The watts of the heaters and lamps across a winding."""
    total = _Range()
    for part in graph.circuit.parts.values():
        if part.kind.family is Family.TUBE:
            ends = {net_at(graph, part, f"heater-{end}") for end in ("1", "2", "tap")} - {None}
            if len(ends) > 1 and ends <= nets:
                known = heater_of(part.features.type)
                total += (
                    _Range(known.volts * known.amperes, known.volts * known.amperes)
                    if known
                    else _Range(*(volts * amperes for amperes in HEATER_AMPERES))
                )
        elif part.kind.family is Family.LAMP:
            ends = {net_at(graph, part, "1"), net_at(graph, part, "2")}
            if len(ends) > 1 and ends <= nets:
                amperes = first(part, Dimension.CURRENT)
                total += _Range(*(volts * each for each in ((amperes, amperes) if amperes else LAMP_AMPERES)))
    return total
