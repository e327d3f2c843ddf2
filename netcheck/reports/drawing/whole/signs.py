"""What the mends take off and put on, joint by joint, and the circuit without either: what all signs are drawn on.

The state drawn has all taken off that comes off and nothing put on, so that a bridge is a line between two nets and a
missing wire a dashed one. A finding without a mend has no sign: it is told above the picture, and that it has none.
"""

from collections.abc import Iterator, Sequence
from itertools import chain

from msgspec import Struct

from netcheck.core.circuit import UNSOLDERED, Circuit, How, Join
from netcheck.core.mend import Act, Bond, Change, Cut, Insulate, Lift, Mend, Put, Remove, Solder, Wire
from netcheck.core.panel import Mark
from netcheck.core.report import Report
from netcheck.model.acts import applied
from netcheck.model.graph import CircuitGraph

__all__ = ["Changed", "Sign", "changes", "signs_of", "without"]


class Sign(Struct, frozen=True):
    """A joint that comes off or goes on: the finding's number, both ends as points, a wire's words, the act.

    Points are numbered as in the rewired state; what is taken off leaves the numbers as they are.
    """

    number: int
    mark: Mark
    a: int
    b: int
    words: str
    act: str


class Changed(Struct, frozen=True):
    """A part that is itself changed or taken out."""

    number: int
    part: str
    act: str
    out: bool


def signs_of(report: Report, graph: CircuitGraph) -> tuple[Sign, ...]:
    """Of every finding's first mend, on the rewired state as it is; each joint once, under its first number."""
    found: dict[tuple[Mark, frozenset[int]], Sign] = {}
    for number, mend in _mends(report):
        for act in mend:
            for sign in _signs(number, act, graph):
                found.setdefault((sign.mark, frozenset((sign.a, sign.b))), sign)
    return tuple(found.values())


def changes(report: Report) -> tuple[Changed, ...]:
    """The parts that the mends change or take out."""
    acts = ((number, act) for number, mend in _mends(report) for act in mend)
    return tuple(
        Changed(number, act.part, act.line, out=isinstance(act, Remove))
        for number, act in acts
        if isinstance(act, Change | Remove)
    )


def without(report: Report, circuit: Circuit) -> Circuit:
    """The rewired state with all that comes off taken off, and nothing put on."""
    graph = CircuitGraph(circuit)
    for _, mend in _mends(report):
        circuit = _tried(circuit, tuple(chain.from_iterable(_off(act, graph) for act in mend)))
    return circuit


def _mends(report: Report) -> Iterator[tuple[int, Mend]]:
    yield from ((number, found.mends[0]) for number, found in report.numbered if found.mends)


def _tried(circuit: Circuit, mend: Mend) -> Circuit:
    """What two findings both take off is off once."""
    try:
        return applied(circuit, mend)
    except ValueError:
        return circuit if len(mend) < 2 else _tried(_tried(circuit, mend[:1]), mend[1:])


def _off(act: Act, graph: CircuitGraph) -> Iterator[Act]:
    match act:
        case Put(point, _):
            yield Lift(point)
        case Lift() | Cut() | Insulate():
            yield act
        case Remove(part):
            yield from (Lift(point) for point in _leads(part, graph) if _held(point, graph))
        case _:
            return


def _leads(part: str, graph: CircuitGraph) -> Sequence[str]:
    whole = graph.circuit.parts.get(part)
    return [graph.point(at).name for at in graph.terminals(whole)] if whole is not None else []


def _signs(number: int, act: Act, graph: CircuitGraph) -> Iterator[Sign]:
    yield from _come_off(number, act, graph)
    index = graph.circuit.index
    match act:
        case Put(point, to) | Solder(point, to):
            yield Sign(number, Mark.ON, index[point], index[to], "", act.line)
        case Wire(a, b, words):
            yield Sign(number, Mark.ON, index[a], index[b], words or "wire", act.line)
        case Bond() | Insulate():
            yield from _bonds(number, act, graph)
        case _:
            pass


def _come_off(number: int, act: Act, graph: CircuitGraph) -> Iterator[Sign]:
    match act:
        case Lift(point) | Put(point):
            yield from _lifted(number, act, point, graph)
        case Remove(part):
            for point in _leads(part, graph):
                yield from _lifted(number, act, point, graph)
        case Cut(a, b):
            ends = graph.circuit.index[a], graph.circuit.index[b]
            yield Sign(number, Mark.OFF, *ends, _words(ends, graph), act.line)
        case _:
            pass


def _lifted(number: int, act: Act, point: str, graph: CircuitGraph) -> Iterator[Sign]:
    at = graph.circuit.index[point]
    for join in _held(point, graph):
        other = join.a if join.b == at else join.b
        yield Sign(number, Mark.OFF, at, other, join.words if join.how is How.WIRE else "", act.line)


def _held(point: str, graph: CircuitGraph) -> list[Join]:
    """The joints of a lead that hands can undo: where it is soldered, else the net's name that it is listed under."""
    free = [join for join in graph.joins_at[graph.circuit.index[point]] if join.how not in UNSOLDERED]
    return [join for join in free if join.how is not How.NET] or free


def _words(ends: tuple[int, int], graph: CircuitGraph) -> str:
    joins = (join for join in graph.joins_at[ends[0]] if {join.a, join.b} == set(ends))
    return next((join.words or "wire" for join in joins if join.how is How.WIRE), "")


def _bonds(number: int, act: Bond | Insulate, graph: CircuitGraph) -> Iterator[Sign]:
    """The lugs that a mounting joins to the chassis after the act and not before it, or the reverse."""
    after = _tried(graph.circuit, (act,))
    bonded = [{frozenset((j.a, j.b)) for j in state.joins if j.how is How.BOND} for state in (graph.circuit, after)]
    mark = Mark.ON if isinstance(act, Bond) else Mark.OFF
    for ends in sorted(map(sorted, bonded[0] ^ bonded[1])):
        if act.part in {graph.point(at).part for at in ends if at < len(graph.circuit.points)}:
            yield Sign(number, mark, ends[1], ends[0], "bond", act.line)
