"""From a chassis, as the tests' own reader has it, to the circuit that would be powered."""

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from heapq import heappop, heappush
from itertools import pairwise

from tests.campaign.chassis import CHASSIS, Chassis, Part, grouped, hub_of
from tests.campaign.sockets import SOCKETS
from tests.silence.elements import Capacitor, Choke, Diode, Element, Resistor, Sink, Source, Wired
from tests.silence.values import amperes, farads, henries, ohms, volts, watts
from tests.silence.valves import VALVES

__all__ = ["LINE", "wired"]

LINE, HERTZ = 117.0, 60.0
HOUSE, FUSE, HEATER_WINDING, WINDING, COIL = 1.0, 0.05, 0.1, 100.0, 10.0  # ohms, where none are stated
LAMP = 40.0
SILICON = (0.7, 0.05)
PLATE = (1.0, 3.0)  # volts and ohms of one selenium plate of 26 V
RMS_OF_PLATE = 26.0
CHORD = 0.6  # of a vacuum diode's volts by amperes: its law is the 3/2 power, and it is used in pulses
KNEES = {"power": 20.0, "small": 80.0}
BIAS = {"power": 15.0, "small": 4.0}  # volts
TAIL = 5000.0  # ohms: a larger resistor in a cathode lead is a load, and its grid stands high
POWER = 0.02  # amperes of plate current from which a tube is an output tube


@dataclass(slots=True)
class _Draft:
    chassis: Chassis
    number: Mapping[str, int]
    elements: list[Element] = field(default_factory=list)
    fresh: int = 0

    def net(self, node: str) -> int:
        """The net of a lead; one that hangs free has one of its own."""
        at = self.number.get(self.chassis.node(node))
        if at is None:
            self.fresh += 1
            return len(self.number) + self.fresh
        return at


def wired(chassis: Chassis) -> Wired:
    """The circuit of a state, its switches closed as drawn."""
    number = grouped([*((j.a, j.b) for j in chassis.joints), *chassis.insides(), *_closed(chassis)])
    draft = _Draft(chassis, number)
    for part in chassis.parts.values():
        enter = _ENTER.get(part.kind)
        if enter is not None:
            draft.elements.extend(enter(draft, part))
    cord = next((p for p in chassis.parts.values() if p.kind == "cord"), None)
    line = (draft.net(cord.leads[0]), draft.net(cord.leads[1])) if cord is not None else (-1, -1)
    polarized = cord is not None and "polarized" in cord.words
    powered = _powered(draft, line)
    ground = draft.net(hub_of(chassis.common)) if chassis.common else draft.net(CHASSIS)
    every = [one for one in draft.elements if not isinstance(one, Source) or one.name in powered]
    every = [_biased(one, every, ground) if isinstance(one, Sink) else one for one in every]
    found = _renumbered(every, draft.net(CHASSIS), line, polarized=polarized)
    return replace(found, fuses=tuple(_fuses(draft, line)))


def _closed(chassis: Chassis) -> Iterator[tuple[str, str]]:
    """A plain switch is on; one with positions stands in the first."""
    for part in chassis.parts.values():
        if part.kind == "switch":
            lugs = part.members[0].split(":")[1].split() if part.members else ["1", "2"]
            yield from pairwise(f"{part.name}.{lug.strip(',')}" for lug in lugs if lug.strip(","))


def _biased(one: Sink, every: list[Element], ground: int) -> Sink:
    """A tube with a resistor in its cathode lead biases itself to a few volts, and draws no more than that takes."""
    tail = _ohms_between(one.b, ground, every)
    bias = BIAS["power" if one.amperes > POWER or one.knee == KNEES["power"] else "small"]
    share = min(1.0, bias / tail / one.amperes) if 0 < tail < TAIL else 1.0
    return replace(one, amperes=one.amperes * share)


def _ohms_between(start: int, end: int, every: list[Element]) -> float:
    """The least ohms from one net to another through resistors; 0 where they are one net or not joined so."""
    ways = [(one.a, one.b, one.ohms) for one in every if isinstance(one, Resistor)]
    best, frontier = {start: 0.0}, [(0.0, start)]
    while frontier:
        ohms_so_far, at = heappop(frontier)
        if at == end:
            return ohms_so_far
        for a, b, more in ways:
            other = b if a == at else a
            if at in (a, b) and ohms_so_far + more < best.get(other, math.inf):
                best[other] = ohms_so_far + more
                heappush(frontier, (best[other], other))
    return 0.0


