"""Windings of one transformer against each other: in a closed loop, or in series across the line.

No network has to be solved for it: one core drives them all, each with its volts, from the first lead of its `winding`
line to the last. Whatever is left round a loop of wire drives a current that only the windings' own copper limits; and
what windings in series across the line make together has to come up to the line, or their iron saturates.
"""

from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise

from msgspec import Struct

from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension, first_of
from netcheck.electrical.mains.line import mains_of, net_at
from netcheck.electrical.network.line_fed import Step, as_one, single, way_across
from netcheck.electrical.network.windings import stretch_volts
from netcheck.model.graph import CircuitGraph

__all__ = ["Chain", "Loop", "closed_loops", "opposed_chains"]

AGREE = 0.02  # of the larger volts: copper that drops 3 % in each at full load lets a third of that load go round
SATURATES = 1.25  # times the volts that a winding is made for: small iron takes a tenth more, not a quarter (practice)
SHORTS = 0.2  # from which over three times the full load goes round, and ten times its heat


class Loop(Struct, frozen=True):
    """A loop of windings whose volts do not cancel, or are not said.

    ``volts`` are what is left round it, where the file states them; ``share`` is the same by the largest of them, None
    where it can't be told. To exchange the two leads of the winding ``turned`` makes every loop of the part right.
    """

    part: Part
    windings: tuple[str, ...]
    leads: tuple[str, ...]
    volts: float | None
    share: float | None
    turned: str = ""

    @property
    def is_short(self) -> bool:
        """Whether far more goes round than the windings are made for."""
        return self.share is not None and self.share > SHORTS


class Chain(Struct, frozen=True):
    """Windings in series across the line of which some go against the others.

    ``volts`` are what they are made for together, ``line`` those that stand across them, None where not stated;
    ``shorts`` is whether that burns them, None where it can't be told. To exchange the leads of ``turned`` makes all
    add; it is empty where more than one would have to be.
    """

    part: Part
    windings: tuple[str, ...]
    volts: float | None
    line: float | None
    shorts: bool | None
    turned: str


class _Stretch(Struct, frozen=True):
    winding: str
    leads: tuple[str, str]
    nets: tuple[int, int]
    volts: float | None

    @property
    def back(self) -> "_Stretch":
        """The same, gone through from its other end."""
        (a, b), volts = self.nets, self.volts
        return _Stretch(self.winding, self.leads[::-1], (b, a), None if volts is None else -volts)


def closed_loops(graph: CircuitGraph) -> tuple[Loop, ...]:
    """The loops of windings that short a transformer, load it, or may do so: switches as they are drawn."""
    parts = [p for p in graph.circuit.parts.values() if p.kind.family is Family.TRANSFORMER]
    one = graph.once(as_one)
    return tuple(loop for part in parts for loop in _of_part(part, _nets(graph, part, one)))


def opposed_chains(graph: CircuitGraph) -> tuple[Chain, ...]:
    """The windings in series across the line that do not all go the same way, and make too little together."""
    parts = [p for p in graph.circuit.parts.values() if p.kind.family is Family.TRANSFORMER]
    mains = mains_of(graph.circuit)
    chains = (_chain(part, way_across(graph, part), mains[0] if mains else None) for part in parts)
    return tuple(chain for chain in chains if chain is not None and chain.shorts is not False)


def _chain(part: Part, way: tuple[Step, ...], line: float | None) -> Chain | None:
    signs = [sign for _, sign in way]
    if len(set(signs)) < 2:
        return None
    against = -signs[0] if sum(signs) * signs[0] >= 0 else signs[0]
    few = [name for name, sign in way if sign == against]
    turned = few[0] if len(few) == 1 else ""
    volts = {name: single(part.features.winding_values.get(name, ()), Dimension.VOLTAGE) for name, _ in way}
    known = [sign * said for name, sign in way if (said := volts[name]) is not None]
    names = tuple(volts)
    if len(known) == len(way):
        made_for = abs(sum(known))
        return Chain(part, names, made_for, line, _saturates(made_for, line, max(map(abs, known))), turned)
    alike = not known and len({_stem(name) for name in names}) == 1
    cancel = alike and sum(sign for _, sign in way) == 0
    return Chain(part, names, 0.0 if cancel else None, line, True if cancel else None, turned)


