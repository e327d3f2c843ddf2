"""Faults, and parts that are wrong as a whole, with their mends, and the state when these are done."""

from collections.abc import Mapping

from netcheck.compare.faults.hands import tried
from netcheck.compare.faults.laid import Laid, SideBySide
from netcheck.compare.faults.mended import mended
from netcheck.compare.faults.outcome import STRANGERS, Explained, PutRight
from netcheck.compare.faults.whole_parts import lifted, soldered_in, taken_out
from netcheck.core.circuit import Circuit, Part
from netcheck.core.mend import Mend

__all__ = ["put_right"]


def put_right(outcome: Explained, rewired: Circuit) -> PutRight:
    """What undoes each fault, then each part that is wrong as a whole; of two strangers nothing is tried."""
    table, pairing = outcome.table, outcome.table.pairing
    # Parts that each of two files has for itself, which nobody would fit and take out in pairs.
    odd = min(len(pairing.missing), len(pairing.extra))
    strangers = len(outcome.left.faults) + odd > STRANGERS
    across = [] if strangers else [part for part in pairing.dead if _is_across(outcome.left.laid, part)]
    dead = {part.name: lifted(rewired, part) for part in across}
    done = mended(table, outcome, (mend for mends in dead.values() for mend in mends[:1]))
    whole = {} if strangers else _whole_parts(table, done.left, rewired, dead)
    state = _with_whole_parts(done.state, whole)
    return PutRight(state, done.left, done.faults, done.bridged, whole, strangers)


def _whole_parts(
    table: SideBySide, left: Laid, rewired: Circuit, dead: Mapping[str, tuple[Mend, ...]]
) -> Mapping[str, tuple[Mend, ...]]:
    pairing = table.pairing
    olds = {new.name: pair.old[0] for pair in pairing.pairs for new in pair.new}
    found = {part.name: soldered_in(table, left, olds[part.name], part) for part in pairing.unjoined}
    found.update({part.name: taken_out(rewired, part) for part in pairing.extra})
    found.update(dead)
    return found


def _is_across(left: Laid, part: Part) -> bool:
    """Whether a part lies between nets; one with both ends on one net is in nobody's way, and nobody lifts it."""
    return len({left.graph.circuit.nets[at] for at in left.graph.terminals(part)}) > 1


def _with_whole_parts(state: Circuit, whole: Mapping[str, tuple[Mend, ...]]) -> Circuit:
    for mends in whole.values():
        state = (tried(state, mends[0]) if mends else None) or state
    return state
