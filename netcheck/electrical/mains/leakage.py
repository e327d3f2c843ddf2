"""How much current of the line a hand would draw from the chassis, or from other metal that it can touch.

The metal is taken as held at earth, one side of the line at its full volts, the other at earth: that is the plug one
way round; where nothing tells its blades apart, the other way round follows. The switches are tried in all their
positions together; on a set with many, one at a time. The largest current counts.
"""

import cmath
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain, product
from math import prod

from netcheck.core.circuit import Part
from netcheck.core.quantity import Current, Dimension
from netcheck.electrical.mains.impedance import Passage, passages
from netcheck.electrical.mains.line import Line, closed, contacts, ends, line_of, touched_metal
from netcheck.electrical.mains.phasor import Branch, potentials
from netcheck.model.graph import CircuitGraph

__all__ = ["EARTHED_LIMIT", "LIMIT", "Leak", "Way", "leaks"]

LIMIT = 0.0005  # amperes; service manuals of televisions, leakage check with 1.5 kilohm: 0.75 V
EARTHED_LIMIT = 0.0035  # amperes; class I, stationary, IEC 60950-1, from memory
_WAYS = 32  # in which the switches may stand together; each is one solution, a millisecond or so
USUAL_VOLTS, USUAL_HERTZ = 120.0, 60.0


@dataclass(frozen=True, slots=True)
class Way:
    """The part that a share of the current is held back by, and that share (amperes, effective)."""

    part: str
    amperes: float


@dataclass(frozen=True, slots=True)
class Leak:
    """What reaches one piece of metal at its worst; ``amperes`` is infinite where it is joined to the line.

    ``ways`` are the largest first, or the cord alone; ``parts`` and ``nets`` are those on the largest, from the metal
    to the line. ``side`` is the cord's lead that is hot then, ``switched`` how a switch stands where that matters
    (``with S1 open``). Metal on the neutral of a plug with a wide blade is no leak, but ``on_neutral``.
    """

    net: int
    metal: str
    amperes: float
    limit: float
    ways: tuple[Way, ...]
    side: str
    switched: str = ""
    parts: tuple[str, ...] = ()
    nets: frozenset[int] = frozenset()
    on_neutral: bool = False

    @property
    def is_over(self) -> bool:
        """Whether it is more than may be."""
        return self.amperes > self.limit

    @property
    def is_joint(self) -> bool:
        """Whether nothing at all holds it back."""
        return self.amperes == float("inf")


@dataclass(frozen=True, slots=True)
class _Setting:
    """Which lead is hot, which is not, and what every closed contact makes one."""

    hot: int
    cold: int
    root: Mapping[int, int]
    said: str

    def of(self, net: int) -> int:
        return self.root.get(net, net)

    def all_of(self, roots: set[int]) -> frozenset[int]:
        return frozenset((*roots, *(net for net, root in self.root.items() if root in roots)))


def leaks(graph: CircuitGraph) -> tuple[Leak, ...]:
    """The current that each piece of metal passes at its worst, the chassis first; none without a cord."""
    line = line_of(graph)
    if line is None:
        return ()
    volts, hertz = _mains(graph)
    carriers = passages(graph, hertz)
    settings = tuple(_settings(graph, line))
    found = []
    for net, metal in touched_metal(graph).items():
        each = [_leak(graph, _Metal(net, metal, _limit(graph, line, net)), (s, volts, carriers)) for s in settings]
        found.append(max(each, key=lambda leak: (leak.amperes, leak.on_neutral)))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class _Metal:
    net: int
    name: str
    limit: float


def _mains(graph: CircuitGraph) -> tuple[float, float]:
    said = graph.circuit.mains
    volts = next((q for q in said if q.dimension is Dimension.VOLTAGE), None)
    hertz = next((float(q.amount) for q in said if q.dimension is Dimension.FREQUENCY), USUAL_HERTZ)
    if volts is None:
        return USUAL_VOLTS, hertz
    return float(volts.amount), 0.0 if volts.current is Current.DC else hertz


def _limit(graph: CircuitGraph, line: Line, net: int) -> float:
    said = graph.circuit.leakage
    if said is not None:
        return float(said.amount)
    return EARTHED_LIMIT if net == line.earth else LIMIT


def _settings(graph: CircuitGraph, line: Line) -> Iterator[_Setting]:
    """The plug both ways where it goes in both ways, and the switches in each position."""
    leads = [side.lead for side in line.sides]
    switches = [p for p in graph.circuit.parts.values() if p.kind.word == "switch" and p.shape is not None]
    drawn = {part.name: _position(part) for part in switches}
    for stand in _stands_of(switches, drawn):
        root = _joined(graph, switches, stand)
        moved = " and ".join(f"{name} {_stands(at)}" for name, at in stand.items() if at != drawn[name])
        for hot, cold in (leads, leads[::-1]) if line.alike else (leads,):
            yield _Setting(hot, cold, root, f"with {moved}" if moved else "")


def _stands_of(switches: Sequence[Part], drawn: Mapping[str, str]) -> Iterator[Mapping[str, str]]:
    """How the switches may stand, as drawn first: all together in every way, or one at a time where those are many."""
    places = [sorted((name for name, _ in contacts(part)), key=drawn[part.name].__ne__) for part in switches]
    if prod(map(len, places)) <= _WAYS:
        yield from (dict(zip(drawn, ways, strict=True)) for ways in product(*places))
        return
    yield drawn
    for part, (_, *others) in zip(switches, places, strict=True):
        yield from ({**drawn, part.name: name} for name in others)


