"""The fewest slips that explain a rewired state: suspected slips are undone on the chassis, and it is accounted anew.

While undoing one leaves an account that needs fewer slips, that is what happened. Work is counted in trials, so that
the result is the same on every machine.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

from netcheck.compare.faults.account import Account, accounted
from netcheck.compare.faults.hands import tried
from netcheck.compare.faults.laid import Table
from netcheck.compare.faults.slips import Joint, Slip
from netcheck.compare.faults.suspects import doubt, doubtful_nets, suspected
from netcheck.compare.faults.told import told
from netcheck.compare.roles.alike import alike
from netcheck.core.circuit import Circuit
from netcheck.core.difference import Fault, Way
from netcheck.core.mend import Mend

__all__ = ["STRANGERS", "Explained", "explained"]

_ROUNDS = 8
_ACCOUNTS = 16
"""So many of the most promising slips have their account drawn up in full."""

_WORK = 400_000
"""Points laid over all trials of a round: over a thousand slips on a chassis, a few on the largest files."""

_RANK: dict[Joint | Way, int] = {Way.TURNED: 0, Way.ROUND: 2}
"""Of equal accounts: a part turned round is likelier than its two leads exchanged, and a ring the last."""

STRANGERS = 40
"""With more faults than this it is another circuit: no slip of a hand is told apart in that."""


@dataclass(frozen=True, slots=True, eq=False)
class Explained:
    """The slips that were found, each with the fault that it is and the mend that undoes it; ``left`` has the rest."""

    first: Account
    found: tuple[tuple[Fault, Mend], ...]
    left: Account


def explained(table: Table, rewired: Circuit) -> Explained:
    """The account of a state with the fewest slips that was found."""
    first = now = accounted(table, rewired)
    found: list[tuple[Fault, Mend]] = []
    for _ in range(_ROUNDS if len(first.faults) <= STRANGERS else 0):
        better = _better(table, now)
        if better is None:
            break
        slip, fault, now = better
        found.append((fault, slip.mend))
    return Explained(first, tuple(found), now)


def _better(table: Table, now: Account) -> tuple[Slip, Fault, Account] | None:
    """The slip that with what it leaves needs fewest; of equals the harmless, the likelier, the least work."""
    nets = doubtful_nets(now)
    if not nets:
        return None
    best: tuple[Slip, Fault, Account] | None = None
    most = now.cost + doubt(now)
    least: tuple[int, bool, int, int] = (most, True, max(_RANK.values()), 0)
    for slip, circuit in _promising(table, now, nets):
        after = accounted(table, circuit)
        worth = (after.cost + slip.cost, not _is_harmless(now, slip), _RANK.get(slip.what, 1), len(slip.mend))
        if worth < least and after.cost + slip.cost < most:
            fault = told(table, now, slip, after)
            if fault is not None:
                best, least = (slip, fault, after), worth
    return best


def _is_harmless(now: Account, slip: Slip) -> bool:
    """Whether what was exchanged is the same to the circuit."""
    parts = now.real.circuit.parts
    if slip.what is Way.PARTS:
        return alike(parts[slip.parts[0]], parts[slip.parts[1]])
    return slip.what is Way.UNITS


def _promising(table: Table, now: Account, nets: frozenset[int]) -> Iterator[tuple[Slip, Circuit]]:
    """The suspected slips without which there is less disorder, with the state without them; the best ones first."""
    most = max(10, _WORK // len(now.real.circuit.points))
    found: list[tuple[int, int, Slip, Circuit]] = []
    for number, slip in enumerate(islice(suspected(now, nets, table.original.circuit), most)):
        circuit = tried(now.real.circuit, slip.mend)
        if circuit is None or circuit.nets[: len(now.real.circuit.nets)] == now.real.circuit.nets:
            continue
        left = table.laid(circuit).disorder
        if left < now.laid.disorder:
            found.append((left, number, slip, circuit))
    for _, _, slip, circuit in sorted(found, key=lambda item: item[:2])[:_ACCOUNTS]:
        yield slip, circuit
