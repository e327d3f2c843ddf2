"""From a netlist to the network that the engines take: which parts count, and as what."""

import math
from collections.abc import Callable, Mapping
from itertools import pairwise

from netcheck.core.circuit import Part
from netcheck.core.quantity import Current, Dimension
from netcheck.electrical.network.draft import Draft, Translation, first
from netcheck.electrical.network.elements import Capacitor, Element, Inductor, Load, Rectifier, Resistor, Source
from netcheck.electrical.network.laws import SILICON_OHMS, SILICON_VOLTS, selenium, silicon
from netcheck.electrical.network.tubes import enter_appetites, enter_tube
from netcheck.electrical.network.windings import enter_windings
from netcheck.model.graph import CircuitGraph

__all__ = ["OUTSIDE", "STATED_LOAD", "Translation", "enter_passive", "network_of"]

STATED_LOAD = "draws "  # what the name of a load begins with that the file states

LEAST_FARADS = 1e-6  # smaller ones carry signals: they change no voltage of a supply
MAINS_OHMS = 1.0
PLATE_RATING = 26.0  # volts of alternating current that one selenium plate stands
CHOKE_HENRIES, CHOKE_OHMS, CORE_OHMS = 10.0, 200.0, 100_000.0
LAMP_OHMS = 40.0
BATTERY_OHMS = 1.0

OUTSIDE = frozenset({"can", "lug", "network", "plug", "strip"})
"""Kinds that are places to solder to, and no part of a supply."""

Enter = Callable[[Draft, Part], None]


def network_of(graph: CircuitGraph) -> Translation:
    """The supply of a circuit, switches closed as drawn; what hangs on it by a single net is left away."""
    draft = Draft(graph)
    parts = [part for part in graph.circuit.parts.values() if part.shape is not None]
    for part in parts:
        enter = _BY_WORD.get(part.kind.word)
        if enter is not None:
            enter(draft, part)
    _enter_draws(draft)
    for part in parts:
        if part.kind.word == "tube":
            enter_appetites(draft, part)
    return draft.finished()


def enter_passive(draft: Draft, part: Part) -> None:
    """Adds a part that alternating current of the mains goes through on its way to heaters; of others nothing."""
    if part.kind.word in _PASSIVE:
        _BY_WORD[part.kind.word](draft, part)


def _between(draft: Draft, part: Part, one: str, other: str, make: Callable[[int, int], Element]) -> None:
    draft.elements.extend(make(a, b) for a, b in _ends(draft, part, one, other))


def _ends(draft: Draft, part: Part, one: str, other: str) -> tuple[tuple[int, int], ...]:
    """The two nets of a part's terminals, where it has both."""
    a, b = draft.end(part, one), draft.end(part, other)
    return ((a, b),) if a is not None and b is not None else ()


def _resistor(draft: Draft, part: Part) -> None:
    ohms = first(part, Dimension.RESISTANCE)
    if ohms is None:
        draft.left_out.append(f"{part.name}: its ohms are not said")
        return
    _between(draft, part, "1", "2", lambda a, b: Resistor(part.name, a, b, ohms, _tolerance(part)))


def _tolerance(part: Part) -> float:
    said = first(part, Dimension.TOLERANCE)
    return 0.2 if said is None else said / 100


def _pot(draft: Draft, part: Part) -> None:
    half = (first(part, Dimension.RESISTANCE) or 0.0) / 2
    if not half:
        draft.left_out.append(f"{part.name}: its ohms are not said")
        return
    for end, other in (("ccw", "wiper"), ("wiper", "cw"), ("1", "wiper")):
        name = f"{part.name} {end} to {other}"
        for a, b in _ends(draft, part, end, other):
            draft.elements.append(Resistor(name, a, b, half))
            draft.default(name, f"{part.name}: wiper at the middle")


def _candohm(draft: Draft, part: Part) -> None:
    for number, said in enumerate(part.features.all_of(Dimension.RESISTANCE), 1):
        name, ohms = f"{part.name} {number} to {number + 1}", float(said.amount)
        for a, b in _ends(draft, part, str(number), str(number + 1)):
            draft.elements.append(Resistor(name, a, b, ohms, _tolerance(part)))


def _capacitor(draft: Draft, part: Part) -> None:
    polarised = part.kind.word != "capacitor"
    farads = first(part, Dimension.CAPACITANCE)
    if farads is None:
        draft.left_out.append(f"{part.name}: its microfarads are not said")
        return
    if farads < LEAST_FARADS and not polarised:
        draft.left_out.append("capacitors below 1 mfd that are not electrolytic")
        return
    ends = ("+", "-") if polarised else ("1", "2")
    rating = first(part, Dimension.VOLTAGE)
    _between(draft, part, *ends, lambda a, b: Capacitor(part.name, a, b, farads, polarised, rating))


