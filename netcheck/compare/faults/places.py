"""Where one can solder, and which place of a net a hand would choose."""

from collections.abc import Collection, Iterator, Sequence

from netcheck.compare.faults.hands import Hands
from netcheck.core.circuit import How
from netcheck.core.kind import Family, Role, Seat
from netcheck.core.mend import Mend
from netcheck.model.graph import CircuitGraph

__all__ = ["bare_place", "gap_to", "is_place", "nearest_places", "own_places", "spare_wires"]


def is_place(graph: CircuitGraph, at: int) -> bool:
    """Whether one can solder to a point: a lug, a pin, a can, the chassis; not the end of a small part."""
    point, part = graph.point(at), graph.part_of(at)
    if at == 0:
        return True
    if part is None or point.terminal is None or part.host:
        return False
    return point.terminal.role is Role.LUG or part.kind.seat in (Seat.SOCKET, Seat.CAN) or len(part.leads) > 2


def nearest_places(graph: CircuitGraph, net: int, near: int) -> Sequence[int]:
    """The places of a net, seen from a point; leads of small parts, a section's not among them, where it has none.

    Beside the point; on the same strip or socket, its foot first; a lug before a pin; fewer leads; by name. The pins
    of a socket whose tube went out come last: it may go out too.
    """
    own, beside = graph.point(near).part, graph.beside(near)
    chassis = graph.circuit.nets[0]

    def order(at: int) -> tuple[object, ...]:
        point = graph.point(at)
        terminal = point.terminal
        return (
            at not in beside,
            not own or point.part != own,
            _is_of_dead_socket(graph, at),
            at == 0,
            not (terminal is not None and "foot" in terminal.aliases and net == chassis),
            terminal is not None and terminal.role is not Role.LUG,
            len(graph.joins_at[at]),
            point.name,
        )

    found = [at for at in graph.members.get(net, ()) if at != near and is_place(graph, at)]
    if found:
        return sorted(found, key=order)
    ends = [at for at in graph.leads_on(net) if at != near]
    return ends or [at for at in graph.members.get(net, ()) if at != near and graph.point(at).net_name]


def own_places(graph: CircuitGraph, drawn: CircuitGraph, nets: tuple[int, int], near: int) -> Sequence[int]:
    """The places of a net of the original, where it is now, those last that the drawing has on another.

    A wrong wire itself may have led there; of two free ends either may be on the other's net. ``nets`` are the old net
    and the new one.
    """
    old, new = nets

    def is_of_another(at: int) -> bool:
        there = drawn.circuit.index.get(graph.point(at).name)
        if there is None or not drawn.joins_at[there] or _is_free(graph, at):
            return False
        return drawn.circuit.nets[there] != old

    return sorted(nearest_places(graph, new, near), key=is_of_another)


def _is_free(graph: CircuitGraph, at: int) -> bool:
    part, terminal = graph.part_of(at), graph.point(at).terminal
    return part is not None and terminal is not None and any(terminal.name in pair for pair in part.free)


def _is_of_dead_socket(graph: CircuitGraph, at: int) -> bool:
    part = graph.part_of(at)
    return part is not None and part.kind.seat is Seat.SOCKET and part.kind.family is Family.PLACE


def bare_place(graph: CircuitGraph, near: int, without: int) -> int:
    """A lug or pin with nothing on it beside a place; ``without`` where there is none."""
    return next((at for at in graph.beside(near) if not graph.joins_at[at]), without)


def gap_to(graph: CircuitGraph, site: int, group: list[int], home: int) -> tuple[int, int] | None:
    """A lug of the group and the lug beside it that has its net, the first lead's own lug first."""
    there = {at for at in graph.members[home] if _is_lug(graph, at)}
    for at in (site, *(at for net in group for at in graph.members[net])):
        near = next((other for other in graph.beside(at) if other in there), None)
        if near is not None:
            return at, near
    return None


def _is_lug(graph: CircuitGraph, at: int) -> bool:
    terminal = graph.point(at).terminal
    return terminal is not None and terminal.role is Role.LUG


def spare_wires(hands: Hands, group: Collection[int], home: int) -> Iterator[Mend]:
    """Wires of the net that hold nothing where they are, one lug beside what hangs free: they were to go there.

    They hold nothing where something else joins the same, and where nothing else is on that lug.
    """
    graph = hands.real
    for at in (at for net in sorted(group) for at in graph.members[net]):
        for beside in (other for other in graph.beside(at) if graph.circuit.nets[other] == home):
            on_it = hands.joints(beside)
            for join in on_it:
                if join.how is How.WIRE and (len(on_it) == 1 or not graph.parts((join,), {join.a}, {join.b})):
                    yield hands.end_put(join, beside, at)
