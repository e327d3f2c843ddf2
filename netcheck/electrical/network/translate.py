"""From a netlist to the network that the engines take: which parts count, and as what."""

import math
from collections.abc import Callable, Mapping
from itertools import pairwise

from netcheck.core.circuit import Part
from netcheck.core.kind import Family, Junction
from netcheck.core.quantity import Dimension
from netcheck.electrical.mains.line import USUAL_HERTZ, contacts
from netcheck.electrical.network.draft import Draft, Translation, first
from netcheck.electrical.network.draws import enter_draws
from netcheck.electrical.network.elements import Capacitor, Element, Inductor, Rectifier, Resistor, VoltageSource
from netcheck.electrical.network.extent import within_reach
from netcheck.electrical.network.first_papers import LEAST_CHARGE, take_first_papers
from netcheck.electrical.network.gaps import UNSAID_FARADS, UNSAID_OHMS, UNSAID_VOLTS
from netcheck.electrical.network.heaters import enter_heaters_of_taps
from netcheck.electrical.network.laws import SILICON_OHMS, SILICON_VOLTS, selenium, silicon
from netcheck.electrical.network.tubes import enter_appetites, enter_tube, is_rectifier
from netcheck.electrical.network.windings import NO_MAINS, SAY_MAINS, enter_windings
from netcheck.model.graph import CircuitGraph
from netcheck.parts.rectifiers import dry_paths

__all__ = ["OUTSIDE", "Translation", "draft_of", "enter_passive", "network_in", "network_of"]

LEAST_FARADS = 2.5e-7  # smaller ones carry signals: they change no voltage of a supply
LEAST_PART, MOST_PART = 1e-4, 1e4  # between which a resistance lies whose ohms are not stated
MAINS_OHMS = 1.0
PLATE_RATING = 26.0  # volts of alternating current that one selenium plate stands
CHOKE_HENRIES, CHOKE_OHMS, CORE_OHMS = 10.0, 200.0, 100_000.0
OHMS_PER_HENRY = 20_000.0  # of chokes for radio frequency: 2.5 mH has about 50 ohm (makers' catalogues, from memory)
LAMP_OHMS = 40.0
BATTERY_OHMS = 1.0

OUTSIDE = frozenset({Family.NETWORK, Family.PLACE, Family.PLUG})
"""Families that are places to solder to, and no part of a supply."""

Enter = Callable[[Draft, Part], None]


def network_of(graph: CircuitGraph) -> Translation:
    """The supply of a circuit, switches closed as drawn; what hangs on it by a single net is left away.

    One that is too large to be worked out is empty, and says so.
    """
    return within_reach(network_in(graph))


def network_in(
    graph: CircuitGraph, stand: Mapping[str, str] | None = None, opened: frozenset[str] = frozenset()
) -> Translation:
    """The same with switches in other positions, or with some parts open: fuses, switches, windings, resistors."""
    return draft_of(graph, stand, opened).finished()


def draft_of(
    graph: CircuitGraph, stand: Mapping[str, str] | None = None, opened: frozenset[str] = frozenset()
) -> Draft:
    """All that is part of a supply, and what hangs on it: the network before anything is left away.

    It is the caller's own, to add to; the circuit as drawn is gone through once.
    """
    return _drafted(graph, stand or {}, opened) if stand or opened else graph.once(_as_drawn).copied()


def _as_drawn(graph: CircuitGraph) -> Draft:
    return _drafted(graph, {}, frozenset())


def _drafted(graph: CircuitGraph, stand: Mapping[str, str], opened: frozenset[str]) -> Draft:
    draft = Draft(graph, stand, opened)
    draft.live.update(*draft.sides)
    # A tube is looked at last: whether a diode is driven depends on what it hangs on.
    for part in sorted(graph.circuit.parts.values(), key=lambda part: part.kind.family is Family.TUBE):
        enter = _BY_FAMILY.get(part.kind.family)
        if enter is not None and part.name not in opened:
            enter(draft, part)
    tubes = [part for part in graph.circuit.parts.values() if part.kind.family is Family.TUBE]
    enter_heaters_of_taps(draft, tubes)
    draft.without_unknown()
    take_first_papers(draft)
    enter_draws(draft)
    enter_appetites(draft, tubes)
    return draft


def enter_passive(draft: Draft, part: Part) -> None:
    """Adds a part that alternating current of the mains goes through on its way to heaters; of others nothing."""
    kind = part.kind
    if kind.family in _PASSIVE and not kind.is_choke and not kind.divides:
        _BY_FAMILY[kind.family](draft, part)


def _between(draft: Draft, part: Part, one: str, other: str, make: Callable[[int, int], Element]) -> None:
    draft.elements.extend(make(a, b) for a, b in _ends(draft, part, one, other))


def _ends(draft: Draft, part: Part, one: str, other: str) -> tuple[tuple[int, int], ...]:
    """The two nets of a part's terminals, where it has both."""
    a, b = draft.end(part, one), draft.end(part, other)
    return ((a, b),) if a is not None and b is not None else ()


