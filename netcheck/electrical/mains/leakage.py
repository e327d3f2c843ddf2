"""How much current of the line a hand would draw from the chassis, or from other metal that it can touch.

The metal is taken as held at earth, one side of the line at its full volts, the other at earth: that is the plug one
way round; where nothing tells its blades apart, the other way round follows. The switches are tried in all their
positions together. The largest current counts. A rectifier passes current as it lies: both ways, as where its direct
current has no capacitor to charge, or as the direct current of what it charges; the larger of the two is told. So it
is with heaters, hot and cold: a set that is switched off has cold ones.
"""

from collections.abc import Iterable, Mapping, Sequence
from math import inf

from msgspec import Struct
from msgspec.structs import replace

from netcheck.core.budget import Budget
from netcheck.core.circuit import Part
from netcheck.electrical.mains.currents import Bench, Spots
from netcheck.electrical.mains.flow import Flow, Share
from netcheck.electrical.mains.impedance import Passage, passages, passages_of, with_cold_heaters
from netcheck.electrical.mains.line import hertz_of, line_of, mains_of, touched_metal
from netcheck.electrical.mains.near_metal import NearMetal
from netcheck.electrical.mains.settings import Setting, settings
from netcheck.model.graph import CircuitGraph

__all__ = ["EARTHED_LIMIT", "LIMIT", "Leak", "Share", "is_over_with", "leaks"]

LIMIT = 0.0005  # amperes; service manuals of televisions, leakage check with 1.5 kilohm: 0.75 V
EARTHED_LIMIT = 0.0035  # amperes; class I, stationary, IEC 60950-1, from memory
MOST_SOLVED = 200_000
"""Branches of the networks that are solved and settings of plug and switches that are tried, over all metal; of metal
after that nothing is worked out, and that is told."""

USUAL_VOLTS = 120.0


class Leak(Struct, frozen=True):
    """What reaches one piece of metal at its worst; ``amperes`` is infinite where it is joined to the line.

    ``direct`` is the part of it that is direct current. ``ways`` are the largest first, or the cord alone; ``parts``
    and ``nets`` are those on the largest, from the metal to the line. ``side`` is the cord's lead that is hot then,
    ``switched`` how a switch stands where that matters (``S1 open``). Metal on the neutral of a plug with a wide
    blade is no leak, but ``on_neutral``. ``unsaid`` are the parts whose missing values make it, each with the word to
    add; ``complete`` is False where the switches stand in more ways than were tried.
    """

    net: int
    metal: str
    amperes: float
    limit: float
    ways: tuple[Share, ...]
    side: str
    switched: str = ""
    parts: tuple[str, ...] = ()
    nets: frozenset[int] = frozenset()
    on_neutral: bool = False
    direct: float = 0.0
    unsaid: tuple[tuple[str, str], ...] = ()
    complete: bool = True

    @property
    def is_over(self) -> bool:
        """Whether it is more than may be."""
        return self.amperes > self.limit

    @property
    def is_joint(self) -> bool:
        """Whether nothing at all holds it back."""
        return self.amperes == inf


def leaks(graph: CircuitGraph) -> tuple[Leak, ...]:
    """The current that each piece of metal passes at its worst, the chassis first; none without a cord."""
    return graph.once(_leaks)


class _Scene(Struct, frozen=True):
    """All that the leaks of one circuit are worked out from; ``near`` are its passages with hot heaters, and cold."""

    volts: float
    hertz: float
    metals: Mapping[int, str]
    ways: tuple[Setting, ...]
    complete: bool
    near: tuple[NearMetal, ...]

    def benches(self, net: int) -> list[Bench]:
        """What can carry current into one piece of metal, each way that the heaters may be."""
        return [Bench(self.volts, self.hertz, each.around(net)) for each in self.near]


def _scene(graph: CircuitGraph) -> _Scene | None:
    line = line_of(graph)
    if line is None:
        return None
    volts, hertz = mains_of(graph.circuit) or (USUAL_VOLTS, hertz_of(graph.circuit))
    hot = passages(graph, hertz)
    cold = with_cold_heaters(hot)
    metals = touched_metal(graph)
    ways, complete = settings(graph, line, hot, metals)
    held = {graph.circuit.nets[side.lead] for side in line.sides}
    near = tuple(NearMetal(every, ways, held) for every in ((hot,) if hot == cold else (hot, cold)))
    return _Scene(volts, hertz, metals, ways, complete, near)


def _leaks(graph: CircuitGraph) -> tuple[Leak, ...]:
    scene = graph.once(_scene)
    if scene is None:
        return ()
    solving = Budget(MOST_SOLVED)
    found = []
    for net, name in scene.metals.items():
        benches = scene.benches(net)
        if not solving.spend(len(scene.ways) + sum(len(each.carriers) for each in benches)):
            break
        metal = _Metal(net, name, _limit(graph, net))
        cases = [_leak(graph, metal, scene.ways, each) for each in benches]
        found.append(replace(max(cases, key=lambda leak: leak.amperes), complete=scene.complete))
    return tuple(found)


