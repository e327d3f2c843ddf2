"""What the circuit itself says of a part that is turned round against the original: the proof, with its surety.

Of a part that is turned round against the original the proof is the original's, which other mistakes of the hands can't
spoil; of a reversed rectifier or a moved lead it is the rewired state's, as it is about what hangs behind.
"""

from collections.abc import Iterable, Mapping

from msgspec.structs import replace

from netcheck.compare.pair import Pair
from netcheck.compare.words.describe import fitting, listed
from netcheck.core.circuit import Part
from netcheck.core.diagnostic import Grade
from netcheck.electrical.network.supplies import has_supply
from netcheck.electrical.proof.judgement import Surety, Verdict, WayRound, graded, is_reversed
from netcheck.engine.rule import Finding
from netcheck.model.graph import CircuitGraph

__all__ = ["backwards_now", "is_right", "turned_as_it_should", "with_proof", "with_those_behind"]


def turned_as_it_should(pair: Pair, part: Part, finding: Finding) -> Finding | None:
    """The finding as one about the drawing, where that has the part backwards and the chassis has it right."""
    verdict = _drawn(pair, part)
    if verdict is None or not is_reversed(verdict):
        return None
    return replace(
        finding,
        headline=fitting(f"the drawing shows {part.name} reversed; on the chassis it is right"),
        why=f"{graded(verdict)} (in the original)",
        do=f"leave {part.name} as it is, correct the original, and look which way round the old part was",
        grade=Grade.LOOK,
        panel=None,
    )


def with_proof(pair: Pair, part: Part, finding: Finding) -> Finding:
    """The finding with the reason for which the original's way is the right one, as far as there is one."""
    verdict = _drawn(pair, part)
    if verdict is None or verdict.surety is Surety.CONTRADICTED:
        return finding
    if verdict.way is WayRound.RIGHT:
        return replace(finding, why=f"{finding.why}; the original has it right, {graded(verdict)}")
    if verdict.way is WayRound.UNKNOWN:
        return replace(finding, why=f"{finding.why}; only the original says which way is right, {graded(verdict)}")
    return finding


def with_those_behind(pair: Pair, finding: Finding) -> Finding:
    """The finding of a rectifier with the electrolytics that lie backwards by it, those of the best surety."""
    behind = backwards_now(pair)
    for surety in (Surety.PROVEN, Surety.COMPUTED):
        alike = [verdict for verdict in behind if verdict.surety is surety]
        if alike:
            names = listed([verdict.capacitor for verdict in alike])
            why = f"this reverses {names}; {graded(alike[0])}"
            return replace(finding, why=why)
    return finding


def backwards_now(pair: Pair) -> tuple[Verdict, ...]:
    """The capacitors that lie backwards in the rewired state and are right in the original."""
    now, then = _verdicts(pair.real), _verdicts(pair.original)
    old = {new.name: roles.old[0].name for roles in pair.pairing.pairs for new in roles.new}
    return tuple(
        verdict
        for name, verdict in now.items()
        if is_reversed(verdict) and (before := then.get(old.get(name, name))) and before.way is WayRound.RIGHT
    )


def is_right(graph: CircuitGraph, verdicts: Iterable[Verdict]) -> bool:
    """Whether all capacitors of some verdicts are the right way round in a state."""
    now = _verdicts(graph)
    return all((one := now.get(verdict.capacitor)) is not None and one.way is WayRound.RIGHT for verdict in verdicts)


def _drawn(pair: Pair, part: Part) -> Verdict | None:
    """What the original, with the declared changes made to it, says of the part in this role."""
    old = next((r.old[0].name for r in pair.pairing.pairs if part.name in {p.name for p in r.new}), part.name)
    return _verdicts(pair.original).get(old)


def _verdicts(graph: CircuitGraph) -> Mapping[str, Verdict]:
    if not has_supply(graph):
        return {}
    from netcheck.electrical.polarities import polarities

    return polarities(graph).verdicts
