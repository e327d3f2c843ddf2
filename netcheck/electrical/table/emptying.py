"""How each capacitor loses its charge after the plug is pulled: as the switches stand, and with the worst thing open.

That a capacitor is not emptied at all is told by its paths alone; only how long it takes is computed.
"""

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from netcheck.core.circuit import Part
from netcheck.electrical.emptied import is_emptied
from netcheck.electrical.network.elements import Capacitor, Element, Network, Resistor
from netcheck.electrical.network.supplies import translated
from netcheck.electrical.network.translate import network_in
from netcheck.electrical.running.discharge import LIMITS, Discharge, discharge
from netcheck.electrical.table.rows import Emptying
from netcheck.model.graph import CircuitGraph

__all__ = ["emptyings"]

UNBOUNDED = 10_000.0  # volts that stand for no bound while a discharge is timed
MOST_TIMED = 4  # parts whose opening is timed, where none leaves a capacitor charged for good
# What opens in a set, the likeliest first: a switch is opened, a fuse blows, a plug is pulled, a resistor burns out.
_OPENS = ("switch", "fuse", "resistor", "candohm", "rheostat", "pot", "choke", "coil", "lamp", "transformer", "speaker")


def emptyings(graph: CircuitGraph, full: Mapping[str, float]) -> dict[str, Emptying]:
    """The discharge of each capacitor in ``full``, from those volts."""
    translation = translated(graph)
    network = _with_papers(translation.network, translation.papers, full)
    volts = {name: max(min(each, UNBOUNDED), -UNBOUNDED) for name, each in full.items()}
    whole = {one.name: one for one in discharge(network, volts, LIMITS)}
    capacitors = {one.name: one for one in network.elements if isinstance(one, Capacitor)}
    left = {name for name, one in whole.items() if is_emptied(network.elements, capacitors[name])}
    opened = dict(_left_charged(graph, network, {name: capacitors[name] for name in left}))
    slower = _slower(network, volts, whole, left - set(opened))
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


def _left_charged(
    graph: CircuitGraph, network: Network, capacitors: Mapping[str, Capacitor]
) -> Iterator[tuple[str, str]]:
    """For each capacitor the likeliest part that leaves it charged for good when it opens."""
    left = dict(capacitors)
    parts = [part for part in graph.circuit.parts.values() if part.kind.word in _OPENS and part.shape is not None]
    for part in sorted(parts, key=lambda part: _OPENS.index(part.kind.word)):
        elements, known = _without(graph, network, part)
        for name in list(left):
            capacitor = known.get(name)
            if capacitor is None or not is_emptied(elements, capacitor):
                del left[name]
                yield name, part.name
        if not left:
            return


def _without(graph: CircuitGraph, network: Network, part: Part) -> tuple[tuple[Element, ...], dict[str, Capacitor]]:
    """The elements with a part open; a switch or a fuse has none of its own, so that the set is looked at anew."""
    if part.kind.word in ("switch", "fuse"):
        translation = network_in(graph, opened=frozenset({part.name}))
        elements: tuple[Element, ...] = (*translation.network.elements, *translation.papers)
    else:
        elements = tuple(one for one in network.elements if one.name.partition(" ")[0] != part.name)
    return elements, {one.name: one for one in elements if isinstance(one, Capacitor)}


def _slower(
    network: Network, volts: Mapping[str, float], whole: Mapping[str, Discharge], names: set[str]
) -> dict[str, tuple[str, tuple[float | None, float | None]]]:
    """The slowest discharge with one resistor open, of those that nothing leaves charged: the smallest are tried."""
    timed = {name for name in names if whole[name].seconds[0]}
    resistors = sorted((one for one in network.elements if isinstance(one, Resistor)), key=lambda one: one.ohms)
    found: dict[str, tuple[str, tuple[float | None, float | None]]] = {}
    for resistor in [one for one in resistors if one.ohms > 1.0][-MOST_TIMED:] if timed else ():
        for one in discharge(network, volts, LIMITS, resistor.name):
            known = found[one.name][1][0] if one.name in found else whole[one.name].seconds[0]
            if one.name in timed and _is_longer(one.seconds[0], known):
                found[one.name] = (resistor.name, _pair(one.seconds))
    return found


def _is_longer(seconds: float | None, known: float | None) -> bool:
    return (math.inf if seconds is None else seconds) > (math.inf if known is None else known) * (1 + 1e-6)


def _pair(seconds: tuple[float | None, ...]) -> tuple[float | None, float | None]:
    return seconds[0], seconds[1]