def _choke(draft: Draft, part: Part) -> None:
    if part.features.windings:
        enter_windings(draft, part)
        return
    henries, ohms = first(part, Dimension.INDUCTANCE), first(part, Dimension.RESISTANCE)
    iron = part.kind.word == "choke"
    if henries is None and iron:
        draft.default(part.name, f"{part.name}: {CHOKE_HENRIES:g} H")
    if ohms is None:
        draft.default(part.name, f"{part.name}: {CHOKE_OHMS if iron else 1.0:g} ohm")
    if iron:
        draft.default(part.name, f"{part.name}: core loss as {CORE_OHMS / 1000:g} kilohm")
    resistance = ohms if ohms is not None else (CHOKE_OHMS if iron else 1.0)
    if iron:
        _between(
            draft,
            part,
            "1",
            "2",
            lambda a, b: Inductor(part.name, a, b, henries or CHOKE_HENRIES, resistance, CORE_OHMS),
        )
    else:
        _between(draft, part, "1", "2", lambda a, b: Resistor(part.name, a, b, resistance))


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
    positions = dict(part.features.positions)
    drawn = part.features.arguments.get("drawn")
    if not positions:
        groups: tuple[tuple[str, ...], ...] = (("1", "2"),)
    elif drawn in positions:
        groups = positions[drawn]
    else:
        draft.left_out.append(f"{part.name}: its position is not said, all its contacts are taken as open")
        groups = ()
    for group in groups:
        nets = [net for lug in group if (net := draft.end(part, lug)) is not None]
        draft.closed.extend(pairwise(nets))


def _cord(draft: Draft, part: Part) -> None:
    if draft.mains is None:
        draft.left_out.append(f"{part.name}: no `mains` statement, so nothing drives it")
        return
    volts, hertz = draft.mains
    plus, minus = draft.end(part, "1", "hot"), draft.end(part, "2", "neutral")
    if plus is None or minus is None:
        return
    draft.default(part.name, f"{part.name}: {MAINS_OHMS:g} ohm of the house wiring")
    draft.default_hertz(part.name)
    peak = volts * math.sqrt(2) if hertz else volts
    draft.elements.append(Source(part.name, plus, minus, peak, hertz, MAINS_OHMS))


def _battery(draft: Draft, part: Part) -> None:
    volts = first(part, Dimension.VOLTAGE)
    if volts is not None:
        draft.default(part.name, f"{part.name}: {BATTERY_OHMS:g} ohm; when fresh as much more as a high line")
        _between(draft, part, "+", "-", lambda a, b: Source(part.name, a, b, volts, 0.0, BATTERY_OHMS))


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
    words = part.features.words
    pairs = [("-", "+")]
    if "bridge" in words:
        pairs = [("-", "ac-1"), ("-", "ac-2"), ("ac-1", "+"), ("ac-2", "+")]
    elif any(terminal.name == "ac" for terminal in part.leads):
        pairs = [("-", "ac"), ("ac", "+")]  # two arms in series, whether they double or not
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


def _enter_draws(draft: Draft) -> None:
    circuit = draft.graph.circuit
    for said in circuit.loads:
        minus = circuit.net_of(said.to) if said.to else draft.reference
        draft.elements.append(
            Load(f"{STATED_LOAD}{said.point}", circuit.net_of(said.point), minus, float(said.value.amount))
        )
    for said in circuit.supplies:
        if said.value.dimension is Dimension.VOLTAGE and said.value.current is not Current.AC:
            minus = circuit.net_of(said.to) if said.to else draft.reference
            name = f"supply {said.point}"
            draft.elements.append(
                Source(name, circuit.net_of(said.point), minus, float(said.value.amount), 0.0, BATTERY_OHMS)
            )
            draft.default(name, f"{name}: {BATTERY_OHMS:g} ohm")
        else:
            draft.left_out.append(f"the supply at {said.point} from outside")


_PASSIVE = frozenset({"candohm", "coil", "cord", "fuse", "lamp", "resistor", "rheostat", "switch"})
_BY_WORD: Mapping[str, Enter] = {
    "battery": _battery, "candohm": _candohm, "capacitor": _capacitor, "choke": _choke, "coil": _choke, "cord": _cord,
    "diode": _diode, "electrolytic": _capacitor, "fuse": _fuse, "lamp": _lamp, "pot": _pot, "resistor": _resistor,
    "rheostat": _pot, "section": _capacitor, "selenium": _selenium, "speaker": _resistor, "switch": _switch,
    "transformer": enter_windings, "tube": enter_tube,
}  # fmt: skip
