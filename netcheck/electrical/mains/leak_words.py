"""A leak in words: what reaches which metal, through what, when, and what to do about it."""

from msgspec import Struct

from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.core.source import Place
from netcheck.electrical.mains.allowance import SMALL, is_kept_without, largest_kept
from netcheck.electrical.mains.bonds import bond_to_blame, parted_by
from netcheck.electrical.mains.leakage import Leak
from netcheck.electrical.mains.line import line_of
from netcheck.electrical.mains.off_the_line import is_off_the_line
from netcheck.engine.headline import HEADLINE
from netcheck.model.graph import CircuitGraph

__all__ = ["IF_ORIGINAL", "LeakWords", "leak_told", "milliamperes", "unlike_the_original"]

_SHARE = 0.1  # of the current, from which a part on the way is shown
_ON_THE_WAY = (Family.CORD, Family.FUSE, Family.SWITCH)

IF_ORIGINAL = " if the original has it"
"""In an order: one state by itself does not say how the set was made."""
_KEPT_JOINT = "leave the joint"


class LeakWords(Struct, frozen=True):
    """The pieces of a finding; ``subjects`` are what an `accept` names, the part that lets most through."""

    headline: str
    places: tuple[tuple[Place, str], ...]
    do: str
    why: str
    subjects: tuple[str, ...]


def leak_told(graph: CircuitGraph, leak: Leak) -> LeakWords:
    """The words for a leak that is over its limit, or for metal on the neutral."""
    cord = graph.circuit.parts[graph.point(graph.circuit.index[leak.side]).part]
    if leak.on_neutral and not leak.is_over:
        return _on_neutral(graph, leak, cord)
    if leak.is_joint:
        return _joint(graph, leak, cord)
    if leak.unsaid:
        return _unsaid(graph, leak)
    parts = graph.circuit.parts
    shown = [way for way in leak.ways if way.amperes >= _SHARE * leak.amperes] or list(leak.ways[:1])
    names = [_named(parts[way.part]) for way in shown]
    subject = shown[0].part
    places = tuple((parts[way.part].place, milliamperes(way.amperes)) for way in shown[:3])
    return LeakWords(
        _headline(f"{milliamperes(leak.amperes)} of line current reaches {_metal(leak)}", names),
        places,
        f"{_remedy(graph, leak, [parts[way.part] for way in shown])}, or {_accept(subject)}",
        f"the limit is {milliamperes(leak.limit)}{_when(leak)}{_kinds(leak)}; {_assumed(graph)}",
        (subject,),
    )


def _unsaid(graph: CircuitGraph, leak: Leak) -> LeakWords:
    """Parts whose missing values may let the line through: which word to add, and nothing computed."""
    parts = graph.circuit.parts
    words = " and ".join(dict.fromkeys(word for _, word in leak.unsaid))
    names = [name for name, _ in leak.unsaid]
    return LeakWords(
        _headline(f"line current may reach {_metal(leak)}", names),
        tuple((parts[name].place, f"{word} not stated") for name, word in leak.unsaid[:3]),
        f"add the {words} of {_listed(names[:3], last=len(names) <= 3)}",
        f"the limit is {milliamperes(leak.limit)}; whether it is kept depends on a value that is missing{_when(leak)}",
        tuple(names),
    )


def _joint(graph: CircuitGraph, leak: Leak, cord: Part) -> LeakWords:
    metal = graph.circuit.index[leak.metal]
    inlets = [at for at in graph.leads_on(leak.net) if _is_on_the_way(graph, at) and at != metal]
    first = graph.circuit.index[leak.side]
    bond = bond_to_blame(graph, metal, [*inlets, first])
    joins = (bond,) if bond is not None else graph.cheapest_cut(inlets, [metal]) if inlets else ()
    places = tuple((join.place, "joined here") for join in joins[:3]) or ((graph.said_at(first), "this side"),)
    return LeakWords(
        f"{_metal(leak)} is joined to one side of the line ({leak.side})",
        places,
        _undone(graph, leak, cord, parted_by(graph, bond) if bond is not None else "undo that joint"),
        f"whoever touches it and anything earthed gets the full line voltage{_when(leak)}",
        (cord.name,),
    )


def _on_neutral(graph: CircuitGraph, leak: Leak, cord: Part) -> LeakWords:
    line = line_of(graph)
    side = cord.name if line is None else graph.point(line.sides[1].lead).name
    return LeakWords(
        f"{_metal(leak)} is on the neutral of the line ({side})",
        ((graph.said_at(graph.circuit.index[side]) if side in graph.circuit.index else cord.place, "the neutral"),),
        f"keep it apart from the line, or {_accept(cord.name)}",
        "an outlet wired the wrong way round, or an adapter without the wide slot, makes it hot",
        (cord.name,),
    )


