"""Orders that hold in the order in which they are printed, and all of them together: what does not is not told."""

from collections.abc import Iterable, Iterator, Sequence

from netcheck.compare.faults.account import accounted
from netcheck.compare.faults.hands import tried
from netcheck.compare.faults.laid import SideBySide
from netcheck.compare.faults.outcome import Explained
from netcheck.compare.faults.search import Known, explained, still_in_vain
from netcheck.compare.pair import Pair
from netcheck.compare.words.orders import alternatives
from netcheck.compare.words.rewording import reordered, unordered, waiting
from netcheck.core.circuit import Circuit
from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.core.mend import Change, Mend, names

__all__ = ["in_order"]


def in_order(pair: Pair, found: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """The findings in their order; of two whose first mends get in each other's way the later one waits.

    Every mend was tried on the state as it is; this holds them against each other. Where all of them together leave
    something wrong, those are given that each leave less of it than those before.
    """
    in_turn = sorted(found, key=lambda d: d.order)
    told: list[Diagnostic] = []
    for diagnostic in in_turn:
        told.append(_unhindered(pair, told, diagnostic) if diagnostic.grade is not Grade.NOTE else diagnostic)
    outcome = pair.outcome
    if outcome is None or _put_all_right(pair.real.circuit, outcome.table, told):
        return tuple(told)
    return tuple(_that_hold(pair, _Steps(pair.real.circuit, outcome), in_turn))


def _unhindered(pair: Pair, told: Iterable[Diagnostic], diagnostic: Diagnostic) -> Diagnostic:
    """A finding by the first of its mends that can be done whatever was told before it; else it waits."""
    before = [d for d in told if d.mends and d.grade is not Grade.NOTE]
    hindered = [next(_clashes(pair.real.circuit, before, mend), None) for mend in diagnostic.mends]
    if not hindered or hindered[0] is None:
        return diagnostic
    others = tuple(mend for mend, shared in zip(diagnostic.mends, hindered, strict=True) if shared is None)
    if others and diagnostic.do == alternatives(pair, diagnostic.mends):
        return reordered(diagnostic, alternatives(pair, others), others)
    return waiting(diagnostic, hindered[0])


def _put_all_right(circuit: Circuit, table: SideBySide, told: Iterable[Diagnostic]) -> bool:
    """Whether the chassis is as drawn once all first mends are done as they are printed; nothing printed is no claim.

    What is only noted is the same to the circuit, but not to the count: it is put back for that.
    """
    mends = [d.mends[0] for d in told if d.mends]
    if not any(map(_is_of_joints, mends)):
        return True
    state = _done(circuit, mends)
    return state is not None and accounted(table, state).cost == 0


_FEW = 8
"""Of more orders that do not put everything right together none is given: to try ten took six times as long as the
rest of a comparison."""


class _Steps:
    """How many slips explain what some mends leave; each state is looked at once."""

    def __init__(self, circuit: Circuit, outcome: Explained) -> None:
        self._circuit = circuit
        self._table = outcome.table
        self._known: dict[tuple[Mend, ...], int | None] = {}
        self._met: Known = {}
        self._in_vain = outcome.in_vain
        if all(mends for _, mends in outcome.found):  # else the first table was another
            self._known[()] = outcome.cost

    def is_nearer(self, told: tuple[Mend, ...], each: Mend, *, whole: bool) -> bool:
        """Whether an order after some others leaves fewer slips than these; one of a whole part no more."""
        before, after = self._left(told), self._left((*told, each))
        return before is not None and after is not None and after < before + whole

    def is_nearer_alone(self, each: Mend, *, whole: bool) -> bool:
        """Whether an order leaves fewer slips than there are; an account of so few will do."""
        first = self._left(())
        most = 0 if first is None else first - 1 + whole
        left = self._looked_at((each,), most)
        return left is not None and left <= most

    def _left(self, mends: tuple[Mend, ...]) -> int | None:
        """None where they can't be carried out."""
        if mends not in self._known:
            self._known[mends] = self._looked_at(mends)
        return self._known[mends]

    def _looked_at(self, mends: tuple[Mend, ...], enough: int = 0) -> int | None:
        state = _done(self._circuit, mends)
        if state is None:
            return None
        in_vain = still_in_vain(self._circuit, self._in_vain, *mends)
        return explained(self._table, accounted(self._table, state), in_vain, self._met, enough).cost


def _that_hold(pair: Pair, steps: _Steps, found: Sequence[Diagnostic]) -> Iterator[Diagnostic]:
    """The findings with those orders after each of which fewer slips are left, alone and after the ones before.

    The fewest slips that explain a state are its distance from the original, and each such order is a step to it.
    """
    told: list[Diagnostic] = []
    few = sum(map(_is_ordered, found)) <= _FEW
    for diagnostic in found:
        each = _unhindered(pair, told, diagnostic) if few and _is_ordered(diagnostic) else diagnostic
        if not _is_ordered(diagnostic):
            yield diagnostic
        elif few and each.mends and _is_nearer(pair, steps, told, each):
            told.append(each)
            yield each
        else:
            yield unordered(diagnostic) if each.mends else each


def _is_nearer(pair: Pair, steps: _Steps, told: Sequence[Diagnostic], each: Diagnostic) -> bool:
    whole = any(each.mends[0] in its for its in pair.whole.values())
    before, mend = tuple(d.mends[0] for d in told), each.mends[0]
    return steps.is_nearer_alone(mend, whole=whole) and (not told or steps.is_nearer(before, mend, whole=whole))


def _done(circuit: Circuit, mends: Iterable[Mend]) -> Circuit | None:
    """A state after some mends, each as it is printed; None where one can't be carried out."""
    state: Circuit | None = circuit
    for mend in mends:
        state = None if state is None else tried(state, mend)
    return state


def _is_ordered(diagnostic: Diagnostic) -> bool:
    return diagnostic.grade is not Grade.NOTE and any(map(_is_of_joints, diagnostic.mends))


def _is_of_joints(mend: Mend) -> bool:
    return not all(isinstance(act, Change) for act in mend)


def _clashes(circuit: Circuit, before: Iterable[Diagnostic], later: Mend) -> Iterator[frozenset[str]]:
    for earlier in before:
        shared = names(earlier.mends[0]) & names(later)
        if shared and not _commute(circuit, earlier.mends[0], later):
            yield shared


def _commute(circuit: Circuit, one: Mend, other: Mend) -> bool:
    """Whether two mends can be done in either order and come to the same nets."""
    ends = [_nets(circuit, first, second) for first, second in ((one, other), (other, one))]
    return ends[0] is not None and ends[0] == ends[1]


def _nets(circuit: Circuit, *mends: Mend) -> list[int] | None:
    """Each point with the first point that it is one with, after mends; None where one can't be carried out."""
    now, first = _done(circuit, mends), dict[int, int]()
    nets = () if now is None else now.nets[: len(circuit.points)]
    return [first.setdefault(net, at) for at, net in enumerate(nets)] or None
