"""What each part is to a current of the mains' frequency: an admittance, a rectifier, or nothing at all.

Small resistances are taken roughly, for what keeps a chassis apart from the line is a hundred times greater:
windings as 10 ohm from lead to lead, rectifiers as 50. Heaters divide the line among them, so each is what its type
makes it, hot, or cold where no current heats them; one of a type that is not known is 50 ohm. Windings of one
transformer are isolated from each other. A part whose value is not said is taken at its worst, as a joint, and marked.

`network/translate.py` has a table by family too: that one makes elements that a proof may use. One table of both is no
shorter, and line safety would load the network for it.
"""

import math
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from itertools import pairwise, starmap
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension
from netcheck.electrical.mains.line import net_at
from netcheck.electrical.mains.phasor import Admittance
from netcheck.model.graph import CircuitGraph
from netcheck.parts.rectifiers import diode_paths, dry_paths

if TYPE_CHECKING:
    from netcheck.electrical.tube_data import Heater

__all__ = ["OUTSIDE", "Does", "Passage", "passages", "passages_of", "with_cold_heaters"]

WINDING_OHMS, HEATER_OHMS, LAMP_OHMS, COIL_OHMS, RECTIFIER_OHMS = 10.0, 50.0, 40.0, 50.0, 50.0
TUBE_OHMS = 5_000.0  # of a tube that conducts from plate to cathode
SPEAKER_OHMS = 4.0
STRUCK_OHMS = 1000.0  # a neon lamp that glows
LEAST_OHMS = 0.01
COLD_HEATER = 7.0  # times its hot resistance goes into a cold one (5 to 7, from memory): the less, the more leaks

OUTSIDE = frozenset({Family.CORD, Family.FUSE, Family.NETWORK, Family.PLACE, Family.PLUG, Family.SWITCH})
"""Families that are no passage of their own: places to solder to, and what joins nets as it stands."""


class Does(Struct, frozen=True):
    """What lies between two terminals: admittances at the mains' frequency and for direct current, in siemens.

    ``one_way`` passes direct current from the first to the second only; ``valve`` ones (a tube with a grid) pass no
    alternating current. ``unsaid`` is the word that is missing where the value is not known. ``heater`` is one of a
    known type, hot.
    """

    one: str
    other: str
    turning: complex
    direct: float = 0.0
    one_way: bool = False
    valve: bool = False
    unsaid: str = ""
    heater: bool = False


class Passage(Struct, frozen=True):
    """One such path of a part, between nets."""

    part: str
    a: int
    b: int
    does: Does

    def branch(self, *, direct: bool = False) -> Admittance:
        """The same as a branch of the network of alternating, or of direct current."""
        return Admittance(self.part, self.a, self.b, complex(self.does.direct) if direct else self.does.turning)


Made = Callable[[Part, float], Iterator[Does]]


def passages(graph: CircuitGraph, hertz: float) -> tuple[Passage, ...]:
    """What carries current of a frequency (0 for direct) in a circuit; fuses and switch contacts are not among it."""
    found: list[Passage] = []
    for part in graph.circuit.parts.values():
        found.extend(passages_of(graph, part, hertz))
    return tuple(found)


def passages_of(graph: CircuitGraph, part: Part, hertz: float) -> Sequence[Passage]:
    """The same of one part, where its leads, or those of its namesake, lie in a circuit."""
    made = _BY_FAMILY.get(part.kind.family)
    return () if made is None else tuple(_placed(graph, part, made(part, 2 * math.pi * hertz)))


def with_cold_heaters(every: tuple[Passage, ...]) -> tuple[Passage, ...]:
    """The same while no current heats the heaters, as in a set that is switched off; all as they are without any."""
    return tuple(_cooled(each) if each.does.heater else each for each in every)


def _cooled(each: Passage) -> Passage:
    turning, direct = each.does.turning * COLD_HEATER, each.does.direct * COLD_HEATER
    return replace(each, does=replace(each.does, turning=turning, direct=direct))


def _placed(graph: CircuitGraph, part: Part, paths: Iterator[Does]) -> Iterator[Passage]:
    for does in paths:
        a, b = net_at(graph, part, does.one), net_at(graph, part, does.other)
        if a is not None and b is not None and a != b and (does.turning or does.direct):
            yield Passage(part.name, a, b, does)


def _said(part: Part, dimension: Dimension) -> float | None:
    said = part.features.first(dimension)
    return None if said is None else float(said.amount)


def _ohms(one: str, other: str, ohms: float | None) -> Does:
    siemens = 1 / max(ohms or 0.0, LEAST_OHMS)
    return Does(one, other, complex(siemens), siemens, unsaid="ohms" if ohms is None else "")


def _one_way(one: str, other: str) -> Does:
    return Does(one, other, complex(1 / RECTIFIER_OHMS), 1 / RECTIFIER_OHMS, one_way=True)


