"""What can be wrong with a supply that runs: each failure as other elements of its network."""

from collections.abc import Iterator, Sequence
from typing import TypeVar

from msgspec import Struct
from msgspec.structs import replace

from netcheck.bench.ohms import OPEN
from netcheck.bench.rounded import ohms_words
from netcheck.electrical.network.draws import STATED_LOAD
from netcheck.electrical.network.elements import (
    Capacitor,
    Conduction,
    Element,
    Inductor,
    Load,
    Network,
    Rectifier,
    Regulator,
    Resistor,
    VoltageSource,
    part_of,
)

__all__ = ["Failure", "both", "failures"]

SHORT = 1.0  # ohms of a shorted capacitor or rectifier
RISEN = (1.5, 2.0, 3.0, 4.5, 7.0, 10.0)
FALLEN = (0.67, 0.5, 0.33, 0.1)
LEAKS = (500.0, 1e3, 2e3, 3e3, 5e3, 7e3, 1e4, 2e4, 3e4, 5e4, 1e5)  # ohms of a capacitor that leaks
MORE = (1.5, 2.0, 3.0, 4.0, 6.0)  # times what a tube or a line draws
LINES = (0.75, 0.8, 0.85, 0.9, 1.1, 1.15, 1.2, 1.25)  # times the nominal line
WEAK = (2.0, 4.0)  # times the volts that a worn rectifier tube drops
_PATHS = ("leak", "short")  # what a capacitor or rectifier that failed is replaced by
_OPEN_FARADS = 1e-9  # what a capacitor has left that is open

# How unlikely, in squares of a reading's own uncertainty. Tubes and electrolytics age most, windings least; a line
# that is not nominal is the commonest of all, and no fault of the set.
LINE, TUBE, ELECTROLYTIC, DRIFT, JOINT, WINDING, DRAW = 0.0, 0.3, 0.5, 0.5, 0.7, 1.5, 0.6

TWO = 2.0  # that two things fail at once


class Failure(Struct, frozen=True):
    """One thing wrong: ``subject`` is the same for all its degrees, ``tell`` how to make sure with the plug out.

    ``elements`` are the network's own with the failure in it. ``pulses`` says that it changes how a rectifier
    conducts, so that mean values tell nothing of it, ``two`` that it is two failures. ``adrift`` are the nodes that
    nothing holds any more: there a meter shows what leaks.
    """

    subject: str
    words: str
    tell: str
    cost: float
    elements: tuple[Element, ...]
    pulses: bool = False
    two: bool = False
    adrift: frozenset[int] = frozenset()


def both(first: Failure, second: Failure) -> Failure:
    """Two failures together; ``second`` is one of what the first left."""
    return Failure(
        " and ".join(sorted((first.subject, second.subject))), f"{first.words}; and {second.words}",
        f"{first.tell}; and {second.tell}", first.cost + second.cost + TWO, second.elements,
        first.pulses or second.pulses, two=True, adrift=first.adrift | second.adrift,
    )  # fmt: skip


def failures(network: Network) -> Iterator[Failure]:
    """Every single failure of the parts that carry direct current."""
    yield from _line(network)
    yield from _worn(network)
    yield from _dried_up(network)
    yield from _dead(network)
    for at, one in enumerate(network.elements):
        for subject, words, tell, cost, put in _failing(one):
            elements = (*network.elements[:at], *put, *network.elements[at + 1 :])
            opened = any(isinstance(each, Resistor | Inductor) and each.ohms >= OPEN for each in put)
            adrift = _adrift(network.count, elements) if opened else frozenset()
            found = Failure(subject, words, tell, cost, elements, pulses=isinstance(one, Rectifier), adrift=adrift)
            yield found
            if adrift and isinstance(one, Resistor) and 0 in (one.a, one.b):
                yield from _without_its_tube(found)


