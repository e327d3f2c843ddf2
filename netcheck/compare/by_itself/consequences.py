"""What the rewired state says by itself and no longer says once what was told is mended: a consequence of that.

A lead on a wrong net may short a winding. That is one slip: the finding that makes it says so, and it is not told
again. What makes it is known by trying: the mend without which it is still there.
"""

from collections.abc import Iterable, Sequence

from netcheck.compare.faults.hands import tried
from netcheck.compare.pair import Pair
from netcheck.compare.words.rewording import until_then
from netcheck.core.circuit import Circuit
from netcheck.core.diagnostic import Diagnostic, Grade
from netcheck.engine.rule import Listed
from netcheck.engine.run import run
from netcheck.model.graph import CircuitGraph

__all__ = ["told_with_their_cause"]

Told = tuple[Diagnostic, ...]


def told_with_their_cause(
    pair: Pair, found: Iterable[Diagnostic], own: Told, rules: Sequence[Listed[CircuitGraph]]
) -> tuple[Told, Told]:
    """The comparison's findings, with the rewired state's own that come of them; and those that do not."""
    told, kept = tuple(found), []
    grave = {d.rule for d in own if d.grade is Grade.STOP}
    again = [rule for rule in rules if rule.name in grave]
    still = _said(again, pair.mended.circuit) if again else frozenset()
    for each in own:
        cause = _cause(pair, told, each, again) if each.rule in grave and _about(each) not in still else None
        if cause is None:
            kept.append(each)
        else:
            told = tuple(until_then(d, each) if d is cause else d for d in told)
    return told, tuple(kept)


def _cause(pair: Pair, told: Told, each: Diagnostic, rules: Sequence[Listed[CircuitGraph]]) -> Diagnostic | None:
    """The STOP whose mend alone ends it; where it takes several, the first that has a mend."""
    grave = [d for d in told if d.grade is Grade.STOP and d.mends]
    for finding in grave:
        after = tried(pair.real.circuit, finding.mends[0])
        if after is not None and _about(each) not in _said(rules, after):
            return finding
    return next(iter(grave), None)


def _said(rules: Sequence[Listed[CircuitGraph]], circuit: Circuit) -> frozenset[tuple[object, ...]]:
    return frozenset(map(_about, run(rules, CircuitGraph(circuit))))


def _about(diagnostic: Diagnostic) -> tuple[object, ...]:
    return diagnostic.rule, diagnostic.touched.parts or diagnostic.headline
