"""Several two-lead parts that do the work of one: reduced by series and parallel steps to two ends."""

from collections.abc import Iterable
from decimal import Decimal

from msgspec import Struct

from netcheck.core.circuit import Part
from netcheck.core.quantity import Dimension
from netcheck.model.graph import CircuitGraph

__all__ = ["Reduced", "reduced"]


class Reduced(Struct, frozen=True):
    """A two-lead equivalent: its ends (points; the first is plus where ``polarised``), its value and ratings.

    ``amount`` is in the principal dimension's unit, ``volts`` and ``watts`` what the group stands together;
    None where a member does not say. ``carries`` where the amount is the current that the part may carry.
    """

    ends: tuple[int, int]
    polarised: bool
    amount: Decimal | None
    volts: Decimal | None
    watts: Decimal | None
    sums_in_parallel: bool
    carries: bool = False


def reduced(parts: Iterable[Part], graph: CircuitGraph) -> Reduced | None:
    """The one part that a group amounts to; None where it is not a series-parallel group of two-lead parts."""
    members = list(parts)
    if any(len(part.leads) != 2 for part in members):
        return None
    edges = [_single(part, graph) for part in members]
    own = {at for part in members for at in graph.terminals(part)}
    while len(edges) > 1:
        step = _parallel(edges, graph) or _series(edges, graph, own)
        if step is None:
            return None
        one, other, joined = step
        edges = [e for e in edges if e is not one and e is not other] + [joined]
    return edges[0] if edges else None


def _single(part: Part, graph: CircuitGraph) -> Reduced:
    first, second = graph.terminals(part)
    if part.polarity is not None and part.leads[0].name != part.polarity[0]:
        first, second = second, first
    principal = part.kind.principal

    def said(dimension: Dimension | None) -> Decimal | None:
        quantity = part.features.first(dimension) if dimension else None
        return quantity.amount if quantity else None

    return Reduced(
        (first, second),
        part.polarity is not None,
        said(principal),
        said(Dimension.VOLTAGE),
        said(Dimension.POWER),
        principal is Dimension.CAPACITANCE,
        principal is Dimension.CURRENT,
    )


Step = tuple[Reduced, Reduced, Reduced]


def _parallel(edges: list[Reduced], graph: CircuitGraph) -> Step | None:
    nets = graph.circuit.nets
    seen: dict[frozenset[int], Reduced] = {}
    for edge in edges:
        pair = frozenset(nets[end] for end in edge.ends)
        other = seen.setdefault(pair, edge)
        if other is edge:
            continue
        same_way = nets[other.ends[0]] == nets[edge.ends[0]]
        if other.polarised and edge.polarised and not same_way:
            continue
        keep, turned = (other, edge) if other.polarised or not edge.polarised else (edge, other)
        joined = Reduced(
            keep.ends,
            keep.polarised,
            # Of two rectifiers side by side the one that drops less takes the whole current.
            _least(keep.amount, turned.amount)
            if keep.carries
            else _sum(keep.amount, turned.amount, direct=keep.sums_in_parallel),
            _least(keep.volts, turned.volts),
            _plus(keep.watts, turned.watts),
            keep.sums_in_parallel,
            keep.carries,
        )
        return other, edge, joined
    return None


def _series(edges: list[Reduced], graph: CircuitGraph, own: set[int]) -> Step | None:
    """Two edges that meet at a net where nothing else is, but parts declared as added."""
    nets = graph.circuit.nets
    for number, one in enumerate(edges):
        for other in edges[number + 1 :]:
            for i, j in ((1, 0), (0, 1), (0, 0), (1, 1)):
                net = nets[one.ends[i]]
                if net != nets[other.ends[j]] or net == nets[0] or not _private(net, graph, own):
                    continue
                if sum(nets[end] == net for edge in edges for end in edge.ends) != 2:
                    continue
                outer = (one.ends[1 - i], other.ends[1 - j])
                polarised = one.polarised and other.polarised and i != j
                joined = Reduced(
                    outer if i == 1 or not polarised else (outer[1], outer[0]),
                    polarised,
                    _least(one.amount, other.amount)
                    if one.carries
                    else _sum(one.amount, other.amount, direct=not one.sums_in_parallel),
                    _twice_the_least(one.volts, other.volts),
                    _plus(one.watts, other.watts),
                    one.sums_in_parallel,
                    one.carries,
                )
                return one, other, joined
    return None


def _private(net: int, graph: CircuitGraph, own: set[int]) -> bool:
    for at in graph.leads_on(net):
        part = graph.part_of(at)
        if at not in own and part is not None and part.added is None:
            return False
    return True


def _sum(a: Decimal | None, b: Decimal | None, *, direct: bool) -> Decimal | None:
    if a is None or b is None or (not direct and a + b == 0):
        return None
    return a + b if direct else a * b / (a + b)


def _plus(a: Decimal | None, b: Decimal | None) -> Decimal | None:
    return None if a is None or b is None else a + b


def _least(a: Decimal | None, b: Decimal | None) -> Decimal | None:
    return None if a is None or b is None else min(a, b)


def _twice_the_least(a: Decimal | None, b: Decimal | None) -> Decimal | None:
    """Two in series share the volts evenly where balancing resistors are equal, so the weaker one sets the limit."""
    return None if a is None or b is None else 2 * min(a, b)
