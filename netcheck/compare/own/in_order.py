"""Orders that hold in the order in which they are printed, and all of them together: else none is told."""

from collections.abc import Iterable, Iterator
from dataclasses import fields

from netcheck.compare.faults.account import accounted
from netcheck.compare.faults.hands import tried
from netcheck.compare.pair import Pair
from netcheck.compare.words.rewording import unordered, waiting
from netcheck.core.circuit import Circuit
from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.mend import Change, Mend

__all__ = ["in_order"]

_WORDS = frozenset({"words", "reason"})


def in_order(pair: Pair, found: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """The findings in their order; of two whose first mends get in each other's way the later one waits.

    Every mend was tried on the state as it is; this holds them against each other.
    """
    circuit = pair.real.circuit
    told: list[Diagnostic] = []
    before_all = sorted(found, key=lambda d: d.order)
    for diagnostic in before_all:
        before = [d for d in told if d.mends and d.grade is not Grade.NOTE]
        if diagnostic.mends and diagnostic.grade is not Grade.NOTE:
            shared = next(_clashes(circuit, before, diagnostic), None)
            told.append(diagnostic if shared is None else waiting(diagnostic, shared))
        else:
            told.append(diagnostic)
    return tuple(told) if _put_all_right(pair, told) else tuple(map(_without_order, before_all))


def _put_all_right(pair: Pair, told: Iterable[Diagnostic]) -> bool:
    """Whether the chassis is as drawn once all first mends are done as they are printed; nothing printed is no claim.

    What is only noted is the same to the circuit, but not to the count: it is put back for that.
    """
    mends = [d.mends[0] for d in told if d.mends]
    state: Circuit | None = pair.real.circuit
    for mend in mends:
        state = None if state is None else tried(state, mend)
    if pair.table is None or not any(map(_is_of_joints, mends)):
        return True
    return state is not None and accounted(pair.table, state).cost == 0


def _without_order(diagnostic: Diagnostic) -> Diagnostic:
    if diagnostic.grade is Grade.NOTE or not any(map(_is_of_joints, diagnostic.mends)):
        return diagnostic
    return unordered(diagnostic)


def _is_of_joints(mend: Mend) -> bool:
    return not all(isinstance(act, Change) for act in mend)


def _clashes(circuit: Circuit, before: Iterable[Diagnostic], later: Diagnostic) -> Iterator[frozenset[str]]:
    for earlier in before:
        shared = _names(earlier.mends[0]) & _names(later.mends[0])
        if shared and not _commute(circuit, earlier.mends[0], later.mends[0]):
            yield shared


def _names(mend: Mend) -> frozenset[str]:
    """The points and parts that a mend is about; the words of its wires and changes are no such names."""
    return frozenset(getattr(act, one.name) for act in mend for one in fields(act) if one.name not in _WORDS)


def _commute(circuit: Circuit, one: Mend, other: Mend) -> bool:
    """Whether two mends can be done in either order and come to the same nets."""
    ends = [_nets(circuit, first, second) for first, second in ((one, other), (other, one))]
    return ends[0] is not None and ends[0] == ends[1]


def _nets(circuit: Circuit, *mends: Mend) -> list[int] | None:
    """Each point with the first point that it is one with, after mends; None where one can't be carried out."""
    now: Circuit | None = circuit
    for mend in mends:
        now = None if now is None else tried(now, mend)
    if now is None:
        return None
    first: dict[int, int] = {}
    return [first.setdefault(net, at) for at, net in enumerate(now.nets[: len(circuit.points)])]
