"""Mends of whole parts: one that is there and joined to nothing is soldered in, one too many is taken out or lifted."""

from collections.abc import Sequence

from netcheck.compare.faults.hands import Hands, tried
from netcheck.compare.faults.laid import Laid, Table
from netcheck.compare.faults.places import nearest_places
from netcheck.compare.roles.leads import roles_of
from netcheck.core.circuit import Circuit, Part
from netcheck.core.mend import Lift, Mend, Remove, Solder
from netcheck.model.graph import CircuitGraph
from netcheck.model.points import lead_name

__all__ = ["lifted", "soldered_in", "taken_out"]


def soldered_in(table: Table, left: Laid, old: Part, new: Part) -> tuple[Mend, ...]:
    """Each lead of a part soldered to a place of its net, as the nets are once all other mends are done."""
    original, circuit = table.original.circuit, left.graph.circuit
    acts = []
    for was, now in roles_of(old, new).items():
        home = left.home.new_of.get(original.nets[original.index[lead_name(old, was)]])
        at = circuit.index[lead_name(new, now)]
        places = [] if home is None else [to for to in nearest_places(left.graph, home, at) if to < len(circuit.points)]
        if not places:
            return ()
        acts.append(Solder(circuit.points[at].name, circuit.points[places[0]].name))
    return (tuple(acts),) if acts else ()


def taken_out(circuit: Circuit, part: Part) -> tuple[Mend, ...]:
    """A part that the original does not have, out; none where something else is soldered to it."""
    mend = (Remove(part.name),)
    return (mend,) if tried(circuit, mend) is not None else ()


def lifted(circuit: Circuit, part: Part) -> tuple[Mend, ...]:
    """One lead of a part that hangs on one joint taken off, so that the part is out of the circuit."""
    hands = Hands(CircuitGraph(circuit))
    ends: Sequence[int] = hands.real.terminals(part)
    free = [at for at in ends if hands.is_movable(at) and len(hands.joints(at)) == 1]
    if free:
        return ((Lift(hands.name(free[0])),),)
    wires = [hands.joints(hands.stand(at)) for at in ends]
    alone = [joints for joints in wires if len(joints) == 1 and not hands.is_movable(joints[0].b)]
    return (hands.taken_off(alone[0]),) if alone else ()