def _renumbered(elements: list[Element], chassis: int, line: tuple[int, int], *, polarized: bool) -> Wired:
    nets = sorted({net for one in elements for net in (one.a, one.b)} | {chassis, *line} - {-1})
    at = {net: number for number, net in enumerate(nets)}
    moved = [_moved(one, at) for one in elements if one.a != one.b]
    return Wired(len(nets), tuple(moved), at[chassis], (at.get(line[0], -1), at.get(line[1], -1)), polarized)


def _moved(one: Element, at: Mapping[int, int]) -> Element:
    fields = {name: getattr(one, name) for name in type(one).__slots__}
    return type(one)(**{**fields, "a": at[one.a], "b": at[one.b]})


def _powered(draft: _Draft, line: tuple[int, int]) -> set[str]:
    """The sources that the cord feeds: itself, and the windings of transformers with a primary across the line."""
    ways = [(one.a, one.b) for one in draft.elements if isinstance(one, Resistor | Choke) and one.ohms <= FUSE]
    joined = grouped([(str(a), str(b)) for a, b in [*ways, *((net, net) for net in line)]])
    one, other = joined[str(line[0])], joined[str(line[1])]
    sources = [one.name for one in draft.elements if isinstance(one, Source)]
    found = {name for name in sources if name.endswith(" cord")}
    for part in draft.chassis.parts.values():
        primary = _primary(part)
        if primary is not None:
            ends = {joined.get(str(draft.net(f"{part.name}.{lead}"))) for lead in primary}
            if {one, other} <= ends and one != other:
                found.update(name for name in sources if name.startswith(f"{part.name} "))
    return found


def _fuses(draft: _Draft, line: tuple[int, int]) -> Iterator[tuple[str, float]]:
    """The fuses that hang on a wire of the line, by way of fuses and switches."""
    ways = [(one.a, one.b) for one in draft.elements if isinstance(one, Resistor | Choke) and one.ohms <= FUSE]
    joined = grouped([(str(a), str(b)) for a, b in [*ways, *((net, net) for net in line)]])
    sides = {joined[str(net)] for net in line}
    for part in draft.chassis.parts.values():
        rated = amperes(part.words) if part.kind == "fuse" else None
        if rated and joined.get(str(draft.net(part.leads[0]))) in sides:
            yield part.name, rated


def _windings(part: Part) -> Iterator[tuple[str, list[str], list[str]]]:
    """Name, leads and values of each winding line."""
    for line in part.members:
        _, _, name, *rest = line.split()
        values = _values(rest)
        known = [word for word in values if f"{part.name}.{word}" in part.leads]
        yield name, known, values


def _values(words: list[str]) -> list[str]:
    found = list[str]()
    for word in words:
        if word in ("V", "ohm", "mA", "A", "k", "meg") and found:
            found[-1] += f" {word}"
        else:
            found.append(word)
    return found


def _primary(part: Part) -> tuple[str, str] | None:
    if part.kind != "transformer":
        return None
    return next(
        ((leads[0], leads[-1]) for name, leads, values in _windings(part) if name == "primary" and volts(values)), None
    )


def _two(draft: _Draft, part: Part) -> tuple[int, int]:
    return draft.net(part.leads[0]), draft.net(part.leads[1])


def _resistor(draft: _Draft, part: Part) -> Iterator[Element]:
    value = ohms(part.words)
    if value:
        yield Resistor(part.name, *_two(draft, part), value, watts(part.words))


def _pot(draft: _Draft, part: Part) -> Iterator[Element]:
    half = (ohms(part.words) or 1e6) / 2
    for a, b in pairwise(part.leads):
        yield Resistor(f"{part.name} {a}", draft.net(a), draft.net(b), half)


def _capacitor(draft: _Draft, part: Part) -> Iterator[Element]:
    value = farads(part.words)
    if value:
        rated = volts(part.words)
        polar = part.kind != "capacitor"
        stated = amperes(part.words) if polar else None
        yield Capacitor(part.name, *_two(draft, part), value, polar, rated[0] if rated else None, stated)


def _choke(draft: _Draft, part: Part) -> Iterator[Element]:
    yield Choke(part.name, *_two(draft, part), henries(part.words) or 10.0, ohms(part.words) or 200.0)


def _coil(draft: _Draft, part: Part) -> Iterator[Element]:
    yield Resistor(part.name, *_two(draft, part), ohms(part.words) or COIL)


def _lamp(draft: _Draft, part: Part) -> Iterator[Element]:
    rated, current = volts(part.words), amperes(part.words)
    yield Resistor(part.name, *_two(draft, part), rated[0] / current if rated and current else LAMP)


def _fuse(draft: _Draft, part: Part) -> Iterator[Element]:
    yield Resistor(part.name, *_two(draft, part), FUSE)


