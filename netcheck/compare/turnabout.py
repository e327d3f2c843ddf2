"""A polarised part the wrong way round, in words."""

from netcheck.compare.describe import fitting, here, labels, net_name, touched
from netcheck.compare.pair import Pair
from netcheck.compare.panels import exchanged
from netcheck.core.circuit import Part
from netcheck.core.difference import Exchange, Move
from netcheck.engine.rule import Finding

__all__ = ["is_turned", "turnabout"]


def is_turned(pair: Pair, fault: object) -> Part | None:
    """The polarised two-lead part that an exchange turned round."""
    if not isinstance(fault, Exchange):
        return None
    part = pair.rewired.circuit.parts.get(fault.one.leads[0].part)
    if part is None or part.shape is None or part.shape.polarity is None:
        return None
    return part


def turnabout(pair: Pair, part: Part, fault: Exchange, words: tuple[str, str] | None, why: str) -> Finding:
    """The finding for a part turned round; ``words`` name its plus and minus ends where its leads' names don't."""
    plus = part.shape.polarity[0] if part.shape and part.shape.polarity else ""
    first, second = _plus_first(pair, fault, plus)
    ends = words or (first.leads[0].name, second.leads[0].name)
    plus_on, minus_on = net_name(pair, first.wrong_net), net_name(pair, second.wrong_net)
    return Finding(
        fitting(
            f"{part.name} is backwards: {ends[0]} is on {plus_on} and {ends[1]} on {minus_on}",
            f"{part.name} is backwards: {ends[0]} is on {plus_on}",
            f"{part.name} is backwards",
        ),
        labels(pair, first.leads) + labels(pair, second.leads)[:1],
        do=f"turn it round: {ends[0]} to {_place(pair, first, second)}, {ends[1]} to {_place(pair, second, first)}",
        why=why,
        touched=touched(pair, (*first.leads, *second.leads), first.old_net, second.old_net),
        panel=exchanged(pair, fault),
    )


def _plus_first(pair: Pair, fault: Exchange, plus: str) -> tuple[Move, Move]:
    terminal = pair.rewired.point(fault.one.leads[0].new).terminal
    if terminal is not None and terminal.name == plus:
        return fault.one, fault.other
    return fault.other, fault.one


def _place(pair: Pair, move: Move, other: Move) -> str:
    """Where an end belongs: the very place where the other end is now."""
    name = net_name(pair, move.old_net)
    place = here(pair, other.leads[0])
    return f"{place} ({name})" if place and place != name else name
