"""What a cold chassis has between its points: resistances with their limits, junctions, capacitors."""

import math
from collections.abc import Callable, Iterator, Mapping
from enum import Enum
from itertools import pairwise

from msgspec import Struct

from netcheck.core.circuit import Part
from netcheck.core.kind import Family, Junction, Role
from netcheck.core.quantity import Dimension, Quantity
from netcheck.electrical.network.elements import WINDING_TOLERANCE
from netcheck.electrical.tube_data import heater_of
from netcheck.parts.rectifiers import dry_paths

__all__ = ["Makes", "PartPath", "branches_of", "open_parts"]

ANY_TOLERANCE = 0.2  # of a resistor that states none (composition parts; common practice)
TAP_TOLERANCE = 0.5  # of one stretch of a tapped winding: halves are never equal (common practice)
CLOSED, CLOSED_MOST = 0.05, 1.0  # ohms of a closed contact
FUSE, FUSE_MOST = 0.1, 10.0  # a small quick fuse has some ohms
RESIDUE = 0.02  # of a control's ohms that may be left between wiper and end
COLD_LAMP, COLD_LAMP_LEAST = 1 / 8, 1 / 20  # of a filament's hot ohms (from memory: a sixth to a tenth)
COLD_HEATER, COLD_HEATER_LEAST = 1 / 6, 1 / 10  # of a heater's hot ohms (from memory: a fifth to a seventh)
VOICE_COIL = 0.6  # of a speaker's ohms, which may be its impedance
ELECTROLYTIC_LEAK = 50e3  # ohms that a used filter capacitor may leak at a meter's volts (common practice)
PAPER_LEAK = 1e6
SELENIUM_LEAK = 10e3  # backwards, of a stack in use (from memory)


class Makes(Enum):
    """What a meter on ohms finds in a branch."""

    OHMS = "ohms"
    JUNCTION = "junction"  # from anode to cathode it conducts; how much depends on the meter
    CAPACITOR = "capacitor"  # open once it has charged


class PartPath(Struct, frozen=True):
    """One way through a part between two of its terminals.

    ``ohms`` are None where the file does not state them: then ``low`` is 0 and ``high`` infinite. ``low`` and
    ``high`` are what a good part may have. A junction's ``a`` is its anode, an electrolytic's its plus. ``polarised``
    parts read right only one way round.
    """

    name: str
    part: str
    a: str
    b: str
    makes: Makes
    ohms: float | None
    low: float
    high: float
    polarised: bool = False


Found = Iterator[PartPath]


def branches_of(part: Part, *, tubes_in: bool) -> Found:
    """The branches of a part between terminals by name; controls fully counter-clockwise, switches as drawn."""
    if part.kind.family is Family.TUBE:
        return _heater(part) if tubes_in else iter(())
    find = _BY_FAMILY.get(part.kind.family)
    return find(part) if find is not None else iter(())


def open_parts(part: Part) -> str:
    """What the plan has to say about a part that it takes as open; empty where nothing."""
    if part.kind.family is Family.BATTERY:
        return f"{part.name} (battery) out"
    if part.kind.family is Family.SWITCH and part.features.positions and "drawn" not in part.features.arguments:
        return f"{part.name}: its position is not said, all its contacts are taken as open"
    return ""


def _ohms(part: Part, name: str, ends: tuple[str, str], value: tuple[float, float, float]) -> PartPath:
    return PartPath(name, part.name, *ends, Makes.OHMS, *value)


def _unknown(part: Part, name: str, ends: tuple[str, str]) -> PartPath:
    return PartPath(name, part.name, *ends, Makes.OHMS, None, 0.0, math.inf)


def _within(ohms: float, tolerance: float) -> tuple[float, float, float]:
    return ohms, ohms * (1 - tolerance), ohms * (1 + tolerance)


def _first(values: tuple[Quantity, ...], dimension: Dimension) -> float | None:
    return next((float(q.amount) for q in values if q.dimension is dimension), None)


def _tolerance(part: Part) -> float:
    said = part.features.first(Dimension.TOLERANCE)
    return ANY_TOLERANCE if said is None else float(said.amount) / 100


def _resistor(part: Part) -> Found:
    if part.kind.is_chain:
        yield from _chain(part)
        return
    said = part.features.first(Dimension.RESISTANCE)
    ends = _two(part)
    if said is None:
        yield _unknown(part, part.name, ends)
    else:
        yield _ohms(part, part.name, ends, _within(float(said.amount), _tolerance(part)))


def _two(part: Part) -> tuple[str, str]:
    one, other = [t.name for t in part.leads if t.role is Role.LEAD][:2]
    return one, other


def _chain(part: Part) -> Found:
    for number, said in enumerate(part.features.all_of(Dimension.RESISTANCE), 1):
        ends = (str(number), str(number + 1))
        yield _ohms(part, f"{part.name} {ends[0]} to {ends[1]}", ends, _within(float(said.amount), _tolerance(part)))


def _control(part: Part) -> Found:
    """A rheostat at its most resistance, a control at its end."""
    yield from _pot(part) if part.kind.divides else _resistor(part)