def _position(part: Part) -> str:
    return part.features.arguments.get("drawn", contacts(part)[0][0])


def _stands(position: str) -> str:
    return position if position in ("open", "closed") else f"at {position}"


def _joined(graph: CircuitGraph, switches: Iterable[Part], stand: Mapping[str, str]) -> dict[int, int]:
    """Every net that closed contacts and fuses make one with others, with the least of them."""
    made = [closed(graph, part, dict(contacts(part)).get(stand[part.name], ())) for part in switches]
    made += [ends(graph, part) for part in graph.circuit.parts.values() if part.kind.word == "fuse"]
    groups: dict[int, set[int]] = {}
    for a, b in chain(*made):
        group = groups.get(a, {a}) | groups.get(b, {b})
        groups.update(dict.fromkeys(group, group))
    return {net: min(group) for net, group in groups.items()}


def _leak(graph: CircuitGraph, metal: _Metal, case: tuple[_Setting, float, Sequence[Passage]]) -> Leak:
    setting, volts, carriers = case
    nets = graph.circuit.nets
    side, here = graph.point(setting.hot).name, setting.of(metal.net)
    hot, cold = setting.of(nets[setting.hot]), setting.of(nets[setting.cold])
    told = metal.net, metal.name
    if here == hot:
        parts = (graph.point(setting.hot).part,)
        whole = (Way(parts[0], float("inf")),)
        reached = setting.all_of({hot}) | {metal.net}
        return Leak(*told, float("inf"), metal.limit, whole, side, setting.said, parts, reached)
    if cold in (here, hot):
        return Leak(*told, 0.0, metal.limit, (), side, setting.said, on_neutral=here == cold)
    branches = [
        Branch(b.name, setting.of(b.a), setting.of(b.b), b.admittance)
        for carrier in carriers
        for b in carrier.branches
        if not carrier.only_at_metal or here in (setting.of(b.a), setting.of(b.b))
    ]
    flow = _Flow(branches, potentials(branches, {hot: complex(volts), cold: 0j, here: 0j}), hot)
    amperes, ways = flow.into(here)
    reached = setting.all_of({here, hot, *flow.nets}) | {metal.net}
    return Leak(*told, amperes, metal.limit, ways, side, setting.said, tuple(flow.parts), reached)


class _Flow:
    """The currents of one solution, followed from the metal back to the line; it keeps what the largest passes."""

    def __init__(self, branches: Sequence[Branch], volts: Mapping[int, complex], hot: int) -> None:
        self._volts = volts
        self._hot = hot
        self._at: dict[int, list[Branch]] = {}
        for branch in branches:
            if branch.a != branch.b:
                self._at.setdefault(branch.a, []).append(branch)
                self._at.setdefault(branch.b, []).append(branch)
        self.parts: dict[str, None] = {}
        self.nets: set[int] = set()

    def into(self, metal: int) -> tuple[float, tuple[Way, ...]]:
        """The whole current into the metal, and its shares by the part that holds it back."""
        shares: dict[str, complex] = {}
        passed: dict[str, list[Branch]] = {}
        for branch in self._at.get(metal, ()):
            current = branch.admittance * self._volts.get(_other(branch, metal), 0j)
            way = self._back(branch, metal)
            keeper = self._keeper(way).name
            shares[keeper] = shares.get(keeper, 0j) + current
            passed.setdefault(keeper, []).extend(way)
        whole = abs(sum(shares.values(), 0j))
        ways = sorted((Way(name, abs(share)) for name, share in shares.items()), key=lambda w: (-w.amperes, w.part))
        for branch in passed[ways[0].part] if ways else ():
            self.parts[branch.name] = None
            self.nets.update((branch.a, branch.b))
        return whole, tuple(way for way in ways if way.amperes > whole * _TRIFLE)

    def _keeper(self, way: Sequence[Branch]) -> Branch:
        """The branch nearest the metal of those that hold most of the volts: the others feed more than this way."""
        most = max(map(self._drop, way))
        return next(branch for branch in way if self._drop(branch) >= _MOST * most)

    def _drop(self, branch: Branch) -> float:
        return abs(self._volts.get(branch.a, 0j) - self._volts.get(branch.b, 0j))

    def _back(self, branch: Branch, metal: int) -> list[Branch]:
        """The branches from the metal to the line, upwards along the largest current."""
        way, seen, node = [branch], {metal}, _other(branch, metal)
        while node != self._hot and node not in seen:
            seen.add(node)
            onward = [b for b in self._at[node] if _other(b, node) not in seen and self._feeds(b, node)]
            if not onward:
                break
            way.append(max(onward, key=lambda b: abs(b.admittance) * self._drop(b)))
            node = _other(way[-1], node)
        return way

    def _feeds(self, branch: Branch, node: int) -> bool:
        """Whether a branch brings current to a node, by the phase of the volts there."""
        here, there = self._volts.get(node, 0j), self._volts.get(_other(branch, node), 0j)
        turned = cmath.exp(-1j * cmath.phase(here)) if here else 1
        return (there * turned).real > abs(here)


_MOST = 0.25  # of the largest drop
_TRIFLE = 1e-3  # of the whole current, below which a way is not told


def _other(branch: Branch, node: int) -> int:
    return branch.b if branch.a == node else branch.a
