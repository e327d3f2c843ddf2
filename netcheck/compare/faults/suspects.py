"""Where an account of the faults leaves room for doubt, and which slips of the hand could explain more there.

Nets alone do not always say what the hand did: a wire on the lug beside the right one bridges two rails and leaves
one lead free; where free parts lie across a bridge the cheapest cut may fall on the wrong side of them; an inserted
part is bridged for the comparison and can't be blamed. There every joint near by is a suspect.
"""

from collections import Counter
from collections.abc import Collection, Iterator
from itertools import combinations, product

from netcheck.compare.faults.account import Account, slips_of
from netcheck.compare.faults.inserted import inserted_parts
from netcheck.compare.faults.slips import Astray, Bridge, Exchange, Slip, Unbonded
from netcheck.compare.roles.expected import SHORT
from netcheck.core.circuit import Circuit, How, Join, Part
from netcheck.core.difference import Fault, Merge, Move, Rearranged, Split, Way
from netcheck.model.graph import CircuitGraph
from netcheck.model.points import lead_name

__all__ = ["cost_elsewhere", "doubtful_nets", "hiding", "suspected", "unbonded_groups"]

_SMALL = 3
"""Leads of a net that may seem at home because there are so few."""

_EXCHANGES = 160
"""So many exchanges are tried, those of the leads that are plainly wrong first."""


def doubtful_nets(account: Account, guessed: Collection[Fault]) -> frozenset[int]:
    """The nets of the state as laid on which the account may not be what the hand did; mostly none.

    ``guessed`` are faults that are known to be told of a wrong joint.
    """
    faults = account.faults
    found: set[int] = set()
    for fault in faults:
        if _is_costly(fault) or fault in guessed:
            found |= _nets(account, fault)
    for one, other in combinations(faults, 2):
        if _may_be_one(one, other) and not _reach(account, one).isdisjoint(_reach(account, other)):
            found |= _nets(account, one) | _nets(account, other)
    if faults:
        found |= {account.laid.graph.circuit.nets[account.real.terminals(idle.part)[0]] for idle in account.bridged}
    return frozenset(found)


def hiding(account: Account) -> tuple[Merge, ...]:
    """The bridges across which a part lies with both ends, so that the cut had to guess on which side it belongs."""
    bridges = (fault for fault in account.faults if isinstance(fault, Merge) and fault.parted is None)
    plain = (f for f in bridges if len(f.culprits) == 1 and not f.culprits[0].words.startswith(SHORT))
    return tuple(fault for fault in plain if _hides_parts(account, fault))


def unbonded_groups(account: Account) -> tuple[Move, ...]:
    """The groups of the chassis that are on another net together with a lug that the chassis does not reach."""
    nets = account.laid.graph.circuit.nets
    moves = (fault for fault in account.faults if isinstance(fault, Move) and nets[fault.home] == nets[0])
    return tuple(move for move in moves if _holds_unbonded(account, move))


def _holds_unbonded(account: Account, move: Move) -> bool:
    """Whether such a lug is on the side of the leads that moved, and not a place of the net that they came to."""
    graph, own = account.laid.graph, {lead.new for lead in move.leads}
    nets = graph.circuit.nets
    slips = _unbonded(account.real.circuit, frozenset({nets[move.new_net]}), nets)
    return any(not graph.parts(move.culprits, own, {slip.joint.b}) for slip in slips)


def cost_elsewhere(account: Account, nets: frozenset[int]) -> int:
    """What the faults cost that touch none of some nets."""
    return sum(slips_of(fault) for fault in account.faults if _nets(account, fault).isdisjoint(nets))


def _is_costly(fault: Fault) -> bool:
    bundles = isinstance(fault, Rearranged) and fault.way is Way.LEADS and any(len(s.leads) > 1 for s in fault.swaps)
    return bundles or slips_of(fault) > 1


def _may_be_one(one: Fault, other: Fault) -> bool:
    """Whether two faults on one net can be one slip: not where both only lost something."""
    if isinstance(one, Rearranged) or isinstance(other, Rearranged):
        return isinstance(one, Merge | Move) or isinstance(other, Merge | Move)
    return not (isinstance(one, Split) and isinstance(other, Split))


def _nets(account: Account, fault: Fault) -> set[int]:
    nets = account.laid.graph.circuit.nets
    match fault:
        case Split(home=home, new_net=new) | Move(home=home, new_net=new):
            return {nets[home], nets[new]}
        case Merge(new_net=new, parted=parted):
            return {nets[new], nets[parted.new_net]} if parted else {nets[new]}
        case Rearranged(swaps=swaps):
            return {nets[at] for swap in swaps for at in (swap.leads[0].new, swap.there)}


