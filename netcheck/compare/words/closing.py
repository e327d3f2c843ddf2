"""The last lines of a comparison: what was compared, what was not, what was taken on trust."""

from collections.abc import Iterable

from netcheck.compare.pair import Pair
from netcheck.core.circuit import UNSOLDERED, Circuit
from netcheck.core.diagnostic import Diagnostic
from netcheck.core.wording import listed, number_of

__all__ = ["closing_lines", "unchecked_lines"]

UNSETTLED = "some orders are not given: with them the chassis would not be as drawn"
UNLIKE = "the two have little in common: no slip was looked for and no order was tried; are these the right two files?"


def closing_lines(pair: Pair, told: Iterable[Diagnostic]) -> tuple[str, ...]:
    """What silence means here, counted; ``told`` are the findings that stand."""
    pairing, new = pair.pairing, pair.real.circuit
    nets = {pair.original.circuit.nets[lead.old] for lead in pairing.leads}
    leads, parts = number_of(len(pairing.leads) - 1, "lead"), number_of(len(pairing.pairs), "part")
    lines = [f"compared: {leads} of {parts} on {number_of(len(nets), 'net')}"]
    if pairing.removed:
        lines.append(f"taken out on purpose: {listed([part.name for part in pairing.removed])}")
    if pair.strangers:
        lines.append(UNLIKE)
    elif any(map(_is_unordered, told)):
        lines.append(UNSETTLED)
    lines.extend(unchecked_lines(pair))
    if new.unfinished:
        ahead = sum(map(_is_ahead, told))
        lines.append(f"the work is marked unfinished: {number_of(ahead, 'joint')} still to do")
    return tuple(lines)


def _is_unordered(told: Diagnostic) -> bool:
    from netcheck.compare.words.orders import UNORDERED  # where nothing is told, no order is put into words

    return told.do == UNORDERED


def _is_ahead(told: Diagnostic) -> bool:
    from netcheck.compare.words.rewording import TO_DO

    return told.headline.startswith(TO_DO)


def unchecked_lines(pair: Pair) -> tuple[str, ...]:
    """Those of the lines that say what was not looked at."""
    pairing, new = pair.pairing, pair.real.circuit
    lines = []
    if pairing.uncovered:
        lines.append(f"NOT CHECKED: {number_of(pairing.uncovered, 'part')} outside `covers`")
    unsaid = [part.name for part, _ in pairing.unsaid]
    if unsaid:
        wired = "is wired; no `meant` line says where its leads belong"
        several = "are wired; no `meant` line says where their leads belong"
        lines.append(f"NOT CHECKED: how {listed(unsaid)} {wired if len(unsaid) == 1 else several}")
    if new.inherited:
        lines.append(_copied(new))
    if pair.followed:
        meant = ", ".join(f"{lug} to {net}" for lug, net in pair.followed)
        lines.append(f"intended changes end on new lugs; each was matched to a net by what is soldered to it: {meant}")
    return tuple(lines)


def _copied(new: Circuit) -> str:
    joints = sum(1 for join in new.joins if join.how not in UNSOLDERED)
    base = new.sources[-2] if len(new.sources) > 1 else "the first file"
    are, them = ("is", "it") if new.inherited == 1 else ("are", "them")
    copied = f"{new.inherited} of {number_of(joints, 'joint')} {are} copied from {base}"
    return f"NOT CHECKED: {copied}; nobody has looked at {them} on the chassis"