def _adrift(count: int, elements: Sequence[Element]) -> frozenset[int]:
    """The nodes from which no direct current finds to the common."""
    ways: dict[int, list[int]] = {node: [] for node in range(count)}
    for one in elements:
        ends = _way(one)
        if ends is not None:
            ways[ends[0]].append(ends[1])
            ways[ends[1]].append(ends[0])
    found, left = {0}, [0]
    while left:
        left += (more := set(ways[left.pop()]) - found)
        found |= more
    return frozenset(ways.keys() - found)


def _way(one: Element) -> tuple[int, int] | None:
    match one:
        case Resistor(a=a, b=b, ohms=ohms) | Inductor(a=a, b=b, ohms=ohms) if ohms < OPEN:
            return a, b
        case VoltageSource(plus=a, minus=b) | Load(plus=a, minus=b):
            return a, b
        case Rectifier(anode=a, cathode=b) | Regulator(anode=a, cathode=b):
            return a, b
        case _:
            return None


def _without_its_tube(found: Failure) -> Iterator[Failure]:
    """What hung on the common by a resistor may be the cathode of one of two tubes whose current the file states."""
    for at, one in enumerate(found.elements):
        if isinstance(one, Load) and not one.part:
            half = replace(one, amperes=one.amperes / 2)
            yield replace(found, elements=(*found.elements[:at], half, *found.elements[at + 1 :]))


_Found = Iterator[tuple[str, str, str, float, tuple[Element, ...]]]


def _failing(one: Element) -> _Found:
    """The ways in which an element fails; a path through a part that failed already has none."""
    match one:
        case Resistor(name=name) if name not in _PATHS:
            yield from _resistor(one)
        case Inductor():
            yield from _winding(one.name, replace(one, ohms=OPEN))
        case Capacitor():
            yield from _capacitor(one)
        case Load():
            yield from _load(one)
        case Rectifier():
            yield from _rectifier(one)
        case _:
            pass


def _line(network: Network) -> Iterator[Failure]:
    """All alternating sources alike: the line itself."""
    if not any(isinstance(one, VoltageSource) and one.hertz for one in network.elements):
        return
    for times in LINES:
        elements = tuple(
            replace(one, peak=one.peak * times) if isinstance(one, VoltageSource) and one.hertz else one
            for one in network.elements
        )
        words = f"the line is about {abs(100 * (times - 1)):.0f} % {'high' if times > 1 else 'low'}"
        yield Failure("the line", words, "measure the line at the set's plug, under load", LINE, elements)


def _worn(network: Network) -> Iterator[Failure]:
    """All plates of one rectifier tube alike, since they share its cathode."""
    hot = [one for one in network.elements if isinstance(one, Rectifier) and one.driven and not one.cold]
    for part in dict.fromkeys(part_of(one.name) for one in hot):
        own = {one.name for one in hot if part_of(one.name) == part}
        for times in WEAK:
            elements = tuple(
                replace(one, law=_dropping(one.law, times)) if isinstance(one, Rectifier) and one.name in own else one
                for one in network.elements
            )
            words, tell = f"{part} is worn: it gives less than it did", f"put a good {part} in"
            yield Failure(part, words, tell, TUBE, elements, pulses=True)


def _dried_up(network: Network) -> Iterator[Failure]:
    """The capacitors that a rectifier charges: without one its line has only the mean of the pulses."""
    ends = {end for one in network.elements if isinstance(one, Rectifier) for end in (one.anode, one.cathode)} - {0}
    for at, one in enumerate(network.elements):
        if isinstance(one, Capacitor) and one.polarised and ends & {one.plus, one.minus}:
            elements = (*network.elements[:at], replace(one, farads=_OPEN_FARADS), *network.elements[at + 1 :])
            words = f"{one.name} is open or dried up, or a joint of it: it hums"
            tell = f"hold a good capacitor across {one.name}, plug out first"
            yield Failure(one.name, words, tell, ELECTROLYTIC, elements, pulses=True)


