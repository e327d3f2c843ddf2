"""Is there a supply, and where are the ends of its parts? What most files can be told without the engines."""

from typing import TYPE_CHECKING

from msgspec import Struct

from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.core.wording import listed
from netcheck.model.graph import CircuitGraph
from netcheck.model.points import lead_name

if TYPE_CHECKING:
    from netcheck.electrical.network.draft import Translation

__all__ = ["Poles", "as_taken", "has_supply", "is_driven", "not_calculated", "poles", "standing", "translated"]

MOST_NAMES = 5  # in a closing line
_MAKES_DIRECT = (Family.BATTERY, Family.RECTIFIER)


class Poles(Struct, frozen=True):
    """The plus and minus lead of a part: their names, points, and what the nets are called."""

    plus: str
    minus: str
    plus_at: int
    minus_at: int
    plus_net: str
    minus_net: str


def translated(graph: CircuitGraph) -> "Translation":
    """The supply of a state, translated once."""
    from netcheck.electrical.network.translate import network_of

    return graph.once(network_of)


def has_supply(graph: CircuitGraph) -> bool:
    """Whether anything makes direct current here. Most files without need no translation to tell."""
    return graph.once(_may_have_one) and bool(translated(graph).network.elements)


def _may_have_one(graph: CircuitGraph) -> bool:
    parts = graph.circuit.parts.values()
    return bool(graph.circuit.supplies) or any(map(_could_rectify, parts)) or any(map(_alternates, parts))


def _could_rectify(part: Part) -> bool:
    """Whether direct current could come from a part; a tube with a grid rectifies only where it hangs on a winding."""
    if part.kind.family is Family.TUBE:
        return not any(terminal.electrode.startswith("grid") for terminal in part.leads)
    return part.kind.family in _MAKES_DIRECT


def _alternates(part: Part) -> bool:
    """Whether alternating current comes from a part."""
    return part.kind.family in (Family.CORD, Family.TRANSFORMER)


def not_calculated(graph: CircuitGraph) -> tuple[str, ...]:
    """The closing lines that say which values are missing for figures, and what was therefore not looked at."""
    if not has_supply(graph):
        return _too_large(graph) or _out_of_reach(graph)
    missing = tuple(dict.fromkeys(gap.say for gap in translated(graph).gaps))
    if not missing:
        return *_in_other_positions(graph), *_out_of_reach(graph)
    return (
        f"NOT CALCULATED: volts, ratings, heat and discharge that rest on what is not stated; {'; '.join(missing)}",
        *_out_of_reach(graph),
    )


def _in_other_positions(graph: CircuitGraph) -> tuple[str, ...]:
    """Says that figures are those of one position of a switch whose position is not stated."""
    taken = as_taken(graph)
    if not taken:
        return ()
    said = f"with switches otherwise than {listed(taken, MOST_NAMES)}; write in which position each is `drawn`"
    return (f"NOT CALCULATED: volts, ratings, heat and discharge {said}",)


def as_taken(graph: CircuitGraph) -> tuple[str, ...]:
    """How the supply's switches are taken to stand whose position is not stated: each in its first one."""
    return tuple(standing(name, at[0]) for name, at in translated(graph).unsaid.items() if len(at) > 1)


def standing(switch: str, at: str) -> str:
    """``S1 at up``, ``S2 closed``."""
    return f"{switch} {at if at in ('open', 'closed') else f'at {at}'}"


def _out_of_reach(graph: CircuitGraph) -> tuple[str, ...]:
    """Says which electrolytics of a set on the line have no verdict, as nothing that rectifies leads to them."""
    if not (graph.circuit.mains or graph.circuit.has(Family.CORD)):
        return ()
    parts = [part for part in graph.circuit.parts.values() if part.kind.family is Family.ELECTROLYTIC]
    reached = {one.name for one in translated(graph).network.elements} if parts else set()
    names = listed([part.name for part in parts if part.name not in reached], MOST_NAMES)
    return (f"NOT CALCULATED: polarity and volts of {names}: nothing that makes DC leads there",) if names else ()


def _too_large(graph: CircuitGraph) -> tuple[str, ...]:
    said = translated(graph).too_large if graph.once(_may_have_one) else ""
    return (f"NOT CALCULATED: volts, polarity, ratings, heat and discharge; {said}",) if said else ()


def is_driven(graph: CircuitGraph) -> bool:
    """Whether there are volts to compute: a supply, and what drives it."""
    if not has_supply(graph):  # then nothing was translated, and nothing need be imported
        return False
    from netcheck.electrical.network.elements import VoltageSource

    return any(isinstance(one, VoltageSource) for one in translated(graph).network.elements)


def poles(graph: CircuitGraph, name: str) -> Poles:
    """Where the two ends of a polarised part are."""
    part = graph.circuit.parts[name]
    plus, minus = (lead_name(part, end) for end in part.polarity or ())
    plus_at, minus_at = graph.circuit.index[plus], graph.circuit.index[minus]
    nets = [graph.net_names.get(graph.circuit.nets[at], "") for at in (plus_at, minus_at)]
    return Poles(plus, minus, plus_at, minus_at, *nets)
