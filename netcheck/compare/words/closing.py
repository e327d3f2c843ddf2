"""The last lines of a comparison: what was compared, what was not, what was taken on trust."""

from collections.abc import Iterable

from netcheck.compare.pair import Pair
from netcheck.compare.words.history import TO_DO
from netcheck.core.circuit import How
from netcheck.core.diagnostic import Diagnostic

__all__ = ["closing_lines", "unchecked_lines"]


def closing_lines(pair: Pair, told: Iterable[Diagnostic]) -> tuple[str, ...]:
    """What silence means here, counted; ``told`` are the findings that stand."""
    pairing, new = pair.pairing, pair.real.circuit
    nets = {pair.original.circuit.nets[lead.old] for lead in pairing.leads}
    lines = [f"compared: {len(pairing.leads) - 1} leads of {len(pairing.pairs)} parts on {len(nets)} nets"]
    lines.extend(unchecked_lines(pair))
    ahead = sum(1 for d in told if d.headline.startswith(TO_DO))
    if new.unfinished:
        lines.append(f"the work is marked unfinished: {ahead} {'joint' if ahead == 1 else 'joints'} still to do")
    return tuple(lines)


def unchecked_lines(pair: Pair) -> tuple[str, ...]:
    """Those of the lines that say what was not looked at."""
    pairing, new = pair.pairing, pair.real.circuit
    lines = []
    if pairing.uncovered:
        lines.append(f"not compared: {pairing.uncovered} parts outside `covers`")
    left = [part.name for part in pairing.removed]
    if left:
        lines.append(f"left out on purpose, so their own joints were not compared: {', '.join(left)}")
    unsaid = [part.name for part, _ in pairing.unsaid]
    if unsaid:
        lines.append(f"not compared, because no `meant` says where their leads belong: {', '.join(unsaid)}")
    joins = sum(1 for join in new.joins if join.how not in (How.INSIDE, How.BOND))
    if new.inherited:
        base = new.sources[-2] if len(new.sources) > 1 else "the base"
        lines.append(f"taken over from {base} and not traced on the chassis: {new.inherited} of {joins} joins")
    if pair.followed:
        meant = ", ".join(f"{lug} for {net}" for lug, net in pair.followed)
        lines.append(f"intended changes end on lugs that are new; what is soldered there was taken for it: {meant}")
    return tuple(lines)
