"""Leads that are on a wrong net, in words: which, where they belong, and what to move."""

from collections.abc import Callable, Sequence

from msgspec import Struct
from msgspec.structs import replace

from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import fitting, here, labels, net_beside, net_name, touched
from netcheck.compare.words.orders import ordered
from netcheck.core.circuit import How, Join
from netcheck.core.diagnostic import Label
from netcheck.core.difference import Lead, Move
from netcheck.core.kind import Seat
from netcheck.core.source import Place
from netcheck.engine.rule import Finding

__all__ = ["Strayed", "strayed"]


class Strayed(Struct, frozen=True):
    """The leads and the two nets by name; ``at`` is the lug they are on, in brackets, where that says more."""

    names: tuple[str, ...]
    right: str
    wrong: str
    at: str


def strayed(pair: Pair, fault: Move, ways: Callable[[Strayed], tuple[str, ...]], why: str = "") -> Finding:
    """The finding for leads that left a net and are on another; ``ways`` are its headlines, the longest first."""
    right, wrong = net_beside(pair, fault.old_net, fault.leads), net_name(pair, fault.wrong_net)
    place = here(pair, fault.leads[0])
    at = f" ({place})" if place and place != wrong else ""
    wire = _wire(pair, fault)
    ends = () if wire is None else (wire.a, wire.b)
    feet = (_foot(pair, name) for name in (place, *(pair.real.point(end).name for end in ends)))
    why = "; ".join(filter(None, (next(filter(None, feet), ""), why)))
    return Finding(
        fitting(*ways(Strayed(tuple(lead.name for lead in fault.leads), right, wrong, at))),
        _labels(pair, fault.leads, wire),
        do=ordered(pair, fault),
        mends=fault.mends,
        why=why,
        touched=touched(pair, fault.leads, fault.old_net, fault.wrong_net),
    )


def _wire(pair: Pair, fault: Move) -> Join | None:
    """The wire that the rewired file lays, where that is what holds the leads on the wrong net."""
    wires = (join for join in fault.culprits if join.how is How.WIRE and _is_of_rewired(pair, join.place))
    return next(wires, None)


def _labels(pair: Pair, leads: Sequence[Lead], wire: Join | None) -> tuple[Label, ...]:
    """Where the leads are said; what only the original says of them is no place to mend, where a wire holds them."""
    now, *then = labels(pair, leads)
    shown = now if wire is None or _is_of_rewired(pair, now.place) else replace(now, place=wire.statement)
    return (shown, *then)


def _is_of_rewired(pair: Pair, place: Place) -> bool:
    return place.source is pair.real.circuit.source


def _foot(pair: Pair, place: str) -> str:
    """That a lug is the foot of its strip, which holds it to the chassis: it looks like any other lug."""
    graph = pair.real
    at = graph.circuit.index.get(place)
    strip = None if at is None else graph.part_of(at)
    if at is None or strip is None or strip.kind.seat is not Seat.STRIP or strip.shape is None:
        return ""
    terminal = graph.point(at).terminal
    is_foot = terminal is not None and terminal.name in strip.shape.bonded
    return f"{place} is the foot of the strip, which is on the chassis" if is_foot else ""