def _saturates(made_for: float, line: float | None, largest: float) -> bool | None:
    if made_for <= AGREE * largest:
        return True
    return None if line is None else line > SATURATES * made_for


def _of_part(part: Part, nets: Mapping[str, int]) -> Iterator[Loop]:
    for loop in _wrong(part, nets):
        turned = (name for name in reversed(loop.windings) if _is_mend(part, nets, name))
        yield Loop(part, loop.windings, loop.leads, loop.volts, loop.share, next(turned, "") if loop.share else "")


def _is_mend(part: Part, nets: Mapping[str, int], winding: str) -> bool:
    """Whether no loop is wrong once the two ends of a winding are exchanged."""
    a, *rest = dict(part.features.windings)[winding]
    return len(rest) == 1 and not any(_wrong(part, {**nets, a: nets[rest[0]], rest[0]: nets[a]}))


def _wrong(part: Part, nets: Mapping[str, int]) -> Iterator[Loop]:
    for way in _loops(_stretches(part, nets)):
        loop = _judged(part, way)
        if loop.share is None or loop.share > AGREE:
            yield loop


def _judged(part: Part, way: tuple[_Stretch, ...]) -> Loop:
    names = tuple(name for name, _ in part.features.windings if any(one.winding == name for one in way))
    leads = tuple(dict.fromkeys(lead for one in way for lead in one.leads))
    known = [one.volts for one in way if one.volts is not None]
    if len(known) == len(way):
        left = abs(sum(known))
        return Loop(part, names, leads, left, left / (max(abs(_of(way, name)) for name in names) or 1.0))
    if len(names) == 1:  # of an output transformer, whose unused half may be tied to its tap
        return Loop(part, names, leads, None, 0.0)
    if not known and len(way) == len(names) and len({_stem(name) for name in names}) == 1:
        signs = sum(_sign(part, one) for one in way)
        return Loop(part, names, leads, None, float(abs(signs)))
    return Loop(part, names, leads, None, None)


def _of(way: tuple[_Stretch, ...], winding: str) -> float:
    return sum(one.volts or 0.0 for one in way if one.winding == winding)


def _stem(name: str) -> str:
    """What alike windings have in common in their names: `primary-1` and `primary-2`."""
    return name.rstrip("0123456789").rstrip("-_")


def _sign(part: Part, one: _Stretch) -> int:
    leads = dict(part.features.windings)[one.winding]
    return 1 if leads.index(one.leads[0]) < leads.index(one.leads[1]) else -1


def _loops(stretches: Iterable[_Stretch]) -> Iterator[tuple[_Stretch, ...]]:
    """Each stretch that closes a loop, with the way back through those before it."""
    tree: list[_Stretch] = []
    for one in stretches:
        back = _way(tree, one.nets[1], one.nets[0])
        if back is None:
            tree += [one, one.back]
        else:
            yield (one, *back)


def _way(tree: list[_Stretch], start: int, end: int) -> tuple[_Stretch, ...] | None:
    """The stretches from one net to another in a tree; None where it does not join them."""
    ways: dict[int, tuple[_Stretch, ...]] = {start: ()}
    frontier = [start]
    for net in frontier:
        for one in tree:
            if one.nets[0] == net and one.nets[1] not in ways:
                ways[one.nets[1]] = (*ways[net], one)
                frontier.append(one.nets[1])
    return ways.get(end)


def _stretches(part: Part, nets: Mapping[str, int]) -> Iterator[_Stretch]:
    for name, leads in part.features.windings:
        values = part.features.winding_values.get(name, ())
        said = first_of(values, Dimension.VOLTAGE)
        volts = stretch_volts(said, len(leads)) or (None,) * (len(leads) - 1)
        for pair, each in zip(pairwise(leads), volts, strict=True):
            if pair[0] in nets and pair[1] in nets:
                yield _Stretch(name, pair, (nets[pair[0]], nets[pair[1]]), each)


def _nets(graph: CircuitGraph, part: Part, one: Mapping[int, int]) -> dict[str, int]:
    """The net of each lead of the windings; nets that a fuse or a switch joins are one."""
    leads = [lead for _, own in part.features.windings for lead in own]
    return {lead: one.get(net, net) for lead in leads if (net := net_at(graph, part, lead)) is not None}
