"""Silicon where tubes or selenium were: what B+ becomes, and the series resistor that brings it back.

The resistor for both stacks of a doubler goes into the lead that feeds the middle of the two: behind the second stack
it would be in the way of one alone. It is put beside the one that is there, if there is just one.
"""

from collections.abc import Callable, Iterable, Mapping

import msgspec
from msgspec import Struct

from netcheck.electrical.network.elements import (
    Capacitor,
    Element,
    Network,
    Rectifier,
    Resistor,
    VoltageSource,
    part_of,
)
from netcheck.electrical.network.laws import silicon
from netcheck.electrical.running.steady import Steady, steady
from netcheck.parts.made import above

__all__ = ["Preferred", "Risen", "SiliconSwap", "swapped"]

SERIES = "the series resistor"
MOST_OHMS = 20_000.0
CLOSE = 0.05  # volts
HALVINGS = 30


class Risen(Struct, frozen=True):
    """A capacitor's mean running volts before, and with silicon."""

    name: str
    before: float
    after: float


class Preferred(Struct, frozen=True):
    """A preferred value in that place: its ohms, the volts that it leaves, and the watts that it sheds."""

    series: str
    ohms: float
    volts: float
    watts: float


class SiliconSwap(Struct, frozen=True):
    """What silicon in place of ``parts`` does; ``ohms`` at ``place`` bring ``held`` back to its volts.

    ``ohms`` and ``watts`` are None where silicon raises nothing or where no single lead carries the whole current;
    ``place`` is then empty in the latter case. ``preferred`` are the next values above. ``cold_high`` is what ``held``
    sees cold at high line, whatever the resistor. ``late`` are those of the parts that had to warm up first.
    """

    parts: tuple[str, ...]
    changes: tuple[Risen, ...]
    held: str
    cold_high: float
    place: str
    ohms: float | None
    watts: float | None
    preferred: tuple[Preferred, ...] = ()
    late: tuple[str, ...] = ()


class _Lead(Struct, frozen=True):
    """The lead that carries the whole current of what was swapped: its name, and the network with ohms in it.

    Their heat is that of the resistor ``SERIES``.
    """

    words: str
    broken: Callable[[float], Network]


class _Found(Struct, frozen=True):
    """What a resistor in that lead leaves of the held capacitor's volts, and its heat."""

    ohms: float
    volts: float
    watts: float


def swapped(network: Network, before: Steady, parts: Iterable[str], cold_high: Mapping[str, float]) -> SiliconSwap:
    """Returns what silicon in place of some rectifiers, all at once, does.

    Raises:
        ValueError: no rectifier of the network is called so.
    """
    names = tuple(dict.fromkeys(parts))
    chosen = {one.name for part in names for one in _rectifiers_of(network, part)}
    late = tuple(part for part in names if any(not one.cold for one in _rectifiers_of(network, part)))
    changed = _with_silicon(network, chosen)
    after = steady(changed)
    polarised = [one.name for one in network.elements if isinstance(one, Capacitor) and one.polarised]
    olds, news = ({d.name: d.volts.mean for d in run.capacitors} for run in (before, after))
    changes = tuple(Risen(name, olds[name], news[name]) for name in polarised)
    held = max(polarised, key=lambda name: news[name] - olds[name], default="")
    lead = _lead(changed, [one for one in changed.elements if isinstance(one, Rectifier) and one.name in chosen])
    found, preferred = None, tuple[Preferred, ...]()
    settled = before.converged and after.converged
    if lead is not None and held and settled and news[held] - olds[held] > CLOSE:
        found = _series(lead, held, olds[held])
    if lead is not None and found is not None:
        preferred = tuple(_preferred(lead, held, found.ohms))
    ohms, watts = (found.ohms, found.watts) if found else (None, None)
    place = lead.words if lead is not None else ""
    return SiliconSwap(names, changes, held, cold_high.get(held, 0.0), place, ohms, watts, preferred, late)


def _rectifiers_of(network: Network, part: str) -> list[Rectifier]:
    every = [one for one in network.elements if isinstance(one, Rectifier)]
    found = [one for one in every if part_of(one.name) == part]
    if not found:
        message = f"no rectifier {part} is part of the supply; it has {', '.join(one.name for one in every)}"
        raise ValueError(message)
    return found


def _with_silicon(network: Network, chosen: set[str]) -> Network:
    return msgspec.structs.replace(
        network,
        elements=tuple(
            msgspec.structs.replace(one, law=silicon(), cold=True)
            if isinstance(one, Rectifier) and one.name in chosen
            else one
            for one in network.elements
        ),
    )