def _resistor(part: Part, _: float) -> Iterator[Does]:
    if part.kind.is_chain:
        yield from _chain(part)
        return
    yield _ohms("1", "2", _said(part, Dimension.RESISTANCE))


def _pot(part: Part, _: float) -> Iterator[Does]:
    """The wiper stands in the middle, at the tap where there is one."""
    ohms = _said(part, Dimension.RESISTANCE)
    half = None if ohms is None else ohms / 2
    for one, other in (("ccw", "wiper"), ("wiper", "cw"), ("1", "wiper")):
        yield _ohms(one, other, half)
    yield _ohms("tap", "wiper", LEAST_OHMS)


def _chain(part: Part) -> Iterator[Does]:
    for number, said in enumerate(part.features.all_of(Dimension.RESISTANCE), 1):
        yield _ohms(str(number), str(number + 1), float(said.amount))


def _capacitor(part: Part, turn: float) -> Iterator[Does]:
    farads = _said(part, Dimension.CAPACITANCE)
    ends = ("1", "2") if part.kind.family is Family.CAPACITOR else ("+", "-")
    if farads is not None:
        yield Does(*ends, 1j * turn * farads)
    elif turn:
        yield Does(*ends, 1j / LEAST_OHMS, unsaid="mfd")


def _wound(part: Part, turn: float) -> Iterator[Does]:
    for _, leads in part.features.windings:
        for one, other in pairwise(leads):
            yield _ohms(one, other, WINDING_OHMS)
    if not part.features.windings:
        ohms, henries = _said(part, Dimension.RESISTANCE), _said(part, Dimension.INDUCTANCE) or 0.0
        own = max(COIL_OHMS if ohms is None else ohms, LEAST_OHMS)
        yield Does("1", "2", 1 / complex(own, turn * henries), 1 / own)


def _lamp(part: Part, _: float) -> Iterator[Does]:
    volts, amperes = _said(part, Dimension.VOLTAGE), _said(part, Dimension.CURRENT)
    ohms = volts / amperes if volts and amperes else LAMP_OHMS
    yield _ohms("1", "2", STRUCK_OHMS if "neon" in part.features.words else ohms)


def _speaker(part: Part, _: float) -> Iterator[Does]:
    yield _ohms("1", "2", _said(part, Dimension.RESISTANCE) or SPEAKER_OHMS)


def _battery(_: Part, __: float) -> Iterator[Does]:
    yield _ohms("+", "-", 1.0)


def _tube(part: Part, _: float) -> Iterator[Does]:
    """Its heater, its diodes, and what its plates and screens pass of the direct current of a supply."""
    names = {t.electrode for t in part.shape.terminals} if part.shape else set()
    yield from _heater(part, names)
    diodes = diode_paths(sorted(names))
    for anode, cathode in diodes:
        yield _one_way(anode, cathode)
    for plate in sorted(names - {anode for anode, _ in diodes}):
        cathode = _cathode_of(plate, names)
        if cathode:
            yield Does(plate, cathode, 0j, 1 / TUBE_OHMS, one_way=True, valve=True)


def _heater(part: Part, names: Collection[str]) -> Iterator[Does]:
    from netcheck.electrical.tube_data import heater_of

    leads = [name for name in ("heater-1", "heater-tap", "heater-2") if name in names]
    known = heater_of(part.features.type)
    tapped = len(leads) > 2
    for at, ends in enumerate(pairwise(leads)):
        ohms = _section(known, at, tapped=tapped) / known.amperes if known else HEATER_OHMS
        yield replace(_ohms(*ends, ohms), heater=known is not None)


def _section(heater: "Heater", at: int, *, tapped: bool) -> float:
    """The volts of a section of a heater; a tap is in the middle where nothing else is known of it."""
    if not tapped:
        return heater.volts
    tap = heater.tap or heater.volts / 2
    return heater.volts - tap if at else tap


def _cathode_of(plate: str, names: set[str]) -> str:
    """The cathode that a plate or screen draws from; empty for any other electrode."""
    kind = next((kind for kind in ("plate", "grid-2") if plate == kind or plate.startswith(f"{kind}-")), None)
    if kind is None:
        return ""
    own = f"cathode{plate.removeprefix(kind)}"
    return next((name for name in (own, "cathode", "heater-2") if name in names), "")


def _rectifier(part: Part, _: float) -> Iterator[Does]:
    if "germanium" not in part.features.words:
        yield from starmap(_one_way, dry_paths(terminal.name for terminal in part.leads))


_BY_FAMILY: Mapping[Family, Made] = {
    Family.BATTERY: _battery, Family.CAPACITOR: _capacitor, Family.CONTROL: _pot, Family.ELECTROLYTIC: _capacitor,
    Family.INDUCTOR: _wound, Family.LAMP: _lamp, Family.RECTIFIER: _rectifier, Family.RESISTOR: _resistor,
    Family.SPEAKER: _speaker, Family.TRANSFORMER: _wound, Family.TUBE: _tube,
}  # fmt: skip