def _resistor(draft: Draft, part: Part) -> None:
    if part.kind.is_chain:
        _chain(draft, part)
        return
    ohms = _ohms_of(draft, part, first(part, Dimension.RESISTANCE), part.name)
    _between(draft, part, "1", "2", lambda a, b: Resistor(part.name, a, b, ohms, _tolerance(part)))


def _ohms_of(draft: Draft, part: Part, said: float | None, *elements: str) -> float:
    """The ohms as stated; without, a proof still counts the part, and every figure that depends on it is refused."""
    if said is not None:
        return said
    draft.gap(f"{part.name}: add its ohms", LEAST_PART, MOST_PART, *elements)
    return UNSAID_OHMS


def _tolerance(part: Part) -> float:
    said = first(part, Dimension.TOLERANCE)
    return 0.2 if said is None else said / 100


def _pot(draft: Draft, part: Part) -> None:
    pairs = (("ccw", "wiper"), ("wiper", "cw"), ("1", "wiper"))
    names = [f"{part.name} {end} to {other}" for end, other in pairs]
    half = _ohms_of(draft, part, first(part, Dimension.RESISTANCE), *names) / 2
    for name, (end, other) in zip(names, pairs, strict=True):
        for a, b in _ends(draft, part, end, other):
            draft.elements.append(Resistor(name, a, b, half))
            draft.default(name, f"{part.name}: wiper in the middle")


def _chain(draft: Draft, part: Part) -> None:
    for number, said in enumerate(part.features.all_of(Dimension.RESISTANCE), 1):
        name, ohms = f"{part.name} {number} to {number + 1}", float(said.amount)
        for a, b in _ends(draft, part, str(number), str(number + 1)):
            draft.elements.append(Resistor(name, a, b, ohms, _tolerance(part)))


def _capacitor(draft: Draft, part: Part) -> None:
    polarised = part.kind.family is Family.ELECTROLYTIC
    farads = first(part, Dimension.CAPACITANCE)
    if farads is None and not polarised:
        draft.left_out.append(f"{part.name}: its value is not stated")
        draft.couplings.extend(_ends(draft, part, "1", "2"))
        return
    if farads is None:
        draft.gap(f"{part.name}: add its mfd", 0.05, 50.0, part.name)
    ends = ("+", "-") if polarised else ("1", "2")
    rating = first(part, Dimension.VOLTAGE)
    value = UNSAID_FARADS if farads is None else farads
    for a, b in _ends(draft, part, *ends):
        made = Capacitor(part.name, a, b, value, polarised, rating)
        smooths = polarised or value >= LEAST_FARADS or (value >= LEAST_CHARGE and _feeds(draft, a, b))
        (draft.elements if smooths else draft.papers).append(made)


def _feeds(draft: Draft, *nets: int) -> bool:
    """Whether a rectifier or a choke ends on one of some nets: a capacitor there is what the supply charges."""
    members = (at for net in nets for at in draft.graph.leads_on(net))
    parts = (draft.graph.part_of(at) for at in members)
    return any(
        part is not None and (part.kind.is_choke or part.kind.family is Family.RECTIFIER or is_rectifier(part))
        for part in parts
    )


def _choke(draft: Draft, part: Part) -> None:
    if part.features.windings:
        enter_windings(draft, part)
        return
    henries, ohms = first(part, Dimension.INDUCTANCE), first(part, Dimension.RESISTANCE)
    iron = part.kind.is_choke
    if henries is None and iron:
        draft.default(part.name, f"{part.name}: {CHOKE_HENRIES:g} H")
    usual = min(CHOKE_OHMS, OHMS_PER_HENRY * (henries or CHOKE_HENRIES)) if iron else 1.0
    if ohms is None:
        draft.default(part.name, f"{part.name}: {usual:g} ohm")
    if iron:
        draft.default(part.name, f"{part.name}: core loss as {CORE_OHMS / 1000:g} kilohm")
    resistance = ohms if ohms is not None else usual

    def made(a: int, b: int) -> Element:
        choke = Inductor(part.name, a, b, henries or CHOKE_HENRIES, resistance, CORE_OHMS)
        return choke if iron else Resistor(part.name, a, b, resistance)

    _between(draft, part, "1", "2", made)


def _lamp(draft: Draft, part: Part) -> None:
    volts, amperes = first(part, Dimension.VOLTAGE), first(part, Dimension.CURRENT)
    ohms = volts / amperes if volts and amperes else LAMP_OHMS
    if not (volts and amperes):
        draft.default(part.name, f"{part.name}: {LAMP_OHMS:g} ohm")
    _between(draft, part, "1", "2", lambda a, b: Resistor(part.name, a, b, ohms))