def is_over_with(graph: CircuitGraph, name: str, part: Part) -> bool:
    """Whether a piece of metal is over its limit with a part of another value in place of its namesake.

    A value moves no lead: plug and switches still stand in the same ways, and the same can carry current to the metal.
    """
    scene = graph.once(_scene)
    net = next((leak.net for leak in leaks(graph) if leak.metal == name), None)
    if scene is None or net is None:
        return False
    metal = _Metal(net, name, _limit(graph, net))
    otherwise = passages_of(graph, part, scene.hertz)
    return any(_is_over(graph, metal, scene.ways, each.with_part(part.name, otherwise)) for each in scene.benches(net))


def _is_over(graph: CircuitGraph, metal: "_Metal", ways: Sequence[Setting], bench: Bench) -> bool:
    return any(max(_currents(graph, metal, ways, each)[1]) > metal.limit for each in (bench.stated, bench))


def not_solved(graph: CircuitGraph) -> tuple[str, ...]:
    """The metal whose current was not worked out, as there is too much of it in one network."""
    return () if line_of(graph) is None else tuple(touched_metal(graph).values())[len(leaks(graph)) :]


def _leak(graph: CircuitGraph, metal: "_Metal", ways: Sequence[Setting], bench: Bench) -> Leak:
    """The leak of what states its value, or with parts that state none at their worst."""
    leak = _worst(graph, metal, ways, bench.stated)
    if bench.stated is not bench and not leak.is_over:
        return _with_unsaid(leak, _worst(graph, metal, ways, bench), bench.carriers)
    return leak


def _with_unsaid(leak: Leak, worst: Leak, every: Iterable[Passage]) -> Leak:
    """The leak with parts whose values are missing at their worst, where that is what puts it over its limit."""
    missing = {each.part: each.does.unsaid for each in every if each.does.unsaid}
    unsaid = tuple((name, missing[name]) for name in worst.parts if name in missing)
    return replace(worst, unsaid=unsaid or tuple(missing.items())) if worst.is_over else leak


class _Metal(Struct, frozen=True):
    net: int
    name: str
    limit: float


def _limit(graph: CircuitGraph, net: int) -> float:
    said, line = graph.circuit.leakage, line_of(graph)
    if said is not None:
        return float(said.amount)
    return EARTHED_LIMIT if line is not None and net == line.earth else LIMIT


def _worst(graph: CircuitGraph, metal: _Metal, ways: Sequence[Setting], bench: Bench) -> Leak:
    """The leak of the setting with the most current, the first of equals: it is as drawn where that is one of them."""
    spots, currents = _currents(graph, metal, ways, bench)
    best = max(range(len(ways)), key=lambda at: (currents[at], spots[at].on_neutral))
    return _told(graph, metal, (ways[best], spots[best]), bench)


def _currents(
    graph: CircuitGraph, metal: _Metal, ways: Sequence[Setting], bench: Bench
) -> tuple[list[Spots], list[float]]:
    """Where line and metal are in each setting, and the current then."""
    nets = graph.circuit.nets
    spots = [Spots(way.of(nets[way.hot]), way.of(nets[way.cold]), way.of(metal.net)) for way in ways]
    kept = {metal.net, nets[ways[0].hot], nets[ways[0].cold], *(net for way in ways for net in way.root)}
    quick = bench.seen_from(kept) if len(ways) > 1 else bench
    return spots, [quick.amperes(way, at) for way, at in zip(ways, spots, strict=True)]


def _told(graph: CircuitGraph, metal: _Metal, case: tuple[Setting, Spots], bench: Bench) -> Leak:
    way, at = case
    point = graph.point(way.hot)
    bare = Leak(metal.net, metal.name, 0.0, metal.limit, (), point.name, way.said, on_neutral=at.on_neutral)
    if at.metal == at.hot:
        reached = way.all_of({at.hot}) | {metal.net}
        return replace(bare, amperes=inf, ways=(Share(point.part, inf),), parts=(point.part,), nets=reached)
    if at.is_joint:
        return bare
    solved = bench.solved(way, at)
    flow = Flow(solved.branches, solved.volts, at.hot, solved.drives)
    _, ways = flow.into(at.metal)
    reached = way.all_of({at.metal, at.hot, *flow.nets}) | {metal.net}
    return replace(
        bare, amperes=solved.amperes, direct=solved.direct, ways=ways, parts=tuple(flow.parts), nets=reached
    )  # fmt: skip