def _accept(subject: str) -> str:
    return f'accept it: `accept hot-chassis {subject} "why"`'


def _undone(graph: CircuitGraph, leak: Leak, cord: Part, order: str) -> str:
    """What to do about metal that is joined to the line; a supply that returns through it would float without."""
    if leak.metal == graph.circuit.common and is_off_the_line(graph):
        return (
            f"{_KEPT_JOINT}{IF_ORIGINAL}, it is the return of the supply: fit a polarized cord with the "
            f"neutral on this side, and {_accept(cord.name)}"
        )
    return f"{order}, or {_accept(cord.name)}"


def unlike_the_original(order: str) -> str:
    """The order where the original has neither the joint nor the resistor that one state by itself would have left."""
    kept, doubt, rest = order.partition(IF_ORIGINAL)
    if not doubt:
        return order
    if kept == _KEPT_JOINT:
        accept = rest.rpartition(" and ")[2]
        return f"undo that joint: in the original the supply returns apart from the chassis; or {accept}"
    return f"{_take_out(kept)}, the original does not have {'it' if kept.endswith(' it') else 'them'}{rest}"


def _take_out(kept: str) -> str:
    before, _, them = kept.rpartition("leave ")
    return f"{before}take {them} out"


def _remedy(graph: CircuitGraph, leak: Leak, ways: list[Part]) -> str:
    """What to change: a capacitor to a value that keeps the limit; a resistor to the chassis drains it and stays."""
    capacitor = next((part for part in ways if part.kind.family is Family.CAPACITOR), None)
    if capacitor is None:
        return f"find out why {ways[0].name} leads there, and undo that"
    size = largest_kept(graph, capacitor, leak.metal)
    if size:
        return f"fit a Y2 of {size} or less for {capacitor.name}, or leave {capacitor.name} out"
    if is_kept_without(graph, capacitor, leak.metal):
        return f"leave {capacitor.name} out"
    others = [part.name for part in ways if part is not capacitor]
    them = "them" if len(others) > 1 else "it"
    alone = f"{_listed(others, last=True)} alone {'pass' if len(others) > 1 else 'passes'} more than the limit"
    return f"fit a Y2 of {SMALL} or less for {capacitor.name}; {alone}: leave {them}{IF_ORIGINAL}"


def milliamperes(amperes: float) -> str:
    """A current as the bench reads it, two figures: `0.72 mA`, `45 mA`, `890 mA`, `1.2 A`."""
    amount, unit = (amperes, "A") if amperes >= 1 else (amperes * 1000, "mA")
    rounded = float(f"{amount:.2g}")
    return f"{rounded:.0f} {unit}" if rounded >= 10 else f"{rounded:g} {unit}"


def _headline(start: str, names: list[str]) -> str:
    """The start and as many names as a headline holds; the others are counted."""
    for count in range(len(names), 0, -1):
        rest = len(names) - count
        more = f" and {rest} more" if rest else ""
        text = f"{start} through {_listed(names[:count], last=not rest)}{more}"
        if len(text) <= HEADLINE:
            return text
    return start


def _listed(names: list[str], *, last: bool) -> str:
    if last and len(names) > 1:
        return f"{', '.join(names[:-1])} and {names[-1]}"
    return ", ".join(names)


def _named(part: Part) -> str:
    principal = part.kind.principal
    said = part.features.first(principal) if principal is not None else None
    return f"{part.name} ({' '.join(said.written.split())})" if said else part.name


def _metal(leak: Leak) -> str:
    return "the chassis" if leak.metal == "chassis" else f"{leak.metal} (exposed)"


def _when(leak: Leak) -> str:
    """The worst case: which way the plug is, how a switch stands."""
    return f"; the worst case is with {leak.side} hot{f' and {leak.switched}' if leak.switched else ''}"


def _kinds(leak: Leak) -> str:
    """What of the current is direct, and what was not tried."""
    direct = f"; {milliamperes(leak.direct)} of it is direct current" if leak.direct > _SHARE * leak.amperes else ""
    tried = (
        ""
        if leak.complete
        else "; the switches have more settings than were tried; those a move or two away came first"
    )
    return direct + tried


def _assumed(graph: CircuitGraph) -> str:
    if graph.circuit.mains:
        return f"calculated for {' '.join(q.written for q in graph.circuit.mains)}"
    return "calculated for 120 V 60 Hz, since the file has no `mains` line"


def _is_on_the_way(graph: CircuitGraph, at: int) -> bool:
    part = graph.part_of(at)
    return part is not None and part.kind.family in _ON_THE_WAY
