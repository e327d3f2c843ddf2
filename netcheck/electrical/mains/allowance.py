"""How large a capacitor from the line to metal may be: the usual sizes tried on the circuit itself."""

from decimal import Decimal

from msgspec.structs import replace

from netcheck.core.circuit import Part
from netcheck.core.quantity import MICROFARAD, Dimension, Quantity
from netcheck.core.spelling import spelled
from netcheck.electrical.mains.leakage import is_over_with
from netcheck.model.graph import CircuitGraph

__all__ = ["SMALL", "is_kept_without", "largest_kept"]

_SIZES = (".01", ".0068", ".0047", ".0033", ".0022", ".0015", ".001", ".00047")  # microfarads that Y capacitors come in
SMALL = spelled(Decimal(".0047") * MICROFARAD, Dimension.CAPACITANCE)
"""The usual line-to-chassis capacitor: 0.21 mA at 120 V 60 Hz."""


def largest_kept(graph: CircuitGraph, part: Part, metal: str) -> str:
    """The largest usual value with which the metal stays within its limit, as it is written; empty where none does."""
    if not is_kept_without(graph, part, metal):
        return ""  # something else leaks too much already
    for size in _SIZES:
        farads = Decimal(size) * MICROFARAD
        if not _is_over(graph, part, farads, metal):
            return spelled(farads, Dimension.CAPACITANCE)
    return ""


def is_kept_without(graph: CircuitGraph, part: Part, metal: str) -> bool:
    """Whether the metal is within its limit once the capacitor passes next to nothing."""
    return not _is_over(graph, part, MICROFARAD / 1_000_000, metal)


def _valued(part: Part, farads: Decimal) -> Part:
    """The part with another value before its own: the first of a dimension counts."""
    said = Quantity((farads,), Dimension.CAPACITANCE, spelled(farads, Dimension.CAPACITANCE))
    return replace(part, features=replace(part.features, quantities=(said, *part.features.quantities)))


def _is_over(graph: CircuitGraph, part: Part, farads: Decimal, metal: str) -> bool:
    """Whether the metal is over its limit with this value in the part's place; each is tried once."""
    tried, case = graph.once(_tried), (part.name, farads, metal)
    if case not in tried:
        tried[case] = is_over_with(graph, metal, _valued(part, farads))
    return tried[case]


def _tried(graph: CircuitGraph) -> dict[tuple[str, Decimal, str], bool]:  # noqa: ARG001 - kept with the graph
    return {}
