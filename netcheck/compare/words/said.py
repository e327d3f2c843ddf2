"""Lines that a message proposes: what the rewired file would have to say for a joint to be compared."""

from collections.abc import Iterator, Sequence

from netcheck.compare.pair import Pair

__all__ = ["meant_lines"]


def meant_lines(pair: Pair, points: Sequence[int]) -> Iterator[str]:
    """``meant B+2: R70.1`` for some leads of the rewired state, as they are joined now; a line a net.

    Where a new lead is with no other one, its net is left to be named.
    """
    circuit = pair.real.circuit
    for net in dict.fromkeys(circuit.nets[at] for at in points):
        name = _original_name(pair, net)
        leads = [at for at in points if circuit.nets[at] == net]
        if not name:  # a net that the drawing does not have: all that is new on it makes it
            leads = sorted({at for _, others in pair.pairing.unsaid for at in others if circuit.nets[at] == net})
            name = _new_name(pair, net) if len(leads) > 1 else "NET"
        yield f"meant {name}: {', '.join(circuit.points[at].name for at in leads)}"


def _original_name(pair: Pair, net: int) -> str:
    """What the original calls a net, as it can be written: a spoken name has blanks in it."""
    original = pair.original
    old = pair.home.old_of.get(_bridged(pair, net))
    if old is None:
        return ""
    declared = original.declared_names(old)
    if old == original.circuit.nets[0]:
        return "chassis"
    return declared[0] if declared else original.point(original.members[old][0]).name


def _bridged(pair: Pair, net: int) -> int:
    """The net's number where the inserted parts are bridged."""
    return pair.as_shown.circuit.nets[pair.real.members[net][0]]


def _new_name(pair: Pair, net: int) -> str:
    """The rewired file's own name, else a number among the nets that only new parts make."""
    declared = pair.real.declared_names(net)
    if declared:
        return declared[0]
    nets = pair.real.circuit.nets
    fresh = dict.fromkeys(nets[at] for _, points in pair.pairing.unsaid for at in points)
    numbered = [other for other in fresh if not _original_name(pair, other)]
    return f"new-{numbered.index(net) + 1}"