def _diode(draft: _Draft, part: Part) -> Iterator[Element]:
    rated, mean = volts(part.words), amperes(part.words)
    known = next((row for row in part.words if row in _TYPES), "")
    inverse = rated[0] if rated else _TYPES.get(known, (None, None))[0]
    yield Diode(part.name, *_two(draft, part), *SILICON, inverse, mean or _TYPES.get(known, (None, None))[1])


_TYPES: Mapping[str, tuple[float | None, float | None]] = {
    "1N4001": (50.0, 1.0), "1N4002": (100.0, 1.0), "1N4003": (200.0, 1.0), "1N4004": (400.0, 1.0),
    "1N4005": (600.0, 1.0), "1N4006": (800.0, 1.0), "1N4007": (1000.0, 1.0), "UF4007": (1000.0, 1.0),
    "1N5408": (1000.0, 3.0), "1N5399": (1000.0, 1.5), "BY133": (1300.0, 1.0),
}  # fmt: skip


def _selenium(draft: _Draft, part: Part) -> Iterator[Element]:
    rated = volts(part.words)
    plates = math.ceil((rated[0] if rated else 130.0) / RMS_OF_PLATE)
    plus, minus = _two(draft, part)
    inverse = 2 * math.sqrt(2) * rated[0] if rated else None
    yield Diode(part.name, minus, plus, PLATE[0] * plates, PLATE[1] * plates, inverse, amperes(part.words))


def _cord(draft: _Draft, part: Part) -> Iterator[Element]:
    a, b = draft.net(part.leads[0]), draft.net(part.leads[1])
    yield Source(f"{part.name} cord", a, b, LINE * math.sqrt(2), HERTZ, HOUSE)


def _transformer(draft: _Draft, part: Part) -> Iterator[Element]:
    primary = _primary(part)
    for name, leads, values in _windings(part):
        nets = [draft.net(f"{part.name}.{lead}") for lead in leads]
        said, resistance = volts(values), ohms(values)
        stretches = list(enumerate(pairwise(nets)))
        for at, (a, b) in stretches:
            label = f"{part.name} {name} {at}"
            if said and (leads[0], leads[-1]) != primary:
                own = _stretch(said, at, len(stretches))
                each = resistance / len(stretches) if resistance else (HEATER_WINDING if own < 13 else WINDING)
                yield Source(label, a, b, own * math.sqrt(2), HERTZ, each)
            elif not said:
                yield Resistor(label, a, b, (resistance or COIL) / len(stretches))


def _stretch(said: tuple[float, ...], at: int, count: int) -> float:
    """The volts of one stretch of a winding: of ``290-0-290 V``, or an equal share of all."""
    if len(said) == count + 1:
        zero = said.index(0.0)
        signed = [-value if place < zero else value for place, value in enumerate(said)]
        return signed[at + 1] - signed[at]
    return said[0] / count


def _tube(draft: _Draft, part: Part) -> Iterator[Element]:
    valve, at = VALVES.get(part.type), _electrodes(part)
    if valve is None:
        return
    if "heater-1" in at and "heater-2" in at:
        ends = draft.net(at["heater-1"]), draft.net(at["heater-2"])
        watts_of = valve.heater_volts * valve.heater_amperes
        yield Resistor(f"{part.name} heater", *ends, valve.heater_volts / valve.heater_amperes, watts_of)
    cathode = at.get("cathode", at.get("heater-2", ""))
    if valve.drop:
        for plate in (each for each in ("plate", "plate-1", "plate-2") if each in at):
            resistance = CHORD * valve.drop / valve.amperes
            yield Diode(f"{part.name} {plate}", draft.net(at[plate]), draft.net(cathode), 0.0, resistance)
        return
    for unit in ("", "-a", "-b"):
        for electrode, current in ((f"plate{unit}", valve.plate), (f"grid-2{unit}", valve.screen)):
            if electrode in at and current:
                bottom = at.get(f"cathode{unit}", cathode)
                knee = KNEES["power" if valve.plate > POWER else "small"]
                yield Sink(f"{part.name} {electrode}", draft.net(at[electrode]), draft.net(bottom), current, knee)


def _electrodes(part: Part) -> dict[str, str]:
    return {electrode: f"{part.name}.{pin}" for pin, electrode in SOCKETS[part.type].items() if electrode != "none"}


_ENTER: Mapping[str, Callable[[_Draft, Part], Iterator[Element]]] = {
    "resistor": _resistor, "pot": _pot, "rheostat": _pot, "capacitor": _capacitor, "electrolytic": _capacitor,
    "section": _capacitor, "choke": _choke, "coil": _coil, "speaker": _coil, "lamp": _lamp, "fuse": _fuse,
    "diode": _diode, "selenium": _selenium, "cord": _cord, "transformer": _transformer, "tube": _tube,
}  # fmt: skip
