"""How grave it is that a part is asked for more than it is rated for, or for nearly as much."""

from collections.abc import Collection, Iterator
from enum import Enum

from msgspec import Struct

from netcheck.core.circuit import Circuit, Part, StateOfWork
from netcheck.electrical.duties import Demand, Duty, duties
from netcheck.electrical.shorts import shorts
from netcheck.model.graph import CircuitGraph

__all__ = ["Degree", "Overload", "overloads"]

NEARLY = 0.8  # of a rating: makers take a fifth off for a hot chassis, or for a load with a capacitor
OF_OTHERS = 1.2  # times its rating a part stands that the hands left alone: what changed may be rounding
FAR = 1.5  # times a rating: over it whatever the currents are that the file does not state
EXACT = 1.05  # times a rating: no figure here is better than that


class Degree(Enum):
    """Nearly the rating; over it, but not for sure or as it was built; over it by the work of the hands."""

    NEARLY = "nearly"
    OVER = "over"
    BURNS = "burns"


class Overload(Struct, frozen=True):
    """A part that is asked for too much, and how far that goes."""

    part: Part
    duty: Duty
    degree: Degree


def overloads(graph: CircuitGraph, asked: Collection[Demand]) -> Iterator[Overload]:
    """The parts asked for too much of some kinds; none while a winding is shorted, which is told instead."""
    found = [one for one in duties(graph) if one.asked in asked]
    if not found or graph.once(shorts):
        return
    for one in found:
        part = graph.circuit.parts[one.part]
        degree = _degree(graph.circuit, part, one)
        if degree is not None:
            yield Overload(part, one, degree)


def _degree(circuit: Circuit, part: Part, duty: Duty) -> Degree | None:
    work = circuit.state not in (StateOfWork.DRAWN, StateOfWork.FOUND)
    chosen = part.place.source is circuit.source
    if duty.share <= EXACT:
        near = work and chosen and duty.share > NEARLY and not duty.remembered
        return Degree.NEARLY if near and duty.asked in (Demand.WATTS, Demand.MEAN, Demand.RIPPLE) else None
    if not work or duty.remembered or duty.asked is Demand.SURGE:
        return Degree.OVER
    if duty.asked is Demand.VOLTS:  # a resistor's volts wear it out, not burn it
        return Degree.BURNS if duty.share > FAR else Degree.OVER
    sure = duty.surely or duty.share > FAR
    return Degree.BURNS if sure and (chosen or duty.share > OF_OTHERS) else Degree.OVER
