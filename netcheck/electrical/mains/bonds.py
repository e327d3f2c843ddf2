"""A mounting that puts the line on the chassis: a can in bare metal, the foot of a strip, the frame of a part."""

from netcheck.core.circuit import How, Join
from netcheck.core.kind import Seat
from netcheck.model.closure import closure
from netcheck.model.graph import CircuitGraph

__all__ = ["bond_to_blame", "parted_by"]


def bond_to_blame(graph: CircuitGraph, metal: int, inlets: list[int]) -> Join | None:
    """The one mounting without which a metal and the line are apart; None where other joints join them as well."""
    circuit = graph.circuit
    for bond in (join for join in circuit.joins if join.how is How.BOND):
        nets = closure(len(circuit.points), (join for join in circuit.joins if join is not bond))
        if all(nets[metal] != nets[at] for at in inlets):
            return bond
    return None


def parted_by(graph: CircuitGraph, bond: Join) -> str:
    """What hands do so that a part no longer touches the chassis."""
    point = graph.point(bond.b)
    part = graph.circuit.parts[point.part]
    if part.kind.seat is Seat.CAN:
        return f"the can {part.name} must not touch the chassis: put it on an insulating wafer"
    if part.kind.seat in (Seat.STRIP, Seat.LUG):
        return f"{point.name} is on the chassis: move what is soldered there to an insulated lug"
    return f"the frame of {part.name} must not touch the chassis: put it on insulating washers"
