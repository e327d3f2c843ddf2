"""A polarised part the wrong way round, in words."""

from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import fitting, here, labels, net_beside, net_name, touched
from netcheck.compare.words.orders import ordered
from netcheck.core.circuit import Part
from netcheck.core.difference import Fault, Rearranged, Swap, Way
from netcheck.engine.rule import Finding

__all__ = ["turnabout", "turned_part"]


def turned_part(pair: Pair, fault: Fault) -> Part | None:
    """The polarised two-lead part that a fault turned round."""
    if not isinstance(fault, Rearranged) or fault.way is not Way.TURNED:
        return None
    return pair.as_shown.circuit.parts.get(fault.parts[0])


def turnabout(pair: Pair, part: Part, fault: Rearranged, words: tuple[str, str] | None, why: str) -> Finding:
    """The finding for a part turned round; ``words`` name its plus and minus ends where its leads' names don't."""
    plus = part.polarity[0] if part.polarity else ""
    first, second = sorted(fault.swaps, key=lambda swap: not swap.leads[0].name.endswith(plus))
    end, there = words[0] if words else "its plus", _place(pair, first, second)
    now, right = net_name(pair, first.wrong_net), net_beside(pair, first.old_net, first.leads)
    return Finding(
        fitting(
            f"{part.name} is in backwards: {end} is on {_place(pair, second, first)} and belongs on {there}",
            f"{part.name} is in backwards: {end} is on {now} and belongs on {right}",
            f"{part.name} is in backwards: {end} is on {now}",
            f"{part.name} is in backwards",
        ),
        labels(pair, first.leads) + labels(pair, second.leads)[:1],
        do=f"turn it round: {ordered(pair, fault)}",
        mends=fault.mends,
        why=why,
        touched=touched(pair, (*first.leads, *second.leads), first.old_net, second.old_net),
    )


def _place(pair: Pair, swap: Swap, other: Swap) -> str:
    """Where an end belongs: the very place where the other end is now."""
    name = net_beside(pair, swap.old_net, swap.leads)
    place = here(pair, other.leads[0])
    return f"{place} ({name})" if place and place != name else name
