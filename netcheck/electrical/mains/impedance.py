"""What each part is to a current of the mains' frequency: an admittance, a joint, or nothing at all.

Small resistances are taken roughly, for what keeps a chassis apart from the line is a hundred times greater:
windings as 10 ohm from lead to lead, heaters as 50. Windings of one transformer are isolated from each other.
A rectifier passes what the mains drives only where it stands at the touched metal itself; elsewhere it is open.
"""

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise

from netcheck.core.circuit import Part
from netcheck.core.quantity import Dimension
from netcheck.electrical.mains.line import net_at
from netcheck.electrical.mains.phasor import Branch
from netcheck.model.graph import CircuitGraph

__all__ = ["Passage", "passages"]

WINDING_OHMS, HEATER_OHMS, LAMP_OHMS, COIL_OHMS, RECTIFIER_OHMS = 10.0, 50.0, 40.0, 50.0, 50.0
SPEAKER_OHMS = 4.0
STRUCK_OHMS = 1000.0  # a neon lamp that glows
LEAST_OHMS = 0.01

Ends = tuple[str, str, complex]
Made = Callable[[Part, float], Iterator[Ends]]


@dataclass(frozen=True, slots=True)
class Passage:
    """A part's branches between nets; ``only_at_metal`` where they count only if an end is the touched metal."""

    part: Part
    branches: tuple[Branch, ...]
    only_at_metal: bool = False


def passages(graph: CircuitGraph, hertz: float) -> tuple[Passage, ...]:
    """What carries current of a frequency (0 for direct) in a circuit; fuses and switch contacts are not among it."""
    found = []
    for part in graph.circuit.parts.values():
        made = _BY_WORD.get(part.kind.word)
        if part.shape is None or made is None:
            continue
        branches = tuple(_placed(graph, part, made(part, 2 * math.pi * hertz)))
        if branches:
            found.append(Passage(part, branches, part.kind.word in _RECTIFIERS))
    return tuple(found)


def _placed(graph: CircuitGraph, part: Part, ends: Iterator[Ends]) -> Iterator[Branch]:
    for one, other, admittance in ends:
        a, b = net_at(graph, part, one), net_at(graph, part, other)
        if a is not None and b is not None and a != b and admittance:
            yield Branch(part.name, a, b, admittance)


def _said(part: Part, dimension: Dimension) -> float | None:
    said = part.features.first(dimension)
    return None if said is None else float(said.amount)


def _siemens(ohms: float) -> complex:
    return complex(1 / max(ohms, LEAST_OHMS))


def _resistor(part: Part, _: float) -> Iterator[Ends]:
    ohms = _said(part, Dimension.RESISTANCE)
    if ohms is not None:
        yield "1", "2", _siemens(ohms)


def _pot(part: Part, _: float) -> Iterator[Ends]:
    """The wiper stands in the middle, at the tap where there is one."""
    half = (_said(part, Dimension.RESISTANCE) or 0.0) / 2
    if half:
        for one, other in (("ccw", "wiper"), ("wiper", "cw"), ("1", "wiper")):
            yield one, other, _siemens(half)
        yield "tap", "wiper", _siemens(LEAST_OHMS)


def _candohm(part: Part, _: float) -> Iterator[Ends]:
    for number, said in enumerate(part.features.all_of(Dimension.RESISTANCE), 1):
        yield str(number), str(number + 1), _siemens(float(said.amount))


def _capacitor(part: Part, turn: float) -> Iterator[Ends]:
    farads = _said(part, Dimension.CAPACITANCE)
    if farads is not None:
        one, other = ("1", "2") if part.kind.word == "capacitor" else ("+", "-")
        yield one, other, 1j * turn * farads


def _wound(part: Part, turn: float) -> Iterator[Ends]:
    for _, leads in part.features.windings:
        for one, other in pairwise(leads):
            yield one, other, _siemens(WINDING_OHMS)
    if not part.features.windings:
        ohms, henries = _said(part, Dimension.RESISTANCE), _said(part, Dimension.INDUCTANCE) or 0.0
        yield "1", "2", 1 / complex(max(COIL_OHMS if ohms is None else ohms, LEAST_OHMS), turn * henries)


def _lamp(part: Part, _: float) -> Iterator[Ends]:
    volts, amperes = _said(part, Dimension.VOLTAGE), _said(part, Dimension.CURRENT)
    ohms = volts / amperes if volts and amperes else LAMP_OHMS
    yield "1", "2", _siemens(STRUCK_OHMS if "neon" in part.features.words else ohms)


def _speaker(part: Part, _: float) -> Iterator[Ends]:
    yield "1", "2", _siemens(_said(part, Dimension.RESISTANCE) or SPEAKER_OHMS)


def _battery(_: Part, __: float) -> Iterator[Ends]:
    yield "+", "-", _siemens(1.0)


def _tube(part: Part, _: float) -> Iterator[Ends]:
    """Its heater; what the electrodes pass is no current of the mains."""
    names = {t.electrode for t in part.shape.terminals} if part.shape else set()
    heater = [name for name in ("heater-1", "heater-tap", "heater-2") if name in names]
    for one, other in pairwise(heater):
        yield one, other, _siemens(HEATER_OHMS)


def _diode(part: Part, _: float) -> Iterator[Ends]:
    if "germanium" not in part.features.words:
        yield "anode", "cathode", _siemens(RECTIFIER_OHMS)


def _selenium(_: Part, __: float) -> Iterator[Ends]:
    pairs = (("-", "+"), ("-", "ac"), ("ac", "+"), ("-", "ac-1"), ("-", "ac-2"), ("ac-1", "+"), ("ac-2", "+"))
    for one, other in pairs:
        yield one, other, _siemens(RECTIFIER_OHMS)


_RECTIFIERS = frozenset({"diode", "selenium"})
_BY_WORD: Mapping[str, Made] = {
    "battery": _battery, "candohm": _candohm, "capacitor": _capacitor, "choke": _wound, "coil": _wound,
    "diode": _diode, "electrolytic": _capacitor, "lamp": _lamp, "pot": _pot, "resistor": _resistor, "rheostat": _pot,
    "section": _capacitor, "selenium": _selenium, "speaker": _speaker, "transformer": _wound, "tube": _tube,
}  # fmt: skip