def _dead(network: Network) -> Iterator[Failure]:
    """A tube all of whose electrodes draw nothing."""
    drawing = [one for one in network.elements if isinstance(one, Load) and one.part]
    for tube in dict.fromkeys(one.part for one in drawing):
        own = {one.name for one in drawing if one.part == tube}
        if len(own) > 1:
            elements = tuple(
                replace(one, amperes=0.0) if isinstance(one, Load) and one.name in own else one
                for one in network.elements
            )
            tell = f"put a good {tube} in; its heater, its cathode's joint"
            yield Failure(tube, f"{tube} draws nothing", tell, TUBE, elements)


def _dropping(law: Conduction, times: float) -> Conduction:
    return Conduction(tuple((volts * times, amperes) for volts, amperes in law.corners))


def _resistor(one: Resistor) -> _Found:
    if " " in one.name:  # a winding, half of a control: opens, and does not drift
        yield from _winding(one.name, replace(one, ohms=OPEN))
        return
    tell = f"measure {one.name} cold, one lead off: {ohms_words(one.ohms)}"
    yield one.name, f"{one.name} is open, or a joint of it", tell, JOINT, (replace(one, ohms=OPEN),)
    for times in (*RISEN, *FALLEN):
        way = "risen" if times > 1 else "fallen"
        words = f"{one.name} has {way} to about {ohms_words(times * one.ohms)}"
        yield one.name, words, tell, DRIFT, (replace(one, ohms=times * one.ohms),)


_Opened = TypeVar("_Opened", Resistor, Inductor)


def _winding(name: str, opened: _Opened) -> _Found:
    yield name, f"{name} is open, or a joint of it", f"measure {name} cold", WINDING, (opened,)


def _capacitor(one: Capacitor) -> _Found:
    if not one.polarised:
        return
    tell = f"lift one lead of {one.name}, measure its leakage"
    cost = ELECTROLYTIC
    yield one.name, f"{one.name} is shorted", tell, cost, (one, Resistor("short", one.plus, one.minus, SHORT))
    for ohms in LEAKS:
        words = f"{one.name} leaks, about {ohms_words(ohms)}"
        yield one.name, words, tell, cost, (one, Resistor("leak", one.plus, one.minus, ohms))


def _load(one: Load) -> _Found:
    who, tube = one.name.removeprefix(STATED_LOAD).removesuffix(" current"), one.part
    if tube:
        tell = f"pull {tube}, or put a good one in; its heater, its cathode's joint, the volts of its grid"
        yield one.name, f"{who} draws nothing", tell, TUBE, (replace(one, amperes=0.0),)
    else:
        tell = f"what does {who} feed that is out, cold or not joined"
        yield one.name, f"nothing is drawn from {who}", tell, DRAW, (replace(one, amperes=0.0),)
        words = f"about half the current is drawn from {who}"
        yield one.name, words, tell, DRAW, (replace(one, amperes=one.amperes / 2),)
    for times in MORE:
        if tube:
            words = f"{who} draws about {times:g} times its current: its bias is off, or a coupling capacitor leaks"
            tell = f"plug out; the volts of {tube}'s grid and cathode, the capacitor to its grid"
        else:
            words = f"about {times:g} times the current is drawn from {who}"
            tell = f"measure {who}'s ohms cold, then part by part"
        yield one.name, words, tell, TUBE if tube else DRAW, (replace(one, amperes=times * one.amperes),)


def _rectifier(one: Rectifier) -> _Found:
    if not one.driven:
        return
    part = part_of(one.name)
    tell = f"measure {part} both ways round, cold" if one.cold else f"put a good {part} in; its plates' joints"
    yield one.name, f"{one.name} does not conduct, or a joint of it is open", tell, JOINT, ()
    if one.cold:
        words = f"{one.name} is shorted"
        yield one.name, words, tell, ELECTROLYTIC, (Resistor("short", one.anode, one.cathode, SHORT),)
