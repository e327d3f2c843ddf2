"""A group that lost its net, in words: what hangs where, why, and which joint to make."""

from msgspec.structs import replace

from netcheck.compare.faults.inserted import inserted_parts
from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import fitting, here, labels, listed, touched
from netcheck.compare.words.orders import ordered
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import Label
from netcheck.core.difference import Split
from netcheck.core.kind import Seat, Terminal
from netcheck.engine.rule import Finding

__all__ = ["parted"]


def parted(pair: Pair, fault: Split, shown: str, why: str = "") -> Finding:
    """The finding for leads that left a net and came to no other."""
    cause, word = _cause(pair, fault)
    twins, beside_it = _side_by_side(pair, fault)
    found = touched(pair, fault.leads, fault.old_net)
    places = labels(pair, fault.leads)
    if cause is not None:
        places = (Label(cause.place, "insulated here"), *(p for p in places if p.place != cause.place))
    return Finding(
        fitting(*_ways(pair, fault, shown)),
        (*places, *_taken_off(pair, fault)),
        do=_instruction(pair, fault),
        mends=fault.mends,
        why="; ".join(reason for reason in (word, twins, why) if reason),
        touched=replace(found, leads=(*found.leads, *beside_it)),
    )


def _ways(pair: Pair, fault: Split, shown: str) -> tuple[str, ...]:
    names = [lead.name for lead in fault.leads]
    place = here(pair, fault.leads[0])
    if len(names) > 1:
        return (
            f"{place} with {listed(names, len(names))} is not connected to {shown}"
            if place
            else f"{listed(names)} are no longer on {shown}",
            f"{place} with {listed(names)} is not connected to {shown}"
            if place
            else f"{listed(names)} are no longer on {shown}",
            f"{listed(names)} are no longer on {shown}",
            f"{listed(names, 2)} are no longer on {shown}",
        )
    if len(pair.as_shown.leads_on(fault.new_net)) > 1:
        off = f"{names[0]} is no longer on {shown}"
        joined = f"{place} with {names[0]} is not connected to {shown}" if place else off
        return (joined, off)
    if place:
        return (f"{names[0]} is alone on {place}; it belongs on {shown}", f"{names[0]} is no longer on {shown}")
    return (f"{names[0]} hangs free; it belongs on {shown}", f"{names[0]} hangs free")


def _instruction(pair: Pair, fault: Split) -> str:
    added = _added_between(pair, fault)
    order = ordered(pair, fault)
    return f"{added} is in series here: write `inserted` instead of `added`; or {order}" if added else order


def _added_between(pair: Pair, fault: Split) -> str:
    """The part declared as added that stands just where the joint is missing."""
    graph = pair.as_shown
    for part in graph.circuit.parts.values():
        nets = {graph.circuit.nets[at] for at in graph.terminals(part)}
        if part.added is not None and nets == {fault.home, fault.new_net}:
            return part.name
    return ""


def _side_by_side(pair: Pair, fault: Split) -> tuple[str, tuple[str, ...]]:
    """Two parts inserted across the same two nets, where one may belong to what hangs free; and their leads there."""
    real, home = pair.real, pair.real.circuit.nets[fault.rest[0].new] if fault.rest else -1
    across: dict[frozenset[int], list[Part]] = {}
    for part in inserted_parts(real, pair.original.circuit):
        nets = frozenset(real.circuit.nets[at] for at in real.terminals(part))
        if home in nets and len(nets) > 1:
            across.setdefault(nets, []).append(part)
    for nets, parts in across.items():
        if len(parts) > 1:
            ends = [at for part in parts for at in real.terminals(part) if real.circuit.nets[at] in nets - {home}]
            names = tuple(real.point(at).name for at in ends)
            return f"{listed([p.name for p in parts])} are inserted side by side, and one may belong here", names
    return "", ()


def _taken_off(pair: Pair, fault: Split) -> tuple[Label, ...]:
    """The line that lifted the lead, where one did and it is not the main place already."""
    names = {lead.name for lead in fault.leads}
    shown = {pair.real.said_at(lead.new).line for lead in fault.leads}
    found = [t for t in pair.real.circuit.taken if t.point in names and t.place.line not in shown]
    return (Label(found[-1].place, "taken off here"),) if found else ()


def _cause(pair: Pair, fault: Split) -> tuple[Part | None, str]:
    """Why a return floats: the foot, can or lug that it is on has no bond to the chassis."""
    graph = pair.as_shown
    for at in graph.members[fault.new_net] if fault.home == graph.circuit.nets[0] else ():
        part, terminal = graph.part_of(at), graph.point(at).terminal
        word = _insulation(part, terminal) if part is not None and terminal is not None else ""
        if word:
            return part, word
    return None, ""


def _insulation(part: Part, mounting: Terminal) -> str:
    """How a part is kept off the chassis by which it would ground what is on its mounting."""
    if "insulated" not in part.features.words:
        return ""
    if part.kind.seat is Seat.STRIP:
        return f"the foot of {part.name} is insulated" if "foot" in mounting.aliases else ""
    if part.kind.seat is Seat.CAN:
        return f"the can {part.name} sits on an insulating wafer" if mounting.name == "can" else ""
    return f"the lug {part.name} is insulated" if part.kind.seat is Seat.LUG else ""