def _series(lead: _Lead, held: str, volts: float) -> _Found | None:
    """The resistor by bisection: the more ohms, the fewer volts."""
    found = _tried(lead, held, MOST_OHMS)
    if found is None or found.volts > volts:
        return None
    low, high = 0.0, 50.0
    while high < MOST_OHMS and (more := _tried(lead, held, high)) and more.volts > volts:
        low, high = high, high * 4
    for _ in range(HALVINGS):
        found = _tried(lead, held, (low + high) / 2)
        if found is None or abs(found.volts - volts) < CLOSE:
            break
        low, high = (found.ohms, high) if found.volts > volts else (low, found.ohms)
    return found


def _preferred(lead: _Lead, held: str, ohms: float) -> Iterable[Preferred]:
    for series in ("E12", "E24"):
        found = _tried(lead, held, above(ohms, series))
        if found is not None:
            yield Preferred(series, found.ohms, found.volts, found.watts)


def _tried(lead: _Lead, held: str, ohms: float) -> _Found | None:
    run = steady(lead.broken(ohms))
    if not run.converged:
        return None
    mean = next(one.volts.mean for one in run.capacitors if one.name == held)
    return _Found(ohms, mean, next(one.watts for one in run.resistors if one.name == SERIES))


def _lead(network: Network, rectifiers: list[Rectifier]) -> _Lead | None:
    """The lead that all of the current passes: behind a common cathode, before a common anode, or of the mains.

    The two arms of a doubler are in series, and a resistor behind them would be in the way of one alone: there it is
    the lead that feeds the middle of the two.
    """
    anodes, cathodes = {one.anode for one in rectifiers}, {one.cathode for one in rectifiers}
    middle = anodes & cathodes
    if len(middle) == 1:
        return _feeding(network, middle.pop(), anodes ^ cathodes)
    names = ", ".join(dict.fromkeys(part_of(one.name) for one in rectifiers))
    if len(cathodes - anodes) == 1:
        output = (cathodes - anodes).pop()
        return _Lead(f"between {names} and {network.names[output]}", _behind(network, rectifiers, output))
    if len(anodes - cathodes) == 1:
        output = (anodes - cathodes).pop()
        return _Lead(f"between {network.names[output]} and {names}", _behind(network, rectifiers, output))
    return None


def _behind(network: Network, rectifiers: list[Rectifier], node: int) -> Callable[[float], Network]:
    """The resistor between a node and those ends of the rectifiers that are on it."""
    fresh = network.count
    moved = {
        one.name: msgspec.structs.replace(
            one,
            anode=fresh if one.anode == node else one.anode,
            cathode=fresh if one.cathode == node else one.cathode,
        )
        for one in rectifiers
    }
    elements = tuple(moved.get(one.name, one) for one in network.elements)
    return lambda ohms: _with_resistor(network, elements, (fresh, node), ohms)


def _with_resistor(network: Network, elements: tuple[Element, ...], ends: tuple[int, int], ohms: float) -> Network:
    resistor = Resistor(SERIES, *ends, ohms)
    return Network(network.count + 1, (*elements, resistor), (*network.names, SERIES))


def _feeding(network: Network, middle: int, outer: set[int]) -> _Lead | None:
    """The lead of the one source that feeds a node through resistors and capacitors, and not by way of ``outer``."""
    reached, path = _reached(network, middle, outer)
    fed = [
        one for one in network.elements
        if isinstance(one, VoltageSource) and one.hertz and len({one.plus, one.minus} & reached) == 1
    ]  # fmt: skip
    if len(fed) != 1:
        return None
    source = fed[0]
    fresh = network.count
    at_plus = source.plus in reached
    end = source.plus if at_plus else source.minus
    cut = msgspec.structs.replace(source, plus=fresh) if at_plus else msgspec.structs.replace(source, minus=fresh)
    elements = tuple(cut if one is source else one for one in network.elements)
    words = f"in series with {path[0]}" if len(path) == 1 else f"in the lead from {source.name} to the rectifiers"
    return _Lead(words, lambda ohms: _with_resistor(network, elements, (fresh, end), ohms))


def _reached(network: Network, start: int, outer: set[int]) -> tuple[set[int], list[str]]:
    """The nodes that hang on one through resistors and capacitors, and the resistors among those."""
    ways = [
        (one.name, one.a, one.b) if isinstance(one, Resistor) else ("", one.plus, one.minus)
        for one in network.elements
        if isinstance(one, Resistor | Capacitor)
    ]
    reached, frontier, path = {start}, [start], list[str]()
    while frontier:
        at = frontier.pop()
        for name, a, b in ways:
            other = b if a == at else a
            if at in (a, b) and other not in reached | outer:
                reached.add(other)
                frontier.append(other)
                path += [name] if name else []
    return reached, path
