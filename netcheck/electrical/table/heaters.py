"""Heaters in series on the mains: what each gets, and what the dropper has to shed."""

from collections import Counter
from collections.abc import Iterator, Mapping

from msgspec import Struct

from netcheck.core.blocks import Blocks, are_in
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension
from netcheck.electrical.network.draft import Draft, first
from netcheck.electrical.network.elements import Element, VoltageSource, pair_of, part_of
from netcheck.electrical.network.heaters import TubeHeater, enter_heater, is_heater
from netcheck.electrical.network.translate import enter_passive
from netcheck.electrical.running.measure import Heat
from netcheck.electrical.running.steady import steady
from netcheck.model.graph import CircuitGraph

__all__ = ["Dropper", "HeaterRow", "HeaterString", "Heaters", "heaters"]

LEAST_HEATERS = 2
OFF = 0.1  # of a heater's current: further off, a string is wrong
ONE_STRING = 1.05  # heaters that together get more than the mains are not all in series
LEAST_SHARE = 0.1  # of the string's current: what carries less hangs across the line beside it
ON_WINDINGS = "heaters that a transformer feeds"


class HeaterRow(Struct, frozen=True):
    """One heater: its rated volts and amperes, and the effective volts that it gets."""

    tube: str
    rated_volts: float
    rated_amperes: float
    volts: float

    @property
    def share(self) -> float:
        """What it gets of its rated volts: 1.0 is right."""
        return self.volts / self.rated_volts


class Dropper(Struct, frozen=True):
    """A resistor, lamp or line cord in the string: effective volts and amperes, watts, and its rating."""

    name: str
    volts: float
    amperes: float
    watts: float
    rated: float | None

    @property
    def over(self) -> str:
        """``yes`` above its rating."""
        return "yes" if self.rated is not None and self.watts > self.rated else ""


class HeaterString(Struct, frozen=True):
    """The heaters between the two sides of a line of ``mains`` volts, with all that drops volts among them.

    ``amperes`` is the current that most of the heaters are made for.
    """

    cord: str
    mains: float
    amperes: float
    heaters: tuple[HeaterRow, ...]
    droppers: tuple[Dropper, ...]

    @property
    def left(self) -> float | None:
        """The volts that the heaters leave for the droppers; None where they are not one series string."""
        if sum(one.volts for one in self.heaters) > self.mains * ONE_STRING:
            return None
        return self.mains - sum(one.rated_volts for one in self.heaters)

    @property
    def worst(self) -> HeaterRow:
        """The heater that is farthest from its rated volts."""
        return max(self.heaters, key=lambda one: abs(one.share - 1))

    @property
    def of_other_current(self) -> tuple[HeaterRow, ...]:
        """The heaters that are made for another current than most: in series all carry the same."""
        return tuple(one for one in self.heaters if abs(one.rated_amperes / self.amperes - 1) > OFF)

    @property
    def is_wrong(self) -> bool:
        """Whether a heater gets over 10 % more or less than it is made for."""
        return abs(self.worst.share - 1) > OFF


class Heaters(Struct, frozen=True):
    """The series string on the mains, if there is one; what was taken by default for it, and what is not known."""

    strings: tuple[HeaterString, ...] = ()
    defaults: tuple[str, ...] = ()
    left_out: tuple[str, ...] = (ON_WINDINGS,)

    @property
    def unknown(self) -> tuple[str, ...]:
        """The string of which nothing is told, and what is missing; heaters on windings are judged where they hang."""
        return tuple(said for said in self.left_out if said != ON_WINDINGS)


def heaters(graph: CircuitGraph) -> Heaters:
    """Returns the heaters in series on the mains. A heater is a resistance here: its rated volts by its current."""
    draft = Draft(graph)
    sockets: list[TubeHeater] = []
    for part in graph.circuit.parts.values():
        if part.kind.family is Family.TUBE:
            sockets.extend(enter_heater(draft, part))
        else:
            enter_passive(draft, part)
    if len(sockets) < LEAST_HEATERS:
        return Heaters()
    translation = draft.finished(_between_the_mains)
    network = translation.network
    cord = next((one for one in network.elements if isinstance(one, VoltageSource)), None)
    if cord is None:
        return Heaters()
    seen = {heat.name: heat for heat in steady(network).resistors}
    strung = [one for one in sockets if one.sections[0] in seen]
    if len(strung) < LEAST_HEATERS:
        return Heaters()
    unknown = [f"{one.tube} {one.type}" for one in strung if not one.known]
    if unknown:
        return Heaters(left_out=(f"the heater string on {cord.name}: heater not known of {', '.join(unknown)}",))
    if translation.gaps or draft.mains is None:
        say = "; ".join(dict.fromkeys(gap.say for gap in translation.gaps))
        return Heaters(left_out=(f"the heater string on {cord.name}: {say}",))
    rows = tuple(_heater_row(one, seen) for one in strung)
    amperes = Counter(row.rated_amperes for row in rows).most_common(1)[0][0]
    droppers = tuple(_droppers(graph, seen, amperes))
    taken = ("heaters: hot, rated volts by rated current (from memory)",)
    string = HeaterString(cord.name, draft.mains[0], amperes, rows, droppers)
    return Heaters((string,), (*translation.defaults, *taken), ())


def _heater_row(socket: TubeHeater, seen: Mapping[str, Heat]) -> HeaterRow:
    volts = sum(_volts(seen[name]) for name in socket.sections if name in seen)
    return HeaterRow(socket.tube, socket.volts, socket.amperes, volts)


def _droppers(graph: CircuitGraph, seen: Mapping[str, Heat], amperes: float) -> Iterator[Dropper]:
    for name, heat in seen.items():
        if not is_heater(name) and heat.amperes.rms > LEAST_SHARE * amperes:
            rated = first(graph.circuit.parts[part_of(name)], Dimension.POWER)
            yield Dropper(name, _volts(heat), heat.amperes.rms, heat.watts, rated)


def _volts(heat: Heat) -> float:
    return heat.watts / heat.amperes.rms if heat.amperes.rms else 0.0


def _between_the_mains(elements: list[Element], count: int) -> list[Element]:
    """The elements on the ways through a set from one side of the mains to the other."""
    blocks = Blocks(count, map(pair_of, elements))
    sources = [one for one in elements if isinstance(one, VoltageSource)]
    masks = [blocks.between(one.plus, one.minus) for one in sources[:1]]
    return [one for one in elements if any(are_in(pair_of(one), mask) for mask in masks)]