def _fuse(draft: Draft, part: Part) -> None:
    a, b = draft.end(part, "1"), draft.end(part, "2")
    if a is not None and b is not None:
        draft.closed.append((a, b))


def _switch(draft: Draft, part: Part) -> None:
    positions = dict(contacts(part))
    drawn = draft.stand.get(part.name, part.features.arguments.get("drawn"))
    if drawn not in positions:
        drawn = next(iter(positions))
        if part.features.positions or not _is_of_the_line(draft, part):
            draft.unsaid[part.name] = tuple(positions)
    for group in positions[drawn]:
        nets = [net for lug in group if (net := draft.end(part, lug)) is not None]
        draft.closed.extend(pairwise(nets))


def _is_of_the_line(draft: Draft, part: Part) -> bool:
    """Whether a switch opens one side of the line: then nothing runs, and there is nothing to be told of it."""
    return any(draft.nets_of(part) <= side for side in draft.sides)


def _cord(draft: Draft, part: Part) -> None:
    volts, hertz = draft.mains or (UNSAID_VOLTS, USUAL_HERTZ)
    plus, minus = draft.end(part, "1", "hot"), draft.end(part, "2", "neutral")
    if plus is None or minus is None:
        return
    if draft.mains is None:
        draft.gap(SAY_MAINS, *NO_MAINS, part.name)
    draft.default(part.name, f"{part.name}: {MAINS_OHMS:g} ohm of the house wiring")
    draft.default_hertz(part.name)
    peak = volts * math.sqrt(2) if hertz else volts
    draft.elements.append(VoltageSource(part.name, plus, minus, peak, hertz, MAINS_OHMS))


def _battery(draft: Draft, part: Part) -> None:
    volts = first(part, Dimension.VOLTAGE)
    if volts is None:
        draft.gap(f"{part.name}: add its volts", *NO_MAINS, part.name)
    value = UNSAID_VOLTS if volts is None else volts
    draft.default(part.name, f"{part.name}: {BATTERY_OHMS:g} ohm; a fresh one gives as much more as a high line")
    _between(draft, part, "+", "-", lambda a, b: VoltageSource(part.name, a, b, value, 0.0, BATTERY_OHMS))


def _rectifier(draft: Draft, part: Part) -> None:
    (_selenium if part.kind.junction is Junction.SELENIUM else _diode)(draft, part)


def _diode(draft: Draft, part: Part) -> None:
    driven = "germanium" not in part.features.words
    volts, amperes = first(part, Dimension.VOLTAGE), first(part, Dimension.CURRENT)
    draft.default(part.name, f"{part.name}: silicon, {SILICON_VOLTS:g} V and {SILICON_OHMS:g} ohm")
    _between(
        draft, part, "anode", "cathode",
        lambda a, b: Rectifier(
            part.name, a, b, silicon(), driven=driven, inverse_volts=volts, mean_amperes=amperes
        ),
    )  # fmt: skip


def _selenium(draft: Draft, part: Part) -> None:
    words, pairs = part.features.words, dry_paths(terminal.name for terminal in part.leads)
    plates, rating = _plates(part)
    amperes = first(part, Dimension.CURRENT)
    mean = amperes / 2 if amperes and "bridge" in words else amperes  # each side of a bridge carries half of it
    for anode, cathode in pairs:
        name = part.name if len(pairs) == 1 else f"{part.name} {anode} to {cathode}"
        draft.default(name, f"{part.name}: {plates} plates of 1 V and 3 ohm; an aged stack drops 10 to 20 V")
        law = selenium(plates)
        for a, b in _ends(draft, part, anode, cathode):
            draft.elements.append(Rectifier(name, a, b, law, inverse_volts=rating, mean_amperes=mean))


def _plates(part: Part) -> tuple[int, float | None]:
    """Plates in series, and the inverse volts that a stack stands which feeds a capacitor from its rated volts."""
    said, volts = first(part, Dimension.PLATES), first(part, Dimension.VOLTAGE)
    plates = int(said) if said else math.ceil((volts or 5 * PLATE_RATING) / PLATE_RATING)
    return plates, None if volts is None else 2 * math.sqrt(2) * volts


_PASSIVE = (
    Family.CONTROL, Family.CORD, Family.FUSE, Family.INDUCTOR, Family.LAMP, Family.RESISTOR, Family.SWITCH,
)  # fmt: skip
_BY_FAMILY: Mapping[Family, Enter] = {
    Family.BATTERY: _battery, Family.CAPACITOR: _capacitor, Family.CONTROL: _pot, Family.CORD: _cord,
    Family.ELECTROLYTIC: _capacitor, Family.FUSE: _fuse, Family.INDUCTOR: _choke, Family.LAMP: _lamp,
    Family.RECTIFIER: _rectifier, Family.RESISTOR: _resistor, Family.SPEAKER: _resistor, Family.SWITCH: _switch,
    Family.TRANSFORMER: enter_windings, Family.TUBE: enter_tube,
}  # fmt: skip
