"""The account of a rewired state, reconsidered where one slip of the hand explains what seemed to be several.

Where the account leaves room for doubt each suspected slip is undone on the joints, and the account drawn up anew.
A slip is taken for what happened where it and what is then left are fewer than the account had.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice

from netcheck.compare.faults.account import Account, Accountant
from netcheck.compare.faults.slips import Astray, Bridge, Slip, undone
from netcheck.compare.faults.strands import Homes
from netcheck.compare.faults.suspects import cost_elsewhere, doubtful_nets, hiding, suspected, unbonded_groups
from netcheck.compare.faults.told import told
from netcheck.core.circuit import Circuit
from netcheck.core.difference import Fault, Merge, Move, Split
from netcheck.model.graph import CircuitGraph

__all__ = ["Outcome", "reconsidered"]

_ROUNDS = 4
_ACCOUNTS = 16
"""So many of the most promising slips have their account drawn up in full."""

_SLIPS = 6
"""With more faults than this it is another circuit, or other names: no slip of a hand is told apart in that."""

_TWO = 2
"""A lug without its bond that is joined to another net is two slips, and better told as two than as one move."""

_WORK = 200_000
"""Points laid over all trials of a round: some hundreds of slips on a chassis, a few on the largest files."""


@dataclass(frozen=True, slots=True, eq=False)
class Outcome:
    """The faults of a rewired state, spoken of the graph ``shown``; ``left`` is the account without them."""

    shown: CircuitGraph
    home: Homes
    faults: tuple[Fault, ...]
    left: Account


def reconsidered(accountant: Accountant, rewired: Circuit) -> Outcome:
    """The account of a state with the fewest slips that was found."""
    first = now = accountant.account(rewired)
    found: list[tuple[Slip, Fault]] = []
    for _ in range(_ROUNDS if len(first.faults) <= _SLIPS else 0):
        better = _better(accountant, now)
        if better is None:
            break
        slip, fault, now = better
        found.append((slip, fault))
    shown = now if all(isinstance(slip, Bridge | Astray) for slip, _ in found) else first
    graph = shown.laid.graph
    nets_shown = graph.circuit.nets
    home = {old: nets_shown[new] for old, new in now.home.new_of.items()}
    return Outcome(
        graph,
        Homes(home, {new: old for old, new in home.items()}),
        tuple(_on(graph, fault) for fault in (*(fault for _, fault in found), *now.faults)),
        now,
    )


def _better(accountant: Accountant, now: Account) -> tuple[Slip, Fault, Account] | None:
    """The slip that with what it leaves needs fewer than the account now, the best of those that were tried."""
    guessed = [fault for fault in hiding(now) if not _mends(accountant, now, Bridge(fault.culprits[0]))]
    floating = unbonded_groups(now)
    nets = doubtful_nets(now, (*guessed, *floating))
    if not nets:
        return None
    cost, least = now.cost + len(guessed) + _TWO * len(floating), cost_elsewhere(now, nets)
    best: tuple[Slip, Fault, Account] | None = None
    for slip, circuit in _promising(accountant, now, nets):
        one = _judged(accountant, now, slip, circuit)
        if one is not None and one[2].cost + 1 < cost:
            best, cost = one, one[2].cost + 1
            if cost <= least + 1:
                break
    return best


def _mends(accountant: Accountant, now: Account, slip: Slip) -> bool:
    return accountant.laid(undone(now.real.circuit, slip)).disorder < now.disorder


def _promising(accountant: Accountant, now: Account, nets: frozenset[int]) -> Iterator[tuple[Slip, Circuit]]:
    """The suspected slips without which there is less disorder, with the state without them; the best ones first."""
    most = max(10, _WORK // len(now.real.circuit.points))
    found: list[tuple[int, int, Slip, Circuit]] = []
    for number, slip in enumerate(islice(suspected(now, nets, accountant.original.circuit), most)):
        circuit = undone(now.real.circuit, slip)
        if circuit.nets == now.real.circuit.nets:
            continue
        left = accountant.laid(circuit).disorder
        if left == 0:
            yield slip, circuit
        elif left < now.disorder + len(now.bridged):
            found.append((left, number, slip, circuit))
    for _, _, slip, circuit in sorted(found, key=lambda item: item[:2])[:_ACCOUNTS]:
        yield slip, circuit


def _judged(accountant: Accountant, now: Account, slip: Slip, circuit: Circuit) -> tuple[Slip, Fault, Account] | None:
    account = accountant.account(circuit)
    fault = told(accountant, now, slip, account)
    return None if fault is None else (slip, fault, account)


def _on(graph: CircuitGraph, fault: Fault) -> Fault:
    """A fault with its nets numbered as in a graph; a net's number is a point of it in every graph."""
    nets = graph.circuit.nets
    match fault:
        case Split(home=home, new_net=new) | Move(home=home, new_net=new):
            return replace(fault, home=nets[home], new_net=nets[new])
        case Merge(new_net=new, parted=parted):
            rest = None if parted is None else replace(parted, home=nets[parted.home], new_net=nets[parted.new_net])
            return replace(fault, new_net=nets[new], parted=rest)
        case _:
            return fault