def _pot(part: Part) -> Found:
    said = part.features.first(Dimension.RESISTANCE)
    names = ("ccw", "tap", "cw") if "tapped" in part.features.words else ("ccw", "cw")
    if said is None:
        yield _unknown(part, f"{part.name} ccw to wiper", ("ccw", "wiper"))
    else:
        yield _ohms(part, f"{part.name} ccw to wiper", ("ccw", "wiper"), (CLOSED, 0.0, RESIDUE * float(said.amount)))
    for ends in pairwise(names):
        name = part.name if len(names) == 2 else f"{part.name} {ends[0]} to {ends[1]}"
        if said is None or len(names) > 2:
            yield _unknown(part, name, ends)
        else:
            yield _ohms(part, name, ends, _within(float(said.amount), _tolerance(part)))


def _wound(part: Part) -> Found:
    if not part.features.windings and any(t.role is Role.LEAD for t in part.leads):  # a bare transformer has none
        yield from _coil(part)
    for winding, leads in part.features.windings:
        said = _first(part.features.winding_values.get(winding, ()), Dimension.RESISTANCE)
        stretches = [*pairwise(leads)]
        for number, ends in enumerate(stretches, 1):
            name = f"{part.name} {winding}" + (f" {number}" if len(stretches) > 1 else "")
            if said is None:
                yield _unknown(part, name, ends)
            else:
                tolerance = WINDING_TOLERANCE if len(stretches) == 1 else TAP_TOLERANCE
                yield _ohms(part, name, ends, _within(said / len(stretches), tolerance))


def _coil(part: Part) -> Found:
    said = part.features.first(Dimension.RESISTANCE)
    value = None if said is None else _within(float(said.amount), WINDING_TOLERANCE)
    yield _unknown(part, part.name, _two(part)) if value is None else _ohms(part, part.name, _two(part), value)


def _lamp(part: Part) -> Found:
    volts, amperes = part.features.first(Dimension.VOLTAGE), part.features.first(Dimension.CURRENT)
    if volts is None or amperes is None:
        yield _unknown(part, part.name, _two(part))
    else:
        hot = float(volts.amount / amperes.amount)
        yield _ohms(part, part.name, _two(part), (hot * COLD_LAMP, hot * COLD_LAMP_LEAST, hot))


def _speaker(part: Part) -> Found:
    said = part.features.first(Dimension.RESISTANCE)
    if said is None:
        yield _unknown(part, part.name, _two(part))
    else:
        ohms = float(said.amount)
        yield _ohms(part, part.name, _two(part), (ohms, VOICE_COIL * ohms, (1 + WINDING_TOLERANCE) * ohms))


def _fuse(part: Part) -> Found:
    yield _ohms(part, part.name, _two(part), (FUSE, 0.0, FUSE_MOST))


def _switch(part: Part) -> Found:
    positions = dict(part.features.positions)
    groups = positions.get(part.features.arguments.get("drawn", ""), ()) if positions else (("1", "2"),)
    for group in groups:
        for ends in pairwise(group):
            yield _ohms(part, f"{part.name} {ends[0]} to {ends[1]}", ends, (CLOSED, 0.0, CLOSED_MOST))


def _heater(part: Part) -> Found:
    pins = {t.electrode or t.name: t.name for t in reversed(part.leads)}
    pins |= {alias: t.name for t in part.leads for alias in t.aliases}
    start, tap, end = pins.get("heater-1"), pins.get("heater-tap"), pins.get("heater-2")
    if start is None or end is None:
        return
    known = heater_of(part.features.type)
    stretches = [(start, end)] if tap is None else [(start, tap), (tap, end)]
    for number, (a, b) in enumerate(stretches):
        name = f"{part.name} heater" + (f" {number + 1}" if tap else "")
        if known is None:
            yield _unknown(part, name, (a, b))
            continue
        volts = (known.tap, known.volts - known.tap)[number] if tap and known.tap else known.volts / len(stretches)
        hot = volts / known.amperes
        yield _ohms(part, name, (a, b), (hot * COLD_HEATER, hot * COLD_HEATER_LEAST, hot))


def _rectifier(part: Part) -> Found:
    pairs = dry_paths(terminal.name for terminal in part.leads)
    leak = SELENIUM_LEAK if part.kind.junction is Junction.SELENIUM else math.inf
    for a, b in pairs:
        name = part.name if len(pairs) == 1 else f"{part.name} {a} to {b}"
        yield PartPath(name, part.name, a, b, Makes.JUNCTION, math.inf, leak, math.inf, polarised=True)


def _electrolytic(part: Part) -> Found:
    leak = ELECTROLYTIC_LEAK
    yield PartPath(part.name, part.name, "+", "-", Makes.CAPACITOR, math.inf, leak, math.inf, polarised=True)


def _capacitor(part: Part) -> Found:
    leak = PAPER_LEAK if "paper" in part.features.words else math.inf
    yield PartPath(part.name, part.name, *_two(part), Makes.CAPACITOR, math.inf, leak, math.inf)


OUTSIDE = frozenset({Family.BATTERY, Family.CORD, Family.NETWORK, Family.PLACE, Family.PLUG, Family.TUBE})
"""Families that a meter finds nothing in: places, what is out while it measures, and tubes, which are asked before."""

_BY_FAMILY: Mapping[Family, Callable[[Part], Found]] = {
    Family.CAPACITOR: _capacitor, Family.CONTROL: _control, Family.ELECTROLYTIC: _electrolytic, Family.FUSE: _fuse,
    Family.INDUCTOR: _wound, Family.LAMP: _lamp, Family.RECTIFIER: _rectifier, Family.RESISTOR: _resistor,
    Family.SPEAKER: _speaker, Family.SWITCH: _switch, Family.TRANSFORMER: _wound,
}  # fmt: skip
