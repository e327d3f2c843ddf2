"""The fewest slips that explain a rewired state: suspected slips are undone on the chassis, and it is accounted anew.

While undoing one leaves an account that needs fewer slips, that is what happened. Work is counted in trials, so that
the result is the same on every machine.
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import islice

from msgspec import Struct
from msgspec.structs import replace

from netcheck.compare.faults.account import Account, accounted
from netcheck.compare.faults.doubts import doubt, doubtful_nets
from netcheck.compare.faults.hands import tried
from netcheck.compare.faults.laid import SideBySide
from netcheck.compare.faults.outcome import STRANGERS, Explained
from netcheck.compare.faults.slips import JointFault, Slip
from netcheck.compare.roles.alike import alike
from netcheck.core.circuit import Circuit
from netcheck.core.difference import Fault, Rearranged, Way
from netcheck.core.mend import Mend, names

__all__ = ["Known", "explained", "still_in_vain"]

_ROUNDS = 8
_ACCOUNTS = 16
_ACCOUNTED = 200
"""So many of the most promising slips have their account drawn up in full; of many faults, so many faults in all."""

_OPENINGS = 3
"""So many other slips are tried first where the best one is entangled with what it leaves."""

_WORK = 400_000
"""Points laid over all trials of a round: over a thousand slips on a chassis, a few on the largest files."""

_RANK: dict[JointFault | Way, int] = {Way.TURNED: 0, Way.ROUND: 2}
"""Of equal accounts: a part turned round is likelier than its two leads exchanged, and a ring the last."""

_WHOLE = (Way.MIRRORED, Way.SHIFTED)

_ALTERNATIVES = 2
"""So many accounts that are as good are told beside one."""


def explained(
    table: SideBySide,
    first: Account,
    in_vain: frozenset[Mend] = frozenset(),
    known: "Known | None" = None,
    enough: int = 0,
) -> Explained:
    """The account of a state with the fewest slips that was found.

    Of slips that explain as much the likeliest is undone first. Where that leaves leads wrong that it moved itself,
    two slips are entangled, and another one may have to be undone before it; last, a place that was turned as a whole,
    however much a second slip on it leaves.

    What is known to be ``in_vain`` is not tried. With what is ``known`` of other states of the chassis the slips are
    counted sooner; mends of such an account need not fit the joints, only the nets. So many slips are ``enough``: no
    account of fewer is looked for.
    """
    steps = _steps(table, first, in_vain) if len(first.faults) <= STRANGERS else ()
    best, met = Explained(table, first, (), first), {} if known is None else known
    for number, step in enumerate(steps):
        outcome = _followed(first, step, met)
        if number == 0 or _is_better(outcome, best):
            best = outcome if number == 0 or known is not None else _followed(first, step, {})
        if best.cost <= enough or not _is_entangled(best) or number == _OPENINGS:
            break
    vain = steps[0].in_vain if steps else in_vain
    for step in _steps(table, first, vain, whole=True)[:1] if best.cost > enough and _is_entangled(best) else ():
        outcome = _followed(first, step, {}, whole=True)
        best = min(best, outcome, key=lambda each: each.cost)
    return best


def _is_better(outcome: Explained, best: Explained) -> bool:
    return (outcome.cost, _is_entangled(outcome)) < (best.cost, True)


def _followed(first: Account, step: "_Step", known: "Known", *, whole: bool = False) -> Explained:
    """A first slip, and then always the best one; with ``whole`` the best place that was turned, while there is one.

    Two ways that come to the same nets go on alike: what is found is entered in what is ``known``.
    """
    found = [step]
    while len(found) < _ROUNDS and found[-1].state not in known:
        last = found[-1]
        vain = still_in_vain(last.before.laid.graph.circuit, last.in_vain, last.slip.mend)
        following = next(iter(_steps(last.table, last.after, vain, whole=whole)), None)
        if following is None:
            break
        found.append(following)
    last = found[-1]
    rest = known.get(last.state) or Explained(last.table, last.after, (), last.after)
    for each in reversed(found):
        known[each.state] = rest
        told = ((each.fault, each.mends), *rest.found)
        rest = Explained(rest.table, each.before, told, rest.left, rest.undone + each.slip.cost, each.in_vain)
    return replace(rest, first=first)


def _is_entangled(outcome: Explained) -> bool:
    """Whether what is left is about leads that a mend has moved."""
    moved = {name for _, mends in outcome.found for mend in mends[:1] for act in mend for name in act.line.split()}
    left = {lead.name for fault in outcome.left.faults if not isinstance(fault, Rearranged) for lead in fault.leads}
    return not left.isdisjoint(moved)


class _Step(Struct, frozen=True, eq=False):
    """One slip undone: what it was, told, what undoes it, and the accounts of the state before and of what it leaves.

    What is the same to the circuit is undone in the ``table`` alone: nobody moves it, and all else is told of the
    chassis as it is. ``in_vain`` are the mends tried beside it that left no less disorder.
    """

    table: SideBySide
    after: Account
    slip: Slip
    fault: Fault
    mends: tuple[Mend, ...]
    before: Account
    in_vain: frozenset[Mend]

    @property
    def state(self) -> "_State":
        """What it leaves."""
        return self.table, self.after.real.circuit.nets


_State = tuple[SideBySide, tuple[int, ...]]
Known = dict[_State, Explained]


def still_in_vain(circuit: Circuit, in_vain: Iterable[Mend], *done: Mend) -> frozenset[Mend]:
    """What was tried in vain on nets that mends left as they were: how much is wrong is summed up net by net."""
    touched = frozenset(net for mend in done for net in _nets_of(circuit, mend))
    return frozenset(mend for mend in in_vain if touched.isdisjoint(_nets_of(circuit, mend)))


def _nets_of(circuit: Circuit, mend: Mend) -> set[int]:
    """The nets that a mend is about; of a mounting that of the chassis and all that its part has."""
    found: set[int] = set()
    for name in names(mend):
        points = [circuit.index[name]] if name in circuit.index else [0, *_points_of(circuit, name)]
        found.update(circuit.nets[at] for at in points)
    return found


def _points_of(circuit: Circuit, name: str) -> Iterator[int]:
    return (at for at, point in enumerate(circuit.points) if point.part == name)


def _steps(
    table: SideBySide, now: Account, in_vain: frozenset[Mend] = frozenset(), *, whole: bool = False
) -> Sequence[_Step]:
    """The slips that with what they leave need fewest.

    Of equals the harmless first and a part turned round before it: both diodes of a doubler, which are alike, are in
    backwards, and not in each other's place with an end exchanged. Then the likelier, then what no inserted part has a
    share in: no drawing says where that belongs, and a fuse would go to another circuit with it. Last, the least work.
    What is known to be ``in_vain`` is not tried again. Of ``whole`` places those alone, where there are any.
    """
    nets = doubtful_nets(now, table.original.circuit)
    return _on_some_nets(table, now, nets, in_vain, whole=whole) if nets else ()


def _on_some_nets(
    table: SideBySide, now: Account, nets: frozenset[int], in_vain: frozenset[Mend], *, whole: bool
) -> Sequence[_Step]:
    from netcheck.compare.faults.as_fault import as_fault  # a state in order has no slip to tell

    most = now.cost + doubt(now, table.original.circuit)
    found: list[tuple[tuple[int, bool, int, bool, int], Slip, Account]] = []
    promising, vain = _promising(table, now, nets, in_vain)
    for slip, circuit in promising:
        after = accounted(table, circuit)
        likely = _RANK.get(slip.what, 1)
        graver = not _is_harmless(now, slip) and slip.what is not Way.TURNED
        worth = (after.cost + slip.cost, graver, likely, _has_inserted(now, slip), len(slip.mend))
        if worth[0] < most:
            found.append((worth, slip, after))
    found.sort(key=lambda item: item[0])
    if whole:
        found = [item for item in found if item[1].what in _WHOLE] or found
    voiced = ((worth, slip, as_fault(table, now, slip, after), after) for worth, slip, after in found)
    steps = [(worth, slip, fault, after) for worth, slip, fault, after in voiced if fault is not None]
    best = [item for item in steps if item[0][0] == steps[0][0][0]]
    equals = [(worth[:3], slip) for worth, slip, _, _ in best]
    return [_step(table, now, item, equals, vain) for item in best]


def _step(
    table: SideBySide,
    now: Account,
    found: tuple[tuple[int, bool, int, bool, int], Slip, Fault, Account],
    equals: Sequence[tuple[tuple[int, bool, int], Slip]],
    vain: frozenset[Mend],
) -> _Step:
    """A slip undone; of like parts that changed places only the names are, and nobody moves anything."""
    worth, slip, fault, after = found
    parts = now.real.circuit.parts
    if _is_harmless(now, slip) and not any(parts[name].host for name in slip.parts):  # sections have their marks
        renamed = table.exchanged(slip.ends)
        return _Step(renamed, accounted(renamed, now.real.circuit), slip, fault, (), now, vain)
    return _Step(table, after, slip, fault, (slip.mend, *_as_good(now, slip, worth[:3], equals)), now, vain)


def _as_good(
    now: Account, best: Slip, worth: tuple[int, bool, int], tried: Sequence[tuple[tuple[int, bool, int], Slip]]
) -> tuple[Mend, ...]:
    """What else explains as much, where an inserted part has a share in it: no drawing says where that belongs."""
    others = [slip for its, slip in tried if its == worth and slip is not best] if _has_inserted(now, best) else []
    return tuple(dict.fromkeys(slip.mend for slip in others if _has_inserted(now, slip)))[:_ALTERNATIVES]


def _has_inserted(now: Account, slip: Slip) -> bool:
    parts = now.real.circuit.parts
    return any(name in parts and parts[name].inserted is not None for name in slip.parts)


def _is_harmless(now: Account, slip: Slip) -> bool:
    """Whether what was exchanged is the same to the circuit."""
    parts = now.real.circuit.parts
    if slip.what is Way.PARTS:
        return alike(parts[slip.parts[0]], parts[slip.parts[1]])
    return slip.what is Way.UNITS


def _promising(
    table: SideBySide, now: Account, nets: frozenset[int], in_vain: frozenset[Mend]
) -> tuple[Sequence[tuple[Slip, Circuit]], frozenset[Mend]]:
    """The suspected slips without which there is less disorder, with the state without them, the best ones first.

    And the mends that left no less.
    """
    from netcheck.compare.faults.suspects import suspected

    most = _WORK // len(now.real.circuit.points)
    found: list[tuple[int, int, Slip, Circuit]] = []
    vain = set(in_vain)
    for number, slip in enumerate(islice(suspected(now, nets, table.original), most)):
        circuit = None if slip.mend in vain else tried(now.real.circuit, slip.mend)
        if circuit is None or circuit.nets[: len(now.real.circuit.nets)] == now.real.circuit.nets:
            vain.add(slip.mend)
            continue
        left = table.laid(circuit).disorder
        if left < now.laid.disorder:
            found.append((left, number, slip, circuit))
        else:
            vain.add(slip.mend)
    found.sort(key=lambda item: item[:2])
    full = min(_ACCOUNTS, _ACCOUNTED // max(1, len(now.faults)))
    return [(slip, circuit) for _, _, slip, circuit in found[:full]], frozenset(vain)
