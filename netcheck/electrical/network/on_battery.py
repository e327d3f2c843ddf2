"""Transformers that a vibrator drives from a battery: what they give no file says by the volts of a line."""

from collections.abc import Collection

from netcheck.core.kind import Family
from netcheck.model.graph import CircuitGraph

__all__ = ["SAY_VIBRATOR", "hangs_on_battery"]

SAY_VIBRATOR = "add what the vibrator makes, for instance `supply B+ to chassis 250 V`"
_LEADING = (Family.SWITCH, Family.FUSE, Family.INDUCTOR)
"""What lies between a battery and what it feeds."""


def hangs_on_battery(graph: CircuitGraph, leads: Collection[int]) -> bool:
    """Whether a battery feeds a winding, by the nets of its leads; a set with a cord is fed by that."""
    circuit = graph.circuit
    if circuit.has(Family.CORD) or not circuit.has(Family.BATTERY):
        return False
    return not set(leads).isdisjoint(graph.once(_fed) - {circuit.nets[circuit.index.get(circuit.common, 0)]})


def _fed(graph: CircuitGraph) -> frozenset[int]:
    """The nets that batteries reach through fuses, chokes and switches however they stand."""
    parts, nets = graph.circuit.parts.values(), graph.circuit.nets
    groups = [{nets[at] for at in graph.terminals(part)} for part in parts if part.kind.family in _LEADING]
    common = nets[graph.circuit.index.get(graph.circuit.common, 0)]
    found = {nets[at] for part in parts if part.kind.family is Family.BATTERY for at in graph.terminals(part)}
    while more := {net for group in groups if not group.isdisjoint(found - {common}) for net in group} - found:
        found |= more
    return frozenset(found)
