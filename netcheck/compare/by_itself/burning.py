"""Which findings come first: with them the set, or what hands touch, may burn in the first minute."""

from collections.abc import Iterable

from netcheck.compare.pair import Pair
from netcheck.compare.words.rewording import burning
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import About, Diagnostic
from netcheck.core.kind import Family
from netcheck.core.quantity import Dimension
from netcheck.model.graph import CircuitGraph

__all__ = ["grave_first"]

_FEEDING = (Family.CORD, Family.RECTIFIER, Family.FUSE)

FILTER_VOLTS = 100
"""A capacitor that is rated for more filters a supply; cathodes and bias have less."""


def grave_first(pair: Pair, found: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """The findings, those marked that put something on a net of the line or of a supply, or take it from there."""
    told = tuple(found)
    feeding = _feeding(pair.original) if told else frozenset[str]()
    marked = (burning(d) if About.MISPLACED in d.about and not feeding.isdisjoint(d.touched.nets) else d for d in told)
    return tuple(sorted(marked, key=lambda d: d.order))


def _feeding(graph: CircuitGraph) -> frozenset[str]:
    """The nets that have the power of the line or of a supply behind them, by name; the chassis is where it returns."""
    nets = graph.circuit.nets
    found = {nets[at] for part in graph.circuit.parts.values() if _feeds(part) for at in graph.terminals(part)}
    return frozenset(graph.net_names[net] for net in found if net != nets[0])


def _feeds(part: Part) -> bool:
    volts = part.features.first(Dimension.VOLTAGE)
    if part.kind.family is Family.ELECTROLYTIC:
        return volts is not None and volts.amount > FILTER_VOLTS
    if part.kind.family is Family.TRANSFORMER:
        values = part.features.winding_values.values()
        return any(value.dimension is Dimension.VOLTAGE for winding in values for value in winding)
    return part.kind.family in _FEEDING or part.kind.is_choke