def _reach(account: Account, fault: Fault) -> set[int]:
    """The nets of a fault, and those at the other ends of its free parts, which may lie the other way round."""
    graph = account.laid.graph
    found = _nets(account, fault)
    for lead in fault.leads if isinstance(fault, Merge | Move | Split) else ():
        part = graph.circuit.parts.get(lead.part)
        if part is not None and part.shape is not None and part.shape.free and len(part.leads) == 2:
            found |= {graph.circuit.nets[at] for at in graph.terminals(part)}
    return found


def _hides_parts(account: Account, fault: Merge) -> bool:
    graph = account.laid.graph
    net = graph.circuit.nets[fault.new_net]
    ends = Counter(graph.point(at).part for at in graph.leads_on(net))
    return any(count > 1 and len(graph.circuit.parts[part].leads) == 2 for part, count in ends.items())


def suspected(account: Account, nets: frozenset[int], original: Circuit) -> Iterator[Slip]:
    """The slips that may explain what is wrong on some nets, the likelier ones first.

    What stands in the original's own files no hand did.
    """
    circuit, laid = account.real.circuit, account.laid.graph.circuit.nets
    own = [
        join
        for join in circuit.joins
        if join.how not in (How.INSIDE, How.BOND) and join.place.source.name not in original.sources
    ]
    yield from _astray(account.real, own, nets, laid)
    yield from _bridges(account, own, nets)
    yield from _exchanges(account, nets, original)
    yield from _unbonded(circuit, nets, laid)


def _astray(real: CircuitGraph, own: list[Join], nets: frozenset[int], laid: tuple[int, ...]) -> Iterator[Slip]:
    for join in own:
        ends = (join.a, join.b) if join.how is How.WIRE else (join.a,)
        for wrong in ends:
            for right in real.beside(wrong):
                if laid[wrong] in nets and (
                    laid[right] in nets or real.circuit.nets[right] != real.circuit.nets[wrong]
                ):
                    yield Astray(join, wrong, right)


def _bridges(account: Account, own: list[Join], nets: frozenset[int]) -> Iterator[Slip]:
    """The joints of nets on which leads of two nets of the original lie."""
    laid = account.laid.graph.circuit.nets
    there = Counter(new for _, new in set(account.laid.pairs))
    joints = [join for join in own if laid[join.a] in nets and there[laid[join.a]] > 1]
    yield from (Bridge(join) for join in sorted(joints, key=lambda join: account.real.cost((join,))))


def _exchanges(account: Account, nets: frozenset[int], original: Circuit) -> Iterator[Slip]:
    laid, real = account.laid, account.real
    here = laid.graph.circuit.nets
    there, was = Counter(new for _, new in laid.pairs), Counter(old for old, _ in laid.pairs)
    wrong: dict[int, None] = {}
    near: dict[int, None] = {}
    for lead, pair in zip(laid.leads, laid.pairs, strict=True):
        if not lead.part or pair[1] not in nets:
            continue
        if pair in laid.displaced:
            wrong[lead.new] = None
        elif was[pair[0]] <= _SMALL or there[pair[1]] <= _SMALL:
            near[lead.new] = None
    inserted = [at for part in inserted_parts(real, original) for at in real.terminals(part) if here[at] in nets]
    wrong.update(dict.fromkeys(inserted))
    pairs = (*combinations(wrong, 2), *product(wrong, near))
    fitting = sorted((pair for pair in pairs if _are_apart(real, *pair)), key=lambda pair: _unlike(real, *pair))
    yield from (Exchange(one, other) for one, other in fitting[:_EXCHANGES])


def _are_apart(real: CircuitGraph, one: int, other: int) -> bool:
    return real.circuit.nets[one] != real.circuit.nets[other]


def _unlike(real: CircuitGraph, one: int, other: int) -> tuple[bool, bool]:
    """The order in which two leads are taken for one another: those of one part first, then of two parts of a kind."""
    first, second = real.part_of(one), real.part_of(other)
    if first is None or second is None:
        return True, True
    return first is not second, first.kind is not second.kind


def _unbonded(circuit: Circuit, nets: frozenset[int], laid: tuple[int, ...]) -> Iterator[Unbonded]:
    for part in circuit.parts.values():
        if part.shape is None or "insulated" not in part.features.words or "grounded" in part.features.words:
            continue
        at = _seat(circuit, part)
        if at is not None and laid[at] in nets:
            yield Unbonded(Join(0, at, How.BOND, part.place, part.place))


def _seat(circuit: Circuit, part: Part) -> int | None:
    """The point by which a part would be bonded to the chassis."""
    for terminal in part.shape.terminals if part.shape else ():
        is_foot = "foot" in terminal.aliases
        if is_foot or terminal.name in ("can", "frame", "shield") or part.kind.word == "lug":
            return circuit.index[lead_name(part, terminal.name)]
    return None
