"""What to do about a leak, by what is known of the original in that place."""

from enum import Enum

from netcheck.core.circuit import Join, Part
from netcheck.core.kind import Family
from netcheck.electrical.mains.allowance import SMALL, is_kept_without, largest_kept
from netcheck.electrical.mains.bonds import bond_to_blame, parted_by
from netcheck.electrical.mains.leakage import Leak, Share
from netcheck.electrical.mains.off_the_line import is_off_the_line
from netcheck.model.graph import CircuitGraph

__all__ = ["InOriginal", "bond_of", "enumerated", "inlets_of", "leak_order", "shown_ways"]

_SHARE = 0.1  # of the current, from which a part on the way is shown
_ON_THE_WAY = (Family.CORD, Family.FUSE, Family.SWITCH)


class InOriginal(Enum):
    """Whether the original has the joint, or the resistor, that one state by itself would leave.

    It is unknown to one state by itself, and where the original is drawn without its cord.
    """

    UNKNOWN = "unknown"
    THERE = "there"
    ABSENT = "absent"


def leak_order(graph: CircuitGraph, leak: Leak, original: InOriginal = InOriginal.UNKNOWN) -> str:
    """What to do about a leak that is over its limit, or about metal on the neutral."""
    cord = graph.circuit.parts[graph.point(graph.circuit.index[leak.side]).part].name
    if leak.on_neutral:
        return f"keep it apart from the line, or {_accept(cord)}"
    if leak.is_joint:
        return f"{_parted(graph, leak, original)}{_accept(cord)}"
    if leak.unsaid:
        words = " and ".join(dict.fromkeys(word for _, word in leak.unsaid))
        names = [name for name, _ in leak.unsaid]
        return f"add the {words} of {enumerated(names[:3], last=len(names) <= 3)}"
    shown = shown_ways(leak)
    ways = [graph.circuit.parts[way.part] for way in shown]
    return f"{_lessened(graph, leak, ways, original)}, or {_accept(shown[0].part)}"


def shown_ways(leak: Leak) -> list[Share]:
    """The parts that let through enough to be named, the one that lets most through first."""
    return [way for way in leak.ways if way.amperes >= _SHARE * leak.amperes] or list(leak.ways[:1])


def inlets_of(graph: CircuitGraph, leak: Leak) -> list[int]:
    """The leads of cord, fuse and switches that are on the same net as the metal."""
    metal = graph.circuit.index[leak.metal]
    return [at for at in graph.leads_on(leak.net) if at != metal and _is_on_the_way(graph, at)]


def bond_of(graph: CircuitGraph, leak: Leak) -> Join | None:
    """The one mounting that puts the line on the metal, where it is one."""
    index = graph.circuit.index
    return bond_to_blame(graph, index[leak.metal], [*inlets_of(graph, leak), index[leak.side]])


def enumerated(names: list[str], *, last: bool) -> str:
    """Names in a row; ``last`` is whether no other follows them."""
    if last and len(names) > 1:
        return f"{', '.join(names[:-1])} and {names[-1]}"
    return ", ".join(names)


def _parted(graph: CircuitGraph, leak: Leak, original: InOriginal) -> str:
    """What to do about metal that is joined to the line; a supply that returns through it would float without."""
    if leak.metal == graph.circuit.common and is_off_the_line(graph):
        if original is InOriginal.ABSENT:
            return "undo that joint: in the original the supply returns apart from the chassis; or "
        return (
            f"leave the joint{_doubt(original, 'it')}, it is the return of the supply: fit a polarized cord with the "
            "neutral on this side, and "
        )
    bond = bond_of(graph, leak)
    return f"{parted_by(graph, bond) if bond is not None else 'undo that joint'}, or "


def _lessened(graph: CircuitGraph, leak: Leak, ways: list[Part], original: InOriginal) -> str:
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
    return f"fit a Y2 of {SMALL} or less for {capacitor.name}; {_besides(others, original)}"


def _besides(others: list[str], original: InOriginal) -> str:
    """What to do about what passes more than the limit beside a capacitor."""
    them, passes = ("them", "pass") if len(others) > 1 else ("it", "passes")
    alone = f"{enumerated(others, last=True)} alone {passes} more than the limit"
    if original is InOriginal.ABSENT:
        return f"{alone}: take {them} out, the original does not have {them}"
    return f"{alone}: leave {them}{_doubt(original, them)}"


def _doubt(original: InOriginal, them: str) -> str:
    return f" if the original has {them}" if original is InOriginal.UNKNOWN else ""


def _accept(subject: str) -> str:
    return f'accept it: `accept hot-chassis {subject} "why"`'


def _is_on_the_way(graph: CircuitGraph, at: int) -> bool:
    part = graph.part_of(at)
    return part is not None and part.kind.family in _ON_THE_WAY
