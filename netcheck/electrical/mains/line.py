"""The line under the chassis: the cord, what each of its wires is one with, the fuses on the way, what is touched."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import chain

from msgspec import Struct

from netcheck.core.circuit import Circuit, Part, StateOfWork
from netcheck.core.groups import reached
from netcheck.core.kind import Family
from netcheck.core.quantity import Current, Dimension, first_of
from netcheck.model.graph import CircuitGraph
from netcheck.model.points import lead_name

__all__ = [
    "USUAL_HERTZ", "MainsInlet", "Side", "closed", "contacts", "ends", "hertz_of", "is_work", "line_of", "mains_of",
    "net_at", "touched_metal",
]  # fmt: skip

Pairs = Mapping[int, tuple[int, ...]]

USUAL_HERTZ = 60.0
_SHELLS = ("frame", "can", "lug")


class Side(Struct, frozen=True):
    """One wire of the line: its lead of the cord, and the nets that are one conductor with it.

    ``nets`` are reached through contacts in any position, fuses and line chokes; ``before`` are those of them that no
    fuse stands before; ``fuses`` are the fuses that ``before`` ends at.
    """

    lead: int
    nets: frozenset[int]
    before: frozenset[int]
    fuses: tuple[Part, ...]


class MainsInlet(Struct, frozen=True):
    """The cord and its two sides, the hot one first where the plug tells them apart; ``earth`` is a net."""

    cord: Part
    sides: tuple[Side, Side]
    alike: bool
    earth: int | None


def is_work(circuit: Circuit) -> bool:
    """Whether a state is what hands make, and not what a drawing or an earlier hand left."""
    return circuit.state in (StateOfWork.PLANNED, StateOfWork.REWIRED)


def line_of(graph: CircuitGraph) -> MainsInlet | None:
    """The line of a circuit's first cord; None without a cord, or where both its wires are on one net."""
    return graph.once(_line_of)


def _line_of(graph: CircuitGraph) -> MainsInlet | None:
    cord = next((p for p in graph.circuit.parts.values() if p.kind.family is Family.CORD), None)
    if cord is None:
        return None
    index, nets = graph.circuit.index, graph.circuit.nets
    one, other, *rest = (index[lead_name(cord, terminal.name)] for terminal in cord.leads)
    if nets[one] == nets[other]:
        return None
    earth = next((nets[at] for at in rest if not graph.is_bare(at)), None)
    alike = cord.leads[0].name == "1"
    return MainsInlet(cord, (_side(graph, one), _side(graph, other)), alike, earth)


def mains_of(circuit: Circuit) -> tuple[float, float] | None:
    """Effective volts and hertz (0 where direct) of the mains as declared; None where no volts are."""
    volts = first_of(circuit.mains, Dimension.VOLTAGE)
    if volts is None:
        return None
    return float(volts.amount), 0.0 if volts.current is Current.DC else hertz_of(circuit)


def hertz_of(circuit: Circuit) -> float:
    """The mains' frequency as declared, else the usual one."""
    said = first_of(circuit.mains, Dimension.FREQUENCY)
    return USUAL_HERTZ if said is None else float(said.amount)


def touched_metal(graph: CircuitGraph) -> dict[int, str]:
    """The nets that a hand can touch: the chassis, then every part that is declared ``exposed``."""
    circuit = graph.circuit
    found = {circuit.nets[0]: "chassis"}
    for part in circuit.parts.values():
        for terminal in _exposed(part):
            name = lead_name(part, terminal)
            found.setdefault(circuit.net_of(name), name)
    return found


def _exposed(part: Part) -> Iterator[str]:
    """The terminals of a part that are bare metal to the outside."""
    names = {t.name for t in part.shape.terminals} if part.shape else set()
    said = [one for one in part.features.arguments.get("exposed", "").split() if one in names]
    if said:
        yield from said
    elif "exposed" in part.features.words:
        yield from (name for name in _SHELLS if name in names)


def net_at(graph: CircuitGraph, part: Part, *names: str) -> int | None:
    """The net of a part's terminal by the first of some names or electrodes that it has."""
    for name in names:
        for terminal in part.shape.terminals if part.shape else ():
            if name in (terminal.name, terminal.electrode):
                return graph.circuit.net_of(lead_name(part, terminal.name))
    return None


def contacts(part: Part) -> tuple[tuple[str, tuple[tuple[str, ...], ...]], ...]:
    """A switch's positions with the lugs closed in each; ``open`` is one where fewer than two are named."""
    positions = part.features.positions or (("closed", (("1", "2"),)),)
    return positions if len(positions) > 1 else (*positions, ("open", ()))


def closed(graph: CircuitGraph, part: Part, groups: Iterable[tuple[str, ...]]) -> Iterator[tuple[int, int]]:
    """The pairs of nets that a switch makes one where it closes these groups of lugs."""
    for group in groups:
        nets = [net for lug in group if (net := net_at(graph, part, lug)) is not None]
        yield from ((nets[0], net) for net in nets[1:])


def ends(graph: CircuitGraph, part: Part) -> Iterator[tuple[int, int]]:
    """The two nets of a part with the leads 1 and 2."""
    a, b = net_at(graph, part, "1"), net_at(graph, part, "2")
    if a is not None and b is not None:
        yield a, b


def _side(graph: CircuitGraph, lead: int) -> Side:
    start = graph.circuit.nets[lead]
    parts = graph.circuit.parts.values()
    switched = _links(graph, (part for part in parts if part.kind.family is Family.SWITCH), _by_contacts)
    fuses = [part for part in parts if part.kind.family is Family.FUSE]
    fused = _links(graph, fuses, ends)
    coils = _links(graph, (part for part in parts if _is_line_choke(part)), ends)
    # The nets of a set hang on its common by many a coil; that makes none of them a wire of the line.
    common = {graph.circuit.nets[0], graph.circuit.nets[graph.circuit.index.get(graph.circuit.common, 0)]}
    before = reached(start, lambda net: switched.get(net, ()))
    coils = {net: others for net, others in coils.items() if net not in common}
    nets = reached(start, lambda net: chain(*(links.get(net, ()) for links in (switched, fused, coils))))
    # A fuse that is bridged has both its ends there, and protects nothing.
    mine = tuple(part for part in fuses if any((a in before) is not (b in before) for a, b in ends(graph, part)))
    return Side(lead, nets, before, mine)


def _is_line_choke(part: Part) -> bool:
    if part.kind.family is not Family.INDUCTOR or part.features.windings:
        return False
    henries = part.features.first(Dimension.INDUCTANCE)
    return henries is None or float(henries.amount) < _SMOOTHING


_SMOOTHING = (
    0.1  # henries from which a choke smooths or is a field coil; one against interference has a few millihenries
)


def _links(
    graph: CircuitGraph, parts: Iterable[Part], pairs: Callable[[CircuitGraph, Part], Iterator[tuple[int, int]]]
) -> Pairs:
    found: dict[int, tuple[int, ...]] = {}
    for part in parts:
        for a, b in pairs(graph, part):
            found[a] = (*found.get(a, ()), b)
            found[b] = (*found.get(b, ()), a)
    return found


def _by_contacts(graph: CircuitGraph, part: Part) -> Iterator[tuple[int, int]]:
    for _, groups in contacts(part):
        yield from closed(graph, part, groups)
