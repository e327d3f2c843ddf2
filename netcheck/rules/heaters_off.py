"""A heater gets far more, or far less, than it is made for.

Across a winding a heater gets what the winding makes: a tube for 6.3 V on a winding of 12.6 V lasts minutes. A pilot
lamp there is told (LOOK) only where it gets over 25 % too much.

In a series string every heater carries the same current; take one out, bridge the dropping resistor, or put in a tube
of another heater, and the others get too much or too little. Tube makers allow 10 %. More than that is LOOK; over 25 %
too much, in a planned or rewired state, is STOP: the heaters burn out one after the other. Where silicon replaces the
rectifier tube, a resistor has to take its heater's place: it drops the heater's volts at the string's current. A tube
whose heater is made for another current does not belong in the string: put a resistor across it, or fit the right type.

Wrong:

    mains 117 V 60 Hz
    cord P1
    tube V1 50L6GT
    tube V2 12SQ7
    resistor R1 130 ohm 10 W
    net line: P1.1, R1.1
    net h1: R1.2, V1.2
    net h2: V1.7, V2.7
    net back: P1.2, V2.8

Right:

    start from "wrong.netck"
    change R1 360 ohm 20 W

Source: heaters within 10 % of their rated volts: tube makers' installation notes, from memory; volts are computed.
"""

from collections.abc import Collection, Iterator
from itertools import islice
from typing import TYPE_CHECKING

from msgspec.structs import replace

from netcheck.core.circuit import StateOfWork
from netcheck.core.diagnostic import About, Grade, Label, Touched
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension
from netcheck.core.wording import listed
from netcheck.engine.rule import Finding, Rule
from netcheck.model.graph import CircuitGraph

if TYPE_CHECKING:
    from netcheck.electrical.table.heaters import HeaterString

ALLOWED = 0.1  # of its volts, more or less
BURNS = 1.25  # times its volts: over half as much heat again


def _check(graph: CircuitGraph) -> Iterator[Finding]:
    if graph.circuit.has(Family.TRANSFORMER):
        yield from _on_windings(graph)
    if graph.circuit.has(Family.CORD):
        yield from _in_strings(graph)


def _on_windings(graph: CircuitGraph) -> Iterator[Finding]:
    from netcheck.electrical.on_windings import warmed

    off = [one for one in warmed(graph) if one.share > BURNS or (one.is_heater and abs(one.share - 1) > ALLOWED)]
    alike = dict.fromkeys((one.winding, one.volts, one.rated, one.is_heater) for one in off)
    for winding, volts, rated, is_heater in alike:
        parts = [one.part for one in off if (one.winding, one.rated, one.is_heater) == (winding, rated, is_heater)]
        names = [part.name for part in parts]
        whose = f"the heater{'s' * (len(names) > 1)} of {listed(names, 3)}" if is_heater else listed(names, 3)
        yield Finding(
            f"{whose} {'gets' if len(names) == 1 else 'get'} {volts:g} V; made for {rated:g} V",
            tuple(Label(part.place) for part in parts[:1]),
            do=f"check the type of {listed(names, 3)}, the volts of {winding}, and the leads to it",
            why=f"it is across the winding {winding}, which makes {volts:g} V",
            touched=Touched(parts=tuple(names)),
            grade=_grade(graph, volts / rated) if is_heater else Grade.LOOK,
        )


def _in_strings(graph: CircuitGraph) -> Iterator[Finding]:
    from netcheck.electrical.table.heaters import heaters

    told = set[str]()
    for string in graph.once(heaters).strings:
        if string.is_wrong:
            worst = string.worst
            told.update(row.tube for row in string.heaters)
            rest = ", ".join(f"{row.tube} {row.volts:.1f} V" for row in string.heaters if row is not worst)
            why = f"calculated (series string on {string.cord}): {rest or 'no other'}"
            found = _finding(graph, worst.tube, (worst.volts, worst.rated_volts), why)
            yield _of_two_currents(string, found) if string.of_other_current else _of_a_stand_in(graph, found)
    yield from _burning(graph, told)


def _of_two_currents(string: "HeaterString", found: Finding) -> Finding:
    """The finding with its cause: a heater in the string that is made for another current."""
    others = [row.tube for row in string.of_other_current]
    currents = sorted({row.rated_amperes for row in string.of_other_current})
    made = f"made for {' and '.join(f'{one * 1000:.0f} mA' for one in currents)}, "
    made += f"the rest of the string for {string.amperes * 1000:.0f} mA"
    return replace(
        found,
        do=f"check the type of {listed(others, 3)}; a heater that needs less than the string carries has a resistor"
        " across it for the rest",
        why=f"the heater{'s' * (len(others) > 1)} of {listed(others, 3)} {'are' if len(others) > 1 else 'is'} {made}, "
        f"and in series all carry the same current; {found.why}",
    )


def _of_a_stand_in(graph: CircuitGraph, found: Finding) -> Finding:
    """The finding with its cause: a resistor for the heater of a tube that went out, which is not its size."""
    from netcheck.electrical.tube_data import heater_of

    for part in graph.circuit.parts.values():
        stated = part.features.first(Dimension.RESISTANCE)
        for name, electrodes in part.electrodes.items() if stated is not None else ():
            heater = heater_of(graph.circuit.gone[name].features.type) if name in graph.circuit.gone else None
            if heater is None or stated is None or not any(word.startswith("heater") for word in electrodes):
                continue
            ohms = heater.volts / heater.amperes
            if abs(float(stated.amount) / ohms - 1) > 2 * ALLOWED:
                return replace(
                    found,
                    labels=(Label(part.place, stated.written), *found.labels),
                    do=f"fit {ohms:.0f} ohm for {part.name}, or the next value made",
                    why=f"{part.name} stands for the heater of {name}, {heater.volts:g} V at "
                    f"{heater.amperes * 1000:.0f} mA, which is {ohms:.0f} ohm; {found.why}",
                    touched=Touched(parts=(*found.touched.parts, part.name)),
                )
    return found


def _burning(graph: CircuitGraph, told: Collection[str]) -> Iterator[Finding]:
    """Heaters that get far too much, on a winding or past the rest of a string."""
    from netcheck.electrical.table.whole import whole

    found = graph.once(whole)
    if found is None:
        return
    burning = ((one, share) for one in found.sockets if one.tube not in told and (share := found.share(one)) > BURNS)
    for socket, share in islice(burning, 1):  # the others are fed from the same place
        why = "calculated (running, as it is wired): so much burns a heater out"
        yield _finding(graph, socket.tube, (share * socket.volts, socket.volts), why)


def _finding(graph: CircuitGraph, tube: str, volts: tuple[float, float], why: str) -> Finding:
    seen, rated = volts
    return Finding(
        f"the heater of {tube} gets {seen:.1f} V; it is made for {rated:g} V",
        (Label(graph.circuit.parts[tube].place),),
        do="look for a heater or a resistor missing in the string, bridged, or of another value"
        if seen > rated
        else "look for a resistor too many in the string, or of another value",
        why=why,
        touched=Touched(parts=(tube,)),
        grade=_grade(graph, seen / rated),
    )


def _grade(graph: CircuitGraph, share: float) -> Grade:
    """How grave it is that a heater gets so much of its volts: a set is never STOP for how it was built."""
    built = graph.circuit.state in (StateOfWork.DRAWN, StateOfWork.FOUND)
    return Grade.STOP if share > BURNS and not built else Grade.LOOK


RULE = Rule("heaters-off", Grade.STOP, _check, __doc__, About.ITSELF)
