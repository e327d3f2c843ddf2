"""A leak in words: what reaches which metal, through what, and when; what to do about it is in ``leak_orders``."""

from msgspec import Struct

from netcheck.core.circuit import Part
from netcheck.core.source import Place
from netcheck.electrical.mains.leak_orders import bond_of, enumerated, inlets_of, shown_ways
from netcheck.electrical.mains.leakage import Leak
from netcheck.electrical.mains.line import line_of
from netcheck.engine.headline import HEADLINE
from netcheck.model.graph import CircuitGraph

__all__ = ["LeakWords", "leak_told", "milliamperes"]

_DIRECT = 0.1  # of the current, from which it is said that it is direct current


class LeakWords(Struct, frozen=True):
    """The pieces of a finding; ``subjects`` are what an `accept` names, the part that lets most through."""

    headline: str
    places: tuple[tuple[Place, str], ...]
    why: str
    subjects: tuple[str, ...]


def leak_told(graph: CircuitGraph, leak: Leak) -> LeakWords:
    """The words for a leak that is over its limit, or for metal on the neutral."""
    cord = graph.circuit.parts[graph.point(graph.circuit.index[leak.side]).part]
    if leak.on_neutral:
        return _on_neutral(graph, leak, cord)
    if leak.is_joint:
        return _joint(graph, leak, cord)
    if leak.unsaid:
        return _unsaid(graph, leak)
    parts = graph.circuit.parts
    shown = shown_ways(leak)
    names = [_named(parts[way.part]) for way in shown]
    places = tuple((parts[way.part].place, milliamperes(way.amperes)) for way in shown[:3])
    return LeakWords(
        _headline(f"{milliamperes(leak.amperes)} of line current reaches {_metal(leak)}", names),
        places,
        f"the limit is {milliamperes(leak.limit)}{_when(leak)}{_kinds(leak)}; {_assumed(graph)}",
        (shown[0].part,),
    )


def _unsaid(graph: CircuitGraph, leak: Leak) -> LeakWords:
    """Parts whose missing values may let the line through: which word to add, and nothing computed."""
    parts = graph.circuit.parts
    names = [name for name, _ in leak.unsaid]
    return LeakWords(
        _headline(f"line current may reach {_metal(leak)}", names),
        tuple((parts[name].place, f"{word} not stated") for name, word in leak.unsaid[:3]),
        f"the limit is {milliamperes(leak.limit)}; whether it is kept depends on a value that is missing{_when(leak)}",
        tuple(names),
    )


def _joint(graph: CircuitGraph, leak: Leak, cord: Part) -> LeakWords:
    metal, first = (graph.circuit.index[name] for name in (leak.metal, leak.side))
    bond, inlets = bond_of(graph, leak), inlets_of(graph, leak)
    joins = (bond,) if bond is not None else graph.cheapest_cut(inlets, [metal]) if inlets else ()
    places = tuple((join.place, "joined here") for join in joins[:3]) or ((graph.said_at(first), "this side"),)
    return LeakWords(
        f"{_metal(leak)} is joined to one side of the line ({leak.side})",
        places,
        f"whoever touches it and anything earthed gets the full line voltage{_when(leak)}",
        (cord.name,),
    )


def _on_neutral(graph: CircuitGraph, leak: Leak, cord: Part) -> LeakWords:
    line = line_of(graph)
    side = cord.name if line is None else graph.point(line.sides[1].lead).name
    return LeakWords(
        f"{_metal(leak)} is on the neutral of the line ({side})",
        ((graph.said_at(graph.circuit.index[side]) if side in graph.circuit.index else cord.place, "the neutral"),),
        "an outlet wired the wrong way round, or an adapter without the wide slot, makes it hot",
        (cord.name,),
    )


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
        text = f"{start} through {enumerated(names[:count], last=not rest)}{more}"
        if len(text) <= HEADLINE:
            return text
    return start


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
    direct = f"; {milliamperes(leak.direct)} of it is direct current" if leak.direct > _DIRECT * leak.amperes else ""
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
