"""Heaters as resistances: from end to end, or in two sections where a tap is soldered.

They are part of the supply only where something but a lamp hangs on a tap: then all of them are, since what the tap
feeds depends on the whole string.
"""

from msgspec import Struct

from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.electrical.network.draft import Draft
from netcheck.electrical.network.elements import Resistor
from netcheck.electrical.tube_data import heater_of

__all__ = ["SOME_OHMS", "TubeHeater", "enter_heater", "enter_heaters_of_taps", "is_heater"]

SOME_OHMS = 50.0  # of a heater that is not known, to see whether it is in the string
LEAST, MOST = 0.02, 50.0  # times that, between which it lies
_MARK = " heater"


def is_heater(element: str) -> bool:
    """Whether an element is a heater or a section of one, by its name."""
    return _MARK in element


class TubeHeater(Struct, frozen=True):
    """A tube's heater as entered: the names of its sections, and what it is made for as it is wired."""

    tube: str
    type: str
    sections: tuple[str, ...]
    volts: float
    amperes: float
    known: bool = True


def enter_heater(draft: Draft, part: Part) -> tuple[TubeHeater, ...]:
    """Adds a tube's heater, in two sections where it is tapped; with its ends joined those are side by side."""
    tube_type = part.features.type
    heater = heater_of(tube_type)
    start, end, tap = (draft.end(part, f"heater-{each}") for each in ("1", "2", "tap"))
    whole = f"{part.name}{_MARK}"
    if start is None or end is None:
        return ()
    if heater is None:
        draft.elements.append(Resistor(whole, start, end, SOME_OHMS))
        return (TubeHeater(part.name, tube_type, (whole,), 0.0, 0.0, known=False),)
    if not heater.tap or tap is None:
        draft.elements.append(Resistor(whole, start, end, heater.volts / heater.amperes))
        return (TubeHeater(part.name, tube_type, (whole,), heater.volts, heater.amperes),)
    names = (f"{whole} 1", f"{whole} 2")
    draft.elements.append(Resistor(names[0], start, tap, heater.tap / heater.amperes))
    draft.elements.append(Resistor(names[1], tap, end, (heater.volts - heater.tap) / heater.amperes))
    if start == end:
        return (TubeHeater(part.name, tube_type, names[:1], heater.tap, 2 * heater.amperes),)
    return (TubeHeater(part.name, tube_type, names, heater.volts, heater.amperes),)


def enter_heaters_of_taps(draft: Draft, tubes: list[Part]) -> None:
    """Adds all heaters where something hangs on the tap of one: what the tap feeds depends on the whole string.

    That is how the plate of a rectifier made for it is fed, with or without a pilot lamp beside.
    """
    if not any(_is_tapped(draft, part) for part in tubes):
        return
    for part in tubes:
        for socket in enter_heater(draft, part):
            if socket.known:
                text = (
                    f"{part.name} {part.features.type}: heater hot, {socket.volts:g} V at {socket.amperes * 1000:g} mA"
                )
                for name in socket.sections:
                    draft.default(name, text)
            else:
                say = f"{part.name} {part.features.type}: its heater is not known, and no line can say it"
                draft.gap(say, LEAST, MOST, *socket.sections)


def _is_tapped(draft: Draft, part: Part) -> bool:
    """Whether a tap feeds anything but a pilot lamp; of two sections side by side it is the other end."""
    start, end, tap = (draft.end(part, f"heater-{each}") for each in ("1", "2", "tap"))
    if tap is None or tap in (start, end) or start == end:
        return False
    leads = [at for at in draft.graph.leads_on(tap) if not _is_own(draft, part, at)]
    fed = (draft.graph.part_of(at) for at in leads)
    return any(each is not None and each.kind.family is not Family.LAMP for each in fed)


def _is_own(draft: Draft, part: Part, at: int) -> bool:
    terminal = draft.graph.point(at).terminal
    return draft.graph.part_of(at) is part and terminal is not None and terminal.electrode == "heater-tap"
