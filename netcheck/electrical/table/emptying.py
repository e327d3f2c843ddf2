"""How each capacitor loses its charge after the plug is pulled: as the switches stand, and with the worst thing open.

That a capacitor is not emptied at all is told by its paths alone; only how long it takes is computed.
"""

import math
from collections.abc import Iterable, Iterator, Mapping

from msgspec.structs import replace

from netcheck.core.circuit import Part
from netcheck.core.kind import Family
from netcheck.electrical.emptied import emptied
from netcheck.electrical.network.elements import Capacitor, Inductor, Network, Resistor, part_of
from netcheck.electrical.network.supplies import translated
from netcheck.electrical.network.translate import draft_of
from netcheck.electrical.running.discharge import LIMITS, Discharge, discharge
from netcheck.electrical.table.rows import Emptying
from netcheck.model.graph import CircuitGraph

__all__ = ["emptyings"]

UNBOUNDED = 10_000.0  # volts that stand for no bound while a discharge is timed
MOST_TIMED = 4  # parts whose opening is timed, where none leaves a capacitor charged for good
# What opens in a set, the likeliest first: a switch is opened, a fuse blows, a plug is pulled, a resistor burns out.
_OPENS = (
    Family.SWITCH, Family.FUSE, Family.RESISTOR, Family.CONTROL, Family.INDUCTOR, Family.LAMP, Family.TRANSFORMER,
    Family.SPEAKER,
)  # fmt: skip


def emptyings(graph: CircuitGraph, full: Mapping[str, float]) -> dict[str, Emptying]:
    """The discharge of each capacitor in ``full``, from those volts."""
    translation = translated(graph)
    network = _with_papers(translation.network, translation.papers, full)
    volts = {name: max(min(each, UNBOUNDED), -UNBOUNDED) for name, each in full.items()}
    whole = {one.name: one for one in discharge(network, volts, LIMITS)}
    left = emptied(network.elements) & whole.keys()
    opened = dict(_left_charged(graph, network, left))
    slower = _slower(graph, network, volts, whole, left - set(opened))
    found = {}
    for name, one in whole.items():
        if name not in full:
            continue
        seconds = _pair(one.seconds) if name in left or not one.seconds[0] else (None, None)
        worst = (opened[name], (None, None)) if name in opened and seconds[0] else slower.get(name, ("", (None, None)))
        found[name] = Emptying(full[name], seconds, *worst)
    return found


def _with_papers(network: Network, papers: Iterable[Capacitor], full: Mapping[str, float]) -> Network:
    more = tuple(one for one in papers if one.name in full)
    return replace(network, elements=(*network.elements, *more))


def _left_charged(graph: CircuitGraph, network: Network, left: frozenset[str]) -> Iterator[tuple[str, str]]:
    """For each capacitor the likeliest part that leaves it charged for good when it opens."""
    parts = [part for part in graph.circuit.parts.values() if part.kind.family in _OPENS]
    for part in sorted(parts, key=lambda part: _OPENS.index(part.kind.family)):
        still = left & emptied(_without(graph, network, part).elements)
        yield from ((name, part.name) for name in left - still)
        left = still
        if not left:
            return


def _without(graph: CircuitGraph, network: Network, part: Part) -> Network:
    """The network with a part open; a switch or a fuse has no element of its own, so that the set is looked at anew.

    Nothing is left away then: what hangs on by one net once the part is open keeps its own way to empty.
    """
    if not part.kind.family.closes:
        return replace(network, elements=tuple(e for e in network.elements if part_of(e.name) != part.name))
    translation = draft_of(graph, opened=frozenset({part.name})).finished(lambda elements, _: elements)
    known = {one.name for one in network.elements}
    elements = (one for one in (*translation.network.elements, *translation.papers) if one.name in known)
    return replace(translation.network, elements=tuple(elements))


def _slower(
    graph: CircuitGraph,
    network: Network,
    volts: Mapping[str, float],
    whole: Mapping[str, Discharge],
    names: frozenset[str],
) -> dict[str, tuple[str, tuple[float | None, float | None]]]:
    """The slowest discharge with one part open, of those that no opening leaves charged for good."""
    timed = {name for name in names if whole[name].seconds[0]}
    found: dict[str, tuple[str, tuple[float | None, float | None]]] = {}
    for part in _to_be_timed(graph, network) if timed else ():
        for one in discharge(_without(graph, network, part), volts, LIMITS):
            known = found[one.name][1][0] if one.name in found else whole[one.name].seconds[0]
            if one.name in timed and _is_longer(one.seconds[0], known):
                found[one.name] = (part.name, _pair(one.seconds))
    return found


def _to_be_timed(graph: CircuitGraph, network: Network) -> list[Part]:
    """The parts whose opening may slow a discharge: the largest resistors, chokes, and what is closed in B+."""
    parts = graph.circuit.parts
    resistors = sorted((e for e in network.elements if isinstance(e, Resistor)), key=lambda e: e.ohms)
    burnt = dict.fromkeys(part_of(e.name) for e in resistors[-MOST_TIMED:] if e.ohms > 1.0)
    chokes = dict.fromkeys(part_of(e.name) for e in network.elements if isinstance(e, Inductor))
    closed = (part.name for part in parts.values() if part.kind.family.closes and _is_within(graph, part))
    return [parts[name] for name in (*burnt, *chokes, *closed) if name in parts]


def _is_within(graph: CircuitGraph, part: Part) -> bool:
    """Whether a switch or a fuse is in the supply: one in the line of a transformer is not."""
    nodes = translated(graph).nodes
    return any(graph.circuit.nets[at] in nodes for at in graph.terminals(part))


def _is_longer(seconds: float | None, known: float | None) -> bool:
    return (math.inf if seconds is None else seconds) > (math.inf if known is None else known) * (1 + 1e-6)


def _pair(seconds: tuple[float | None, ...]) -> tuple[float | None, float | None]:
    return seconds[0], seconds[1]
